package plan

import "stripesong/sequence/brief"

// BodyUnits is the whole weft units in the body of a piece of the size that a
// brief asks for, and whether it asks for one; it does not where runs alone set
// the length.
func BodyUnits(b *brief.Brief) (units int, asked bool) {
	if b.Set.Length == nil && b.Set.Woven == nil {
		return 0, false
	}
	return newMaker(b).bodyUnits(), true
}
