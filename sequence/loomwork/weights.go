package loomwork

import "stripesong/sequence/plan"

// Weights is what the weft of each piece weighs in one colour.
type Weights struct {
	Yarn   int       // which of the plan's
	Grams  []float64 // by piece, hems and the separator after it included
	WarpG  float64
	Per10M float64 // grams of ten metres, to check a count
}

// WeightsOf lists every colour of the plan, so that a scale tells whether what
// is left on a tube will finish a piece.
func WeightsOf(p *plan.Plan) []Weights {
	all := make([]Weights, len(p.Yarn))
	for i, y := range p.Yarn {
		w := Weights{Yarn: i, WarpG: float64(y.WarpM*y.Tex) / 1000, Per10M: y.Tex / 100}
		for _, metres := range y.ByPiece {
			w.Grams = append(w.Grams, float64(metres*y.Tex)/1000)
		}
		all[i] = w
	}
	return all
}
