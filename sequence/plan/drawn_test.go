package plan

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence"
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

// drawn draws each kind of rhythm four thousand times and tells the ranges.
func drawn(t *testing.T, units int) seenRange {
	seen := seenRange{}
	for _, kind := range sequence.Kinds {
		for seed := range uint64(4000) {
			r := drawRhythm(kind, units, rand.New(rand.NewPCG(seed, 1)))
			require.Equal(t, kind, r.Kind)
			if r.Stripes > 0 {
				seen.add(kind+" stripes", r.Stripes)
			}
			switch kind {
			case "repeat":
				seen.add("motif", len(r.Weights))
				seen.add("times", r.Times)
				motif(t, r.Weights, seen)
			case "fibonacci":
				require.Contains(t, []int{1, 2, 3, 5}, r.From)
				seen.add("from", r.From)
				seen.add("terms", r.Terms)
			case "graded":
				require.True(t, r.Ratio.IsInt())
				seen.add("ratio", int(r.Ratio.Num().Int64()))
			case "random":
				seen.add("narrowest", r.Narrowest)
				seen.add("wider by", r.Widest-r.Narrowest)
			case "euclid":
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
	common, alike := int64(0), true
	for _, w := range weights {
		require.True(t, w.IsInt())
		common, alike = gcd(common, w.Num().Int64()), alike && w.Cmp(weights[0]) == 0
		seen.add("weight", int(w.Num().Int64()))
	}
	require.EqualValues(t, 1, common)
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
	}, drawn(t, 120))
	short := drawn(t, 9)
	for what, want := range (seenRange{"even stripes": {2, 3}, "graded stripes": {3, 3}, "random stripes": {4, 4}, "terms": {3, 3}, "times": {2, 2}, "of": {5, 5}, "accents": {2, 3}}) {
		assert.Equal(t, want, short[what], what)
	}
	assert.Equal(t, [2]int{2, 4}, drawn(t, 14)["even stripes"], "a third of 14 is 4 and a bit")
}

// TestBodyBetweenHems, worked by hand: 20 ground picks to the inch make ten
// units of halvdräll, so 22 in woven without hems are 220 units; hems of 1 in
// are 20 picks each, and leave 20 in or 200 units.
func TestBodyBetweenHems(t *testing.T) {
	assert.Equal(t, 220, makePlan(t, "small", []byte(small)).Pieces[0].BodyUnits)
	p := makePlan(t, "small", with(t, small, `hem = "0 in"`, `hem = "1 in"`)).Pieces[0]
	assert.Equal(t, 20, p.HemPicks)
	assert.Equal(t, 200, p.BodyUnits)
	assert.InDelta(t, 22*25.4, p.WovenMM, 1e-9)
}

// TestRhythmsInWords: numbers that were left out are told as what they mean.
func TestRhythmsInWords(t *testing.T) {
	for want, r := range map[string]sequence.Rhythm{
		"3 1, 1 times":                                     {Kind: "repeat", Weights: []*big.Rat{big.NewRat(3, 1), big.NewRat(1, 1)}},
		"1 2, 4 times":                                     {Kind: "repeat", Weights: []*big.Rat{big.NewRat(1, 1), big.NewRat(2, 1)}, Times: 4},
		"fibonacci rising, 5 terms from 1":                 {Kind: "fibonacci", Terms: 5},
		"fibonacci falling, 5 terms from 3":                {Kind: "fibonacci", Terms: 5, From: 3, Direction: "falling"},
		"7 even stripes":                                   {Kind: "even", Stripes: 7},
		"9 graded stripes, widest 2.5 times the narrowest": {Kind: "graded", Stripes: 9, Ratio: big.NewRat(5, 2)},
		"6 random stripes, 2 to 7":                         {Kind: "random", Stripes: 6, Narrowest: 2, Widest: 7},
	} {
		assert.Equal(t, want, rhythmInWords(r))
	}
}
