package sequence

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seenRange is the least and the most of a number over many draws.
type seenRange map[string][2]int

func (s seenRange) add(what string, n int) {
	if at, ok := s[what]; ok {
		s[what] = [2]int{min(at[0], n), max(at[1], n)}
		return
	}
	s[what] = [2]int{n, n}
}

// drawnRanges draws each kind of rhythm four thousand times and tells the ranges.
func drawnRanges(t *testing.T, units int) seenRange {
	seen := seenRange{}
	for _, kind := range KindNames() {
		for seed := range uint64(4000) {
			switch r := Draw(kind, units, rand.New(rand.NewPCG(seed, 1))).Kind.(type) {
			case *Even:
				seen.add("even stripes", r.Stripes)
			case *Repeat:
				seen.add("motif", len(r.Motif))
				seen.add("times", r.Times)
				motif(t, r.Motif, seen)
			case *Fibonacci:
				require.Contains(t, []int{1, 2, 3, 5}, r.From)
				seen.add("from", r.From)
				seen.add("terms", r.Terms)
			case *Graded:
				require.True(t, r.Ratio.IsInt())
				seen.add("graded stripes", r.Stripes)
				seen.add("ratio", int(r.Ratio.Num().Int64()))
			case *Random:
				seen.add("random stripes", r.Stripes)
				seen.add("narrowest", r.Narrowest)
				seen.add("wider by", r.Widest-r.Narrowest)
			case *Euclid:
				seen.add("of", r.Of)
				seen.add("accents", r.Accents)
				require.LessOrEqual(t, r.Accents, r.Of-2)
			}
		}
	}
	return seen
}

// motif: weights are not all alike and have no common measure.
func motif(t *testing.T, weights []*big.Rat, seen seenRange) {
	common, alike := new(big.Int), true
	for _, w := range weights {
		require.True(t, w.IsInt())
		common.GCD(nil, nil, common, w.Num())
		alike = alike && w.Cmp(weights[0]) == 0
		seen.add("weight", int(w.Num().Int64()))
	}
	require.EqualValues(t, 1, common.Int64())
	require.False(t, alike)
}

// TestDrawnRhythms: the numbers that are drawn keep to what a weaver would
// choose (common practice, no source), and all of that range comes up. In a
// short body stripes of three units, on the average, are left: nine units have
// room for three stripes.
func TestDrawnRhythms(t *testing.T) {
	assert.Equal(t, seenRange{
		"even stripes": {2, 21}, "graded stripes": {3, 13}, "random stripes": {4, 17},
		"motif": {2, 4}, "times": {2, 6}, "weight": {1, 6}, "from": {1, 5}, "terms": {3, 7},
		"ratio": {2, 9}, "narrowest": {1, 3}, "wider by": {2, 9}, "of": {5, 24}, "accents": {2, 22},
	}, drawnRanges(t, 120))
	short := drawnRanges(t, 9)
	for what, want := range (seenRange{
		"even stripes": {2, 3}, "graded stripes": {3, 3}, "random stripes": {4, 4},
		"terms": {3, 3}, "times": {2, 2}, "of": {5, 5}, "accents": {2, 3},
	}) {
		assert.Equal(t, want, short[what], what)
	}
	even := drawnRanges(t, 14)["even stripes"]
	assert.Equal(t, [2]int{2, 4}, even, "a third of 14 is 4 and a bit")
}

// TestRhythmsInWords: a rhythm is told as a weaver would say it.
func TestRhythmsInWords(t *testing.T) {
	motif := []*big.Rat{big.NewRat(3, 1), big.NewRat(3, 2)}
	graded := func(ratio *big.Rat) Rhythm { return Rhythm{Kind: &Graded{9, ratio, equal, rising}} }
	down := Rhythm{Kind: &Fibonacci{5, 3, falling}, Mirror: true}
	back := Rhythm{Kind: &Fibonacci{5, 3, outAndBack}, Mirror: true}
	for want, r := range map[string]Rhythm{
		"3 1.5, 1 times":                                   {Kind: &Repeat{motif, 1}},
		"3 1.5, 4 times, mirrored":                         {Kind: &Repeat{motif, 4}, Mirror: true},
		"fibonacci rising, 5 terms from 1":                 {Kind: &Fibonacci{5, 1, rising}},
		"fibonacci falling, 5 terms from 3, mirrored":      down,
		"fibonacci out-and-back, 5 terms from 3":           back,
		"7 even stripes":                                   {Kind: &Even{7}},
		"6 random stripes, 2 to 7":                         {Kind: &Random{6, 2, 7}},
		"5 accents in 13":                                  {Kind: &Euclid{5, 13}},
		"9 graded stripes, widest 2.5 times the narrowest": graded(big.NewRat(5, 2)),
		"9 graded stripes, widest 2 times the narrowest":   graded(big.NewRat(20004, 10000)),
	} {
		assert.Equal(t, want, r.String())
	}
}
