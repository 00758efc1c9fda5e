package loomwork

import (
	"slices"

	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// Threading is one warp run to be threaded, counted from the edge at which
// threading begins.
type Threading struct {
	plan.WarpRun
	Run      int   // its place in the plan's warp, from 0 at the left
	Shafts   []int // of one unit, in the order of threading
	Heddles  []int // it takes, by shaft, shaft 1 first
	From, To int   // its ends, from 1 at that edge
	After    []int // ends threaded after each of its units
}

// stripsOf is the runs of a warp without their colours.
func stripsOf(runs []plan.WarpRun) []weave.Strip {
	strips := make([]weave.Strip, len(runs))
	for i, run := range runs {
		strips[i] = weave.Strip{Block: run.Block, Units: run.Units}
	}
	return strips
}

// ThreadingOf lists the warp runs in the order of threading, from the left or the
// right edge as the loom has it, with the running count after every unit. A closing end is
// threaded after the units of its run from the left, before them from the right.
func ThreadingOf(p *plan.Plan) []Threading {
	all := make([]Threading, 0, len(p.Warp.Runs))
	threaded := p.Weave.Thread(stripsOf(p.Warp.Runs))
	right := p.Loom.ThreadFrom == "right"
	ends := 0
	for i := range p.Warp.Runs {
		if right {
			i = len(p.Warp.Runs) - 1 - i
		}
		run := p.Warp.Runs[i]
		t := Threading{WarpRun: run, Run: i, From: ends + 1, Shafts: threaded[i].Unit}
		if right {
			slices.Reverse(t.Shafts)
		}
		t.Heddles = threaded[i].Heddles(run.Units, p.Weave.Shafts)
		t.To = ends + run.Ends
		if right && run.Closing > 0 {
			ends++
		}
		for range run.Units {
			ends += len(t.Shafts)
			t.After = append(t.After, ends)
		}
		ends = t.To
		all = append(all, t)
	}
	return all
}
