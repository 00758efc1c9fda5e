package loomwork

import "stripesong/sequence/plan"

// Threading is one warp run to be threaded.
type Threading struct {
	plan.WarpRun
	Shafts   []int // of one unit, left to right
	From, To int   // its ends, from 1
	After    []int // ends threaded after each of its units
}

// ThreadingOf lists the warp runs with the running count after every unit.
func ThreadingOf(p *plan.Plan) []Threading {
	all := make([]Threading, 0, len(p.Warp.Runs))
	ends := 0
	for _, run := range p.Warp.Runs {
		t := Threading{WarpRun: run, From: ends + 1}
		if block, ok := p.Weave.Block(run.Block); ok {
			t.Shafts = block.Unit
		}
		for range run.Units {
			ends += run.Ends / run.Units
			t.After = append(t.After, ends)
		}
		t.To = ends
		all = append(all, t)
	}
	return all
}
