package plan

import (
	"stripesong/sequence/exact"
)

// hemstitchWidths is how many times as long as the warp is wide in the reed the tail is
// with which an end is hemstitched (common practice, no source).
const hemstitchWidths = 4

// HemstitchTailMM is how long a tail is left at each end of a piece to hemstitch it with,
// in mm; 0 where pieces have no fringes.
func (p *Plan) HemstitchTailMM() float64 {
	if p.Cloth.FringeMM == 0 {
		return 0
	}
	return float64(hemstitchWidths * p.Warp.ReedWidthMM)
}

// HemstitchColour is the yarn with which piece i, from 0, is hemstitched at both ends: that
// of its first and last ground picks.
func (p *Plan) HemstitchColour(i int) string {
	piece := &p.Pieces[i]
	if piece.EndPicks() > 0 || len(piece.Runs) == 0 {
		return piece.Hem
	}
	return piece.Runs[0].Ground
}

// hemstitchMetres adds the tails with which pieces that are yet to be woven are
// hemstitched, one at each end.
func (m *maker) hemstitchMetres(of func(int) *use) {
	if m.b.Set.Fringe.MM.Sign() == 0 {
		return
	}
	tails := exact.Over(exact.Times(m.reedWidthMM, exact.Whole(2*hemstitchWidths)),
		exact.Whole(1000))
	for i := m.woven(); i < len(m.b.Pieces); i++ {
		weft := m.b.Pieces[i].Weft
		colour := weft.Ground
		if m.plan.Pieces[i].EndPicks() > 0 {
			colour = weft.Hem
		}
		u := of(colour)
		u.hemstitch = exact.Plus(u.hemstitch, tails)
	}
}
