package plan

import (
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// BodyUnits is the whole weft units in the body of a piece of the size that a
// brief asks for, and whether it asks for one; it does not where runs alone set
// the length.
func BodyUnits(b *brief.Brief) (units int, asked bool) {
	if b.Set.Length == nil && b.Set.Woven == nil {
		return 0, false
	}
	return newMaker(b).bodyUnits(-1), true
}

// BodyMM is the exact woven length of a body of so many weft units in a piece of a
// brief, counted from 0; -1 is one in the structure's own order of picks.
func BodyMM(b *brief.Brief, piece, units int) *big.Rat {
	weaves, of := weavesOf(b)
	in := weaves[0]
	if piece >= 0 {
		in = weaves[of[piece]]
	}
	return exact.Times(exact.Whole(units), in.unitMM)
}

// UnitsWithin is the most whole weft units in the body of a piece of a brief, counted from
// 0, that make it no longer than a finished length in millimetres.
func UnitsWithin(b *brief.Brief, piece int, finishedMM *big.Rat) int {
	m := newMaker(b)
	woven := exact.Over(finishedMM, exact.Remains(b.Cloth.ShrinkLength.Part))
	body := exact.Minus(woven, exact.Times(exact.Whole(2*m.showPicks()), m.hemPickMM))
	return max(0, exact.Floor(exact.Over(body, m.in(piece).unitMM)))
}

// Scaled are the runs of a piece of a brief that is written out, counted from 0, as weights
// of so many weft units, as those of a held piece are.
func Scaled(b *brief.Brief, piece, units int) ([]brief.Run, error) {
	return newMaker(b).scaled(piece, b.Pieces[piece].Weft.Runs, units)
}
