package plan

import (
	"math/big"
	"math/rand/v2"
	"slices"

	"stripesong/sequence"
)

// drawRhythm draws the numbers of a rhythm of one kind for so many units: few
// enough stripes to be seen as such, and numbers a weaver would choose herself.
func drawRhythm(kind string, units int, chance *rand.Rand) *sequence.Rhythm {
	r := &sequence.Rhythm{Kind: kind}
	most := max(units/3, 2) // stripes of three units, on the average, can still be seen
	between := func(low, high int) int { return low + chance.IntN(max(high-low, 0)+1) }
	switch kind {
	case "even":
		r.Stripes = between(2, min(21, most))
	case "repeat":
		r.Weights = drawMotif(between(2, 4), chance)
		r.Times = between(2, max(min(6, most/len(r.Weights)), 2))
	case "fibonacci":
		r.From = []int{1, 2, 3, 5}[chance.IntN(4)]
		r.Terms = between(3, min(7, most))
		r.Direction = directions[chance.IntN(len(directions))]
	case "graded":
		r.Stripes = between(3, min(13, most))
		r.Ratio = big.NewRat(int64(between(2, 9)), 1)
		r.Steps = []string{"equal", "proportional"}[chance.IntN(2)]
		r.Direction = directions[chance.IntN(len(directions))]
	case "random":
		r.Stripes = between(4, min(17, most))
		r.Narrowest = between(1, 3)
		r.Widest = r.Narrowest + between(2, 9)
	case "euclid":
		r.Of = between(5, max(min(24, most), 5))
		r.Accents = between(2, r.Of-2)
	}
	if r.Direction != "out-and-back" {
		r.Mirror = chance.IntN(3) == 0
	}
	return r
}

// drawMotif draws weights that are not all alike and have no common measure.
func drawMotif(n int, chance *rand.Rand) []*big.Rat {
	weights, common := make([]int64, n), int64(0)
	for i := range weights {
		weights[i] = 1 + chance.Int64N(6)
		if i == n-1 && slices.Max(weights) == slices.Min(weights) {
			weights[i] = weights[i]%6 + 1
		}
		common = gcd(common, weights[i])
	}
	motif := make([]*big.Rat, n)
	for i, w := range weights {
		motif[i] = big.NewRat(w/common, 1)
	}
	return motif
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

var directions = []string{"rising", "falling", "out-and-back"}

// drawColours draws some of the colours, in the order they are to be taken.
func drawColours(from []int, fewest, most int, chance *rand.Rand) []int {
	n := fewest + chance.IntN(most-fewest+1)
	taken := make([]int, n)
	for i, c := range chance.Perm(len(from))[:n] {
		taken[i] = from[c]
	}
	return taken
}

// drawOrder draws how colours follow each other. Where there are only two,
// they can only take turns.
func drawOrder(colours int, chance *rand.Rand) string {
	if colours > 2 && chance.IntN(3) == 0 {
		return "shuffle"
	}
	return "cycle"
}
