package exact_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/exact"
)

func TestRounding(t *testing.T) {
	for _, c := range []struct {
		r                      *big.Rat
		halfUp, even, up, down int
	}{
		{big.NewRat(0, 1), 0, 0, 0, 0},
		{big.NewRat(1, 2), 1, 0, 1, 0},
		{big.NewRat(49, 100), 0, 0, 1, 0},
		{big.NewRat(1, 1), 1, 2, 1, 1}, // a tie between 0 and 2 goes up
		{big.NewRat(999, 1000), 1, 0, 1, 0},
		{big.NewRat(5, 2), 3, 2, 3, 2},
		{big.NewRat(3, 1), 3, 4, 3, 3},
		{big.NewRat(35, 10), 4, 4, 4, 3},
		{big.NewRat(5, 1), 5, 6, 5, 5},
		{big.NewRat(-1, 2), 0, 0, 0, -1},
		{big.NewRat(-3, 2), -1, -2, -1, -2},
		{big.NewRat(-1, 1), -1, 0, -1, -1},
	} {
		assert.Equal(t, c.halfUp, exact.HalfUp(c.r), "half up of %v", c.r)
		assert.Equal(t, c.even, exact.NearestEven(c.r), "nearest even of %v", c.r)
		assert.Equal(t, c.up, exact.Ceil(c.r), "up from %v", c.r)
		assert.Equal(t, c.down, exact.Floor(c.r), "down from %v", c.r)
	}
}

// No other whole (or even) number lies nearer, and of two as near the greater
// is taken.
func TestRoundingIsNearest(t *testing.T) {
	distance := func(r *big.Rat, n int) *big.Rat {
		d := new(big.Rat).Sub(r, big.NewRat(int64(n), 1))
		return d.Abs(d)
	}
	for den := int64(1); den <= 8; den++ {
		for num := -5 * den; num <= 5*den; num++ {
			r := big.NewRat(num, den)
			whole, even := exact.HalfUp(r), exact.NearestEven(r)
			assert.Zero(t, even%2)
			assert.Negative(t, distance(r, whole).Cmp(distance(r, whole+1)), "%v", r)
			assert.LessOrEqual(t, distance(r, whole).Cmp(distance(r, whole-1)), 0, "%v", r)
			assert.Negative(t, distance(r, even).Cmp(distance(r, even+2)), "%v", r)
			assert.LessOrEqual(t, distance(r, even).Cmp(distance(r, even-2)), 0, "%v", r)
		}
	}
}

func TestRoundingIsBounded(t *testing.T) {
	huge := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(40), nil))
	assert.Equal(t, 1<<50, exact.Floor(huge))
	assert.Equal(t, -1<<50, exact.Floor(new(big.Rat).Neg(huge)))
	assert.Equal(t, 1<<50, exact.HalfUp(big.NewRat(math.MaxInt64, 1)))
}

func TestArithmeticLeavesWhatItIsGiven(t *testing.T) {
	third, half := big.NewRat(1, 3), big.NewRat(1, 2)
	for _, c := range []struct {
		name      string
		got, want *big.Rat
	}{
		{"times", exact.Times(third, half), big.NewRat(1, 6)},
		{"over", exact.Over(third, half), big.NewRat(2, 3)},
		{"plus", exact.Plus(third, half), big.NewRat(5, 6)},
		{"minus", exact.Minus(third, half), big.NewRat(-1, 6)},
		{"whole", exact.Whole(7), big.NewRat(7, 1)},
		{"what remains", exact.Remains(third), big.NewRat(2, 3)},
		{"with a share on top", exact.More(third), big.NewRat(4, 3)},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want.RatString(), c.got.RatString()) })
	}
	assert.Equal(t, "1/3 1/2", third.RatString()+" "+half.RatString())
}

func TestFourDecimals(t *testing.T) {
	for _, c := range []struct {
		r    *big.Rat
		want float64
	}{
		{big.NewRat(1, 3), 0.3333},
		{big.NewRat(2, 3), 0.6667},
		{big.NewRat(1, 20_000), 0.0001}, // a tie goes up
		{big.NewRat(-1, 20_000), 0},
		{big.NewRat(-3, 20_000), -0.0001},
		{big.NewRat(1<<62, 10_000), 461168601842738.7904},
	} {
		assert.Equal(t, c.want, exact.Rounded(c.r), "%v", c.r)
	}
	assert.Equal(t, 0.25, exact.Float(big.NewRat(1, 4)))
	assert.Equal(t, 1.2346, exact.RoundTo(1.23456, 4))
	assert.Equal(t, -0.5, exact.RoundTo(-0.45, 1), "a tie goes away from zero")
	assert.False(t, math.Signbit(exact.RoundTo(-0.01, 1)), "there is no minus before nothing")
}
