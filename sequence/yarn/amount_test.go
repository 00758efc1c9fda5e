package yarn_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
	"stripesong/sequence/yarn"
)

// Old textbooks reckon in yards, pounds and hanks of 840 yards.
var (
	yard  = rat(9144, 10000)        // m
	pound = rat(45359237, 100000)   // g
	grain = rat(6479891, 100000000) // g, 7000 to the pound
)

func yards(n int64) *big.Rat { return new(big.Rat).Mul(rat(n, 1), yard) }

func pounds(grams *big.Rat) *big.Rat { return new(big.Rat).Quo(grams, pound) }

// C. P. Brooks, "Cotton Manufacturing", 1888: 9240 yd of 44s cotton = 11 hanks = 1/4 lb.
func TestHanksOfAPound(t *testing.T) {
	same(t, rat(1, 4), pounds(yarn.Grams(yards(9240), tex(t, "44s cotton"))), "9240 yd of 44s")
	same(t, rat(11, 1), rat(9240, 840), "hanks")
}

// C. P. Brooks, "Cotton Manufacturing", 1888, a whole piece: 60 ends an inch 38
// in in the reed, 38 yd wound, warp 30s; 64 picks an inch on 36 yd, 37.5 in
// wide, weft 36s. 2280 ends; 103 1/7 hanks, 3 lb 7 oz (3.438 lb) of warp; 2 lb
// 13 3/4 oz (2.857 lb) of weft.
func TestYarnOfAWholePiece(t *testing.T) {
	const ends, picks = 60 * 38, 64 * 36 * 36
	assert.Equal(t, 2280, ends)
	same(t, rat(722, 7), rat(ends*38, 840), "103 1/7 hanks of warp")

	warp := pounds(yarn.Grams(yards(ends*38), tex(t, "30s cotton")))
	assert.InDelta(t, 3.438, float(warp), 0.0005)
	assert.InDelta(t, 3+7.0/16, float(warp), 1.0/32)

	weft := pounds(yarn.Grams(yards(picks*75/72), tex(t, "36s cotton")))
	assert.InDelta(t, 2.857, float(weft), 0.0005)
	assert.InDelta(t, 2+13.75/16, float(weft), 1.0/32)
}

// J. T. Taylor, "Cotton Weaving and Designing", 6th ed., 1909 (the year from memory): 1000 /
// (grains in 120 yd) = cotton count: 20 grains, 50s; 25 grains, 40s.
func TestCountOfGrains(t *testing.T) {
	for grains, count := range map[int64]string{20: "50s cotton", 25: "40s cotton"} {
		weight := new(big.Rat).Mul(rat(grains, 1), grain)
		same(t, weight, yarn.Grams(yards(120), tex(t, count)), count)
		same(t, yards(120), yarn.Metres(weight, tex(t, count)), count)
	}
}

// J. T. Taylor, in the same: 60 picks an inch, 34 in wide, 84 yd long: 204 hanks of weft; of
// a count equal to its hanks that is one pound.
func TestHanksOfWeft(t *testing.T) {
	picks, err := measure.ParseDensity("60/in")
	require.NoError(t, err)
	width, err := measure.ParseLength("34 in")
	require.NoError(t, err)
	length, err := measure.ParseLength("84 yd")
	require.NoError(t, err)
	mm := new(big.Rat).Mul(picks.PerMM, length.MM)
	mm.Mul(mm, width.MM)
	metres := mm.Quo(mm, rat(1000, 1))
	same(t, yards(204*840), metres, "204 hanks")
	same(t, pound, yarn.Grams(metres, tex(t, "204 cotton")), "a pound")
}

// Common practice, no source: 22 in at 24 ends an inch is 528 ends; on 4 yd of warp 2112
// yd; of 8/2 cotton, 3360 yd/lb, 0.629 lb.
func TestPoundsOfAWarp(t *testing.T) {
	got := pounds(yarn.Grams(yards(22*24*4), tex(t, "8/2 cotton")))
	assert.InDelta(t, 0.629, float(got), 0.0005)
}

func TestMetresUndoGrams(t *testing.T) {
	for _, count := range []string{"8/2 cotton", "16/2 linen", "Nm 28/2", "tex 7"} {
		same(t, rat(1234567, 89),
			yarn.Metres(yarn.Grams(rat(1234567, 89), tex(t, count)), tex(t, count)), count)
	}
}

func TestMetresOfAnAmount(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"900 m": rat(900, 1),
		"225 g": rat(225*10, 1), // tex 100: 10 m to the gram
		"10 yd": yards(10),
	} {
		a, err := measure.ParseAmount(text)
		require.NoError(t, err)
		same(t, want, yarn.MetresOf(a, rat(100, 1)), text)
	}
	assert.Nil(t, yarn.MetresOf(measure.Amount{}, rat(100, 1)))
}

func TestPackagesRoundUp(t *testing.T) {
	for _, c := range []struct {
		need, each *big.Rat
		want       int
	}{
		{rat(0, 1), rat(100, 1), 0},
		{rat(-5, 1), rat(100, 1), 0},
		{rat(1, 1000), rat(100, 1), 1},
		{rat(100, 1), rat(100, 1), 1},
		{rat(300, 1), rat(100, 1), 3},
		{rat(300001, 1000), rat(100, 1), 4},
		{rat(3, 10), rat(1, 10), 3}, // 0.3 / 0.1 is 3, where floating point finds a little less
	} {
		assert.Equal(t, c.want, yarn.Packages(c.need, c.each), "%v of %v", c.need, c.each)
	}
}
