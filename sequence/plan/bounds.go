package plan

import (
	"fmt"

	"stripesong/sequence/brief"
)

// The checks below stand before the work they bound; the limits themselves are
// listed in package brief.

// boundWarp refuses a warp of more ends than are worked on.
func (m *maker) boundWarp(ends int) error {
	if ends <= brief.MaxEnds {
		return nil
	}
	return m.b.Wrong(-1,
		fmt.Sprintf("the warp comes to %d ends, more than the %d that are worked on", ends,
			brief.MaxEnds),
		"check the width and the sett: is a unit mistaken?", "runs", "set.width", "set.in_reed",
		"cloth.sett")
}

// boundPiece refuses a piece of more picks, or of more crossings of ends and
// picks, than are worked on. Plain is its picks before the body.
func (m *maker) boundPiece(piece, plain int, runs []brief.Run) error {
	picks := 2*min(plain, brief.MaxPicks) + units(runs)*len(m.in(piece).Order)
	most := min(brief.MaxPicks, brief.MaxCrossings/m.plan.Warp.Ends)
	if picks <= most {
		return nil
	}
	keys := []string{"runs", "set.length", "set.woven", "set"}
	switch {
	case 2*m.showPicks() > picks/2:
		keys = []string{"set.hem_show"}
	case 2*plain > picks/2:
		keys = []string{"set.hem"}
	}
	return m.b.Wrong(piece,
		fmt.Sprintf("%s comes to %d picks or more; over %d ends no more than %d are worked on",
			m.called(piece), picks, m.plan.Warp.Ends, most),
		"check the lengths and densities: is a unit mistaken?", keys...)
}

// boundSet refuses a set whose pieces combine more colours than are worked on.
func (m *maker) boundSet() error {
	combined, used, looks := 0, make(map[int]bool), make(map[weftLook]bool)
	warp := colours(m.warpRuns)
	for i, runs := range m.weftRuns {
		weft := colours(runs)
		combined += len(warp) * len(weft)
		w := m.b.Pieces[i].Weft
		for _, r := range runs {
			looks[weftLook{r.Block, r.Colour, m.groundIn(i)}] = true
		}
		for _, c := range append(weft, w.Ground, w.Hem, w.Separator) {
			used[c] = true
		}
	}
	for _, c := range warp {
		used[c] = true
	}
	if combined > brief.MaxCombinations {
		return m.b.Wrong(-1,
			fmt.Sprintf("the pieces combine warp and pattern colours in %d ways, more than the "+
				"%d that are worked on", combined, brief.MaxCombinations),
			"use fewer colours in a piece, or fewer pieces", "runs", "colours", "warp")
	}
	if looks := len(looks); int64(looks)*
		int64(looks) > int64(brief.MaxCompared/len(merged(m.warpRuns))) {
		return m.b.Wrong(-1,
			fmt.Sprintf("the pieces hold %d different weft stripes, more than are compared over "+
				"this warp", looks),
			"use fewer colours, grounds or blocks", "runs", "colours", "warp")
	}
	if delete(used, none); len(used) > brief.MaxUsed {
		return m.b.Wrong(-1,
			fmt.Sprintf("the plan uses %d colours, more than the %d that are worked on", len(used),
				brief.MaxUsed),
			"use fewer colours", "runs", "colours", "warp")
	}
	return nil
}
