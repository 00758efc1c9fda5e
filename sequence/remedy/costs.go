package remedy

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// costs tells what else the plan of a way has otherwise than the brief's.
func (f *finder) costs(w way, p *plan.Plan) []string {
	costs := []string{}
	add := func(is, was bool, format string, values ...any) {
		if is != was {
			costs = append(costs, fmt.Sprintf(format, values...))
		}
	}
	add(math.Abs(p.Warp.WoundMM-f.p.Warp.WoundMM) >= 5, false, "warp %s, was %s",
		measure.FormatWarp(p.Warp.WoundMM, f.b.Units),
		measure.FormatWarp(f.p.Warp.WoundMM, f.b.Units))
	add(p.Warp.FinishedWidthMM != f.p.Warp.FinishedWidthMM, false, "%s wide, was %s",
		measure.FormatLength(p.Warp.FinishedWidthMM, f.b.Units),
		measure.FormatLength(f.p.Warp.FinishedWidthMM, f.b.Units))
	if !w.sets("set.length") && !w.sets("set.woven") {
		costs = append(costs, f.otherLengths(p)...)
	}
	is, was := weakest(p), weakest(f.p)
	add(is != was, false, "weakest contrast %s, was %s", is, was)
	least, had := p.Set.LeastDifference, f.p.Set.LeastDifference
	add(len(p.Pieces) > 1 && math.Abs(least-had) >= 0.05, false, "least difference %.1f, was %.1f",
		least, had)
	return costs
}

// sets tells whether a way gives a key another value, which it says itself.
func (w way) sets(key string) bool {
	return slices.ContainsFunc(w.changes, func(c brief.Change) bool { return c.Key == key })
}

// otherLengths tells which pieces are finished to another length: in one where all are.
func (f *finder) otherLengths(p *plan.Plan) (costs []string) {
	changed := map[[2]string][]string{}
	var order [][2]string
	n := min(len(p.Pieces), len(f.p.Pieces))
	for i := range n {
		is := measure.FormatLength(p.Pieces[i].FinishedMM, f.b.Units)
		was := measure.FormatLength(f.p.Pieces[i].FinishedMM, f.b.Units)
		if both := [2]string{is, was}; is != was {
			if changed[both] == nil {
				order = append(order, both)
			}
			changed[both] = append(changed[both], p.Called(i))
		}
	}
	for _, both := range order {
		who := strings.Join(changed[both], ", ")
		if len(changed[both]) == n && n > 1 {
			who = "pieces"
		}
		costs = append(costs, fmt.Sprintf("%s %s long, was %s", who, both[0], both[1]))
	}
	return costs
}

// weakest is the worst grade of a plan from the distance that decides.
func weakest(p *plan.Plan) string {
	var all []plan.Contrast
	for _, piece := range p.Pieces {
		all = append(all, piece.Contrast...)
	}
	if at := plan.Faintest(all, look.DecisiveM); at != nil {
		return fmt.Sprintf("%s %.1f", at.Words(), at.DeltaL)
	}
	return "none"
}
