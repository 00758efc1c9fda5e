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
