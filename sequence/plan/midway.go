package plan

import (
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// Midway is a warp that is on the loom. A plan that has it reckons with what is yet to be
// woven: its warp, yarn, time and cost are those of the rest, and its pieces are all of
// the set, the woven ones first.
type Midway struct {
	Woven  int     `json:"woven_pieces"`
	WarpMM float64 `json:"warp_mm"` // what there is of the warp, from the fell to its end
	LeftMM float64 `json:"left_mm"` // of it after the rest is woven; below 0 where it is short
}

// Woven is how many pieces, the first ones, are woven already.
func (p *Plan) Woven() int {
	if p.Midway == nil {
		return 0
	}
	return p.Midway.Woven
}

// IsWoven tells whether a piece, counted from 0, is woven already.
func (p *Plan) IsWoven(piece int) bool { return piece < p.Woven() }

// AsWovenMM is the woven length of a piece: as it was measured, or as it is reckoned where
// it is not yet woven.
func (p Piece) AsWovenMM() float64 {
	if p.MeasuredMM > 0 {
		return p.MeasuredMM
	}
	return p.WovenMM
}

// AsFinishedMM is the finished length of a piece of the plan, from its woven one.
func (p *Plan) AsFinishedMM(piece *Piece) float64 {
	if piece.MeasuredMM == 0 {
		return piece.FinishedMM
	}
	seen := piece.MeasuredMM - float64(2*piece.HemWovenMM)
	return exact.RoundTo(float64(seen*(1-p.Cloth.ShrinkLength)), 4)
}

// woven is how many pieces are woven already.
func (m *maker) woven() int { return m.b.WovenPieces() }

// separatorsFrom is the first piece after which a separator may still have to be woven:
// nobody says whether that after the last woven piece is there yet.
func (m *maker) separatorsFrom() int { return max(0, m.woven()-1) }

// onLoom fills in what is left of a warp that is on the loom once the rest is woven.
func (m *maker) onLoom() {
	if m.b.Midway == nil {
		return
	}
	warp := m.b.Midway.Warp.MM
	left := exact.Rounded(exact.Minus(warp, m.woundMM))
	m.plan.Midway = &Midway{Woven: m.woven(), WarpMM: exact.Rounded(warp), LeftMM: left}
}

// settledOnLoom are the notes that nobody can act on any more once the warp is on the
// loom and the first pieces are woven.
var settledOnLoom = []string{"loom-narrow", "shafts", "heddles", "reed-sett", "reed-near",
	"sett-close", "blocks-narrowed",
	"float-long", "selvedge-missed", "beat-impossible", "beat-hard", "sample-first"}

// midwayNotes tells whether the warp that is left reaches.
func (m *maker) midwayNotes() {
	on := m.plan.Midway
	if on == nil {
		return
	}
	takes := measure.FormatWarp(m.plan.Warp.WoundMM, m.b.Units)
	if m.woundMM.Cmp(m.b.Midway.Warp.MM) > 0 {
		m.note(Warning, "warp-short",
			"the pieces to come take %s of warp, and %s is left: weave fewer or shorter ones",
			takes, m.mm(on.WarpMM))
		return
	}
	m.note(Remark, "midway",
		"the warp is on the loom, %d of %d pieces are woven: the rest takes %s of the %s left",
		on.Woven, len(m.plan.Pieces), takes, m.mm(on.WarpMM))
}
