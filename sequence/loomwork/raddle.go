package loomwork

import "stripesong/sequence/plan"

// Raddle is how the warp is spread before it is beamed.
type Raddle struct {
	Repeat  []int   // ends in each group, over and over
	EachMM  float64 // from one group to the next
	Groups  int     // in all
	Last    int     // ends in the last of them, where the repeat breaks off
	WidthMM float64 // those groups side by side
	Across  int     // spaces the warp fills on the whole, to the nearest: its middle is theirs
}

// RaddleOf groups the ends for a raddle with a space to each centimetre, or inch
// where the plan is in inches. Floating selvedges are apart.
func RaddleOf(p *plan.Plan) Raddle {
	r := Raddle{Repeat: p.Loom.Raddle, EachMM: p.Loom.RaddleMM}
	r.Groups, r.Last = dentsFor(p.Warp.Ends, r.Repeat)
	r.WidthMM = float64(r.Groups) * r.EachMM
	ends := 0
	for _, n := range r.Repeat {
		ends += n
	}
	r.Across = max(1, (2*p.Warp.Ends*len(r.Repeat)+ends)/(2*ends))
	return r
}

// Irregular tells whether the last group holds fewer ends than its turn.
func (r Raddle) Irregular() bool { return r.Last != r.Repeat[(r.Groups-1)%len(r.Repeat)] }
