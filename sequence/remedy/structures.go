package remedy

import (
	"fmt"

	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
)

// structureWeight is to weave something else altogether: a judgement.
const structureWeight = 6

// otherStructures are those that are built in, in place of the brief's.
func (f *finder) otherStructures() (all []way) {
	_, known := weave.Lookup(f.b.Structure.Name)
	for _, name := range weave.Names() {
		if name == f.b.Structure.Name {
			continue
		}
		other, _ := weave.Lookup(name)
		what := "woven as " + weave.Spelt(name) + " instead of " + weave.Spelt(f.b.Structure.Name)
		letters, changes := f.lettersOf(other)
		if letters != "" {
			what += ", " + letters
		}
		if !known {
			changes = append(changes, brief.AsComment("structure"))
		}
		changes = append(changes, brief.Text("cloth.structure", name))
		all = append(all, way{what, append(changes, f.ordersGone()...), structureWeight})
	}
	return all
}

// lettersOf puts the blocks of another structure in the place of the brief's, the first
// for the first.
func (f *finder) lettersOf(other *weave.Structure) (what string, changes []brief.Change) {
	letters, theirs := f.b.Structure.Letters(), other.Letters()
	first := make([]int, min(len(letters), len(theirs)))
	for i := range first {
		first[i] = i
	}
	return f.exchanged(first, theirs)
}

// ordersGone makes comments of all orders of picks: those of one structure mean nothing in
// another.
func (f *finder) ordersGone() []brief.Change {
	all := []brief.Change{brief.AsComment("weft.pick_order")}
	for i, piece := range f.b.Pieces {
		if piece.Weft.Order != nil {
			all = append(all, brief.AsComment(fmt.Sprintf("piece[%d].pick_order", i)))
		}
	}
	return all
}
