package loomwork

import "stripesong/sequence/plan"

// Weights is what the weft of each piece weighs in one colour.
type Weights struct {
	Yarn int // which of the plan's
	// by piece, hems, tails to hemstitch with and the separator after it included
	Grams  []float64
	WarpG  float64
	Per10M float64 // grams of ten metres, to check a count
}

// WeightsOf lists every colour of the plan, so that a scale tells whether what
// is left on a tube will finish a piece.
func WeightsOf(p *plan.Plan) []Weights {
	all := make([]Weights, len(p.Yarn))
	for i, y := range p.Yarn {
		w := Weights{Yarn: i, WarpG: float64(y.WarpM*y.Tex) / 1000, Per10M: y.Tex / 100}
		for k, metres := range y.ByPiece {
			if !p.IsWoven(k) && p.HemstitchColour(k) == y.Colour {
				metres += float64(2*p.HemstitchTailMM()) / 1000
			}
			w.Grams = append(w.Grams, float64(metres*y.Tex)/1000)
		}
		all[i] = w
	}
	return all
}
