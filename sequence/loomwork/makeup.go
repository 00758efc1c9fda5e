package loomwork

import (
	"math"
	"slices"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// MakeUpWords is how long each part of the plan's Warp.MakeUp is, as [MakeUpLength] tells
// what [MakeUpMM] gives it; a part that gets nothing of it is "under" the least there is.
func MakeUpWords(p *plan.Plan) []string {
	words := make([]string, len(p.Warp.MakeUp))
	for i, mm := range MakeUpMM(p) {
		if words[i] = MakeUpLength(p, mm); mm == 0 && p.Warp.MakeUp[i].WoundMM > 0 {
			words[i] = "under " + measure.FormatWarpPart(makeUpGrain(p), p.Units)
			if makeUpGrain(p) == 10 {
				words[i] = "under 1 cm"
			}
		}
	}
	return words
}

// makeUpGrain is the least, in mm, that is told of a warp: that of [measure.FormatWarp].
func makeUpGrain(p *plan.Plan) float64 {
	switch {
	case p.Units == "in":
		return inchMM
	case p.Warp.WoundMM >= 2000:
		return 10
	}
	return 1
}

// MakeUpLength is a length of warp, in mm and a whole number of what is told of it at least,
// in words.
func MakeUpLength(p *plan.Plan, mm float64) string {
	if makeUpGrain(p) == 10 {
		return wholeCentimetres(int(math.Round(mm / 10)))
	}
	return measure.FormatWarpPart(mm, p.Units)
}

// MakeUpMM is how much each part of the plan's Warp.MakeUp gets of the length that
// [measure.FormatWarp] tells, in mm, so that the parts add up to it. What is left of
// rounding goes to the parts with the largest remainders, of equal ones the earlier.
func MakeUpMM(p *plan.Plan) []float64 {
	grain, parts := makeUpGrain(p), p.Warp.MakeUp
	left := int(math.Ceil(p.Warp.WoundMM/grain - 1e-6))
	whole, rest, order := make([]float64, len(parts)), make([]float64, len(parts)), []int(nil)
	for i, part := range parts {
		whole[i] = math.Floor(part.WoundMM/grain + 1e-6)
		rest[i] = part.WoundMM/grain - whole[i]
		left -= int(whole[i])
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
	for i := range whole {
		whole[i] *= grain
	}
	return whole
}

// wholeCentimetres are told in metres from 2 m up.
func wholeCentimetres(n int) string {
	if n >= 200 {
		return decimals(float64(n)/100, 2) + " m"
	}
	return decimals(float64(n), 0) + " cm"
}
