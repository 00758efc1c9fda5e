package loomwork

import (
	"math"
	"slices"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// MakeUpWords is how long each part of the plan's Warp.MakeUp is, in words: in the units of
// [measure.FormatWarp], so that the parts add up to the length that is told. What is left
// of rounding goes to the parts with the largest remainders, of equal ones the earlier. A
// part that gets none of it is "under" the least there is.
func MakeUpWords(p *plan.Plan) []string {
	grain, least := 1.0, "1 mm"
	switch {
	case p.Units == "in":
		grain, least = inchMM, "1 in"
	case p.Warp.WoundMM >= 2000:
		grain, least = 10, "1 cm"
	}
	parts := p.Warp.MakeUp
	left := int(math.Ceil(p.Warp.WoundMM/grain - 1e-6))
	whole, rest, order := make([]int, len(parts)), make([]float64, len(parts)), []int(nil)
	for i, part := range parts {
		n := math.Floor(part.WoundMM/grain + 1e-6)
		whole[i], rest[i] = int(n), part.WoundMM/grain-n
		left -= whole[i]
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch d := rest[b] - rest[a]; {
		case d > 1e-6:
			return 1
		case d < -1e-6:
			return -1
		}
		return 0
	})
	for _, i := range order[:max(0, min(left, len(order)))] {
		whole[i]++
	}
	words := make([]string, len(parts))
	for i, n := range whole {
		words[i] = measure.FormatWarpPart(float64(n)*grain, p.Units)
		if grain == 10 {
			words[i] = wholeCentimetres(n)
		}
		if n == 0 && parts[i].WoundMM > 0 {
			words[i] = "under " + least
		}
	}
	return words
}

// wholeCentimetres are told in metres from 2 m up.
func wholeCentimetres(n int) string {
	if n >= 200 {
		return decimals(float64(n)/100, 2) + " m"
	}
	return decimals(float64(n), 0) + " cm"
}
