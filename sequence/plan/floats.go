package plan

import (
	"fmt"
	"math/big"

	"stripesong/sequence/exact"
	"stripesong/sequence/weave"
)

// Floats catch on things (common practice, no source): beyond the first length
// the weaver is warned, beyond the second the cloth is refused.
const (
	warnedFloatMM  = 6
	refusedFloatMM = 12
)

// floats finds the longest floats of any piece, on both sides and over all
// joins, in threads and in millimetres of finished cloth.
func (m *maker) floats() error {
	var weft, warp int
	warpMM := new(big.Rat)
	for i, runs := range m.weftRuns {
		in := m.in(i)
		f := weave.FloatsIn(m.threading, in.Picks(m.plan.Pieces[i].EndPicks(), m.strips(runs)))
		weft = max(weft, f.Weft())
		pickMM := exact.Times(exact.Over(in.unitMM, exact.Whole(len(in.Order))),
			exact.Remains(m.b.Cloth.ShrinkLength.Part))
		if mm := exact.Times(exact.Whole(f.Warp()), pickMM); mm.Cmp(warpMM) > 0 {
			warp, warpMM = f.Warp(), mm
		}
	}
	c := &m.plan.Cloth
	endMM := exact.Over(m.widthLeft(), m.b.Cloth.Sett.PerMM)
	weftMM := exact.Times(exact.Whole(weft), endMM)
	c.FloatWeftEnds, c.FloatWeftMM = weft, exact.Rounded(weftMM)
	c.FloatWarpPicks, c.FloatWarpMM = warp, exact.Rounded(warpMM)
	limit := big.NewRat(refusedFloatMM, 1)
	if weftMM.Cmp(limit) > 0 {
		ends := fmt.Sprintf("%d ends", weft)
		if m.widest() == 0 { // every block ties its floats down
			return m.refuseFloat("weft", ends, c.FloatWeftMM, "a closer sett", "cloth.sett")
		}
		return m.refuseFloat("weft", ends, c.FloatWeftMM, "narrower blocks, or a closer sett",
			"warp.runs", "warp.blocks", "warp.rhythm")
	}
	if warpMM.Cmp(limit) > 0 {
		return m.refuseFloat("warp", fmt.Sprintf("%d picks", warp), c.FloatWarpMM, "a closer beat",
			"cloth.ground")
	}
	return nil
}

func (m *maker) refuseFloat(which, threads string, mm float64, mend string, keys ...string) error {
	return m.b.Wrong(-1,
		fmt.Sprintf("the longest %s float, over %s, is %s finished, more than the %s that "+
			"is refused", which, threads,
			m.fine(mm), m.fine(refusedFloatMM)), "use "+mend, keys...)
}

// fine is a length too short to tell in whole centimetres.
func (m *maker) fine(mm float64) string {
	if m.b.Units == "in" {
		return fmt.Sprintf("%.2f in", mm/25.4)
	}
	return fmt.Sprintf("%.1f mm", mm)
}
