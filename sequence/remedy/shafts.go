package remedy

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/weave"
)

// structureWeight is to weave something else altogether, orderWeight to tread it
// otherwise, tieUpWeight to tie it up otherwise, blockWeight to give up a block: judgements.
const structureWeight, orderWeight, tieUpWeight, blockWeight = 6, 3, 1, 4

// shaftWays weave with fewer shafts: with fewer blocks of the weaver's own structure, else
// in one that is built in.
func (f *finder) shaftWays() (all []way) {
	own := f.b.Structure
	if _, known := weave.Lookup(own.Name); !known {
		for n := len(own.Blocks) - 1; n >= 2; n-- {
			w, shafts := f.fewerBlocks(n)
			if shafts <= f.b.Loom.Shafts {
				all = append(all, w)
				break
			}
		}
	}
	return append(all, f.otherStructures()...)
}

// treadleWays open the sheds with fewer treadles: one to each shaft, fewer sheds for a
// block, another structure.
func (f *finder) treadleWays() (all []way) {
	if f.b.Loom.TieUp != brief.DirectTieUp {
		all = append(all, way{"each treadle tied to one shaft, two pressed at once",
			[]brief.Change{brief.Text("loom.tie_up", brief.DirectTieUp)}, tieUpWeight})
	}
	return append(append(all, f.fewerSheds()...), f.otherStructures()...)
}

// feetWays end it that a shed takes more treadles at once than there are feet.
func (f *finder) feetWays() []way {
	sheds := way{"a treadle for each shed in place of one for each shaft",
		[]brief.Change{brief.Text("loom.tie_up", "sheds")}, tieUpWeight}
	return append([]way{sheds}, f.otherStructures()...)
}

// fewerSheds weave every piece with the first pattern shed of each block alone, where the
// structure has several: summer and winter in columns.
func (f *finder) fewerSheds() []way {
	first := slices.Clone(f.b.Structure.Order)
	for i, p := range first {
		if p.Pattern {
			first[i].Index = 0
		}
	}
	if slices.Equal(first, f.b.Structure.Order) || f.b.Structure.ValidateOrder(first) != nil {
		return nil
	}
	order := strings.ReplaceAll(weave.OrderText(first), "P", "P1")
	changes := []brief.Change{brief.Text("weft.pick_order", order)}
	for i, piece := range f.b.Pieces {
		if piece.Weft.Order != nil {
			changes = append(changes, brief.Text(fmt.Sprintf("piece[%d].pick_order", i), order))
		}
	}
	was := weave.OrderText(f.b.Structure.Order)
	return []way{{fmt.Sprintf("in columns, picks %s in place of %s", order, was), changes,
		orderWeight}}
}

// otherStructures are those that are built in, in place of the brief's.
func (f *finder) otherStructures() (all []way) {
	_, known := weave.Lookup(f.b.Structure.Name)
	for _, name := range weave.Names() {
		if name == f.b.Structure.Name {
			continue
		}
		other, _ := weave.Lookup(name)
		what := "woven as " + weave.Spelt(name) + " in place of " + weave.Spelt(f.b.Structure.Name)
		letters, changes := f.lettersWithin(len(other.Blocks))
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

// fewerBlocks is the weaver's own structure with its first n blocks alone, and how many
// shafts that takes.
func (f *finder) fewerBlocks(n int) (way, int) {
	own := f.b.Structure
	number := map[int]int{} // of a shaft then
	for _, b := range own.Blocks[:n] {
		for _, shaft := range b.Unit {
			number[shaft] = 0
		}
	}
	next := 0
	for shaft := 1; shaft <= own.Shafts; shaft++ {
		if _, used := number[shaft]; used {
			next++
			number[shaft] = next
		}
	}
	left := func(shafts []int) string { return shaftList(shafts, number) }
	letters, changes := f.lettersWithin(n)
	for i, b := range own.Blocks {
		units, sheds := "structure.units."+b.Letter, "structure.sheds."+b.Letter
		if i >= n {
			changes = append(changes, brief.Change{Key: units}, brief.Change{Key: sheds})
			continue
		}
		changes = append(changes, brief.Change{Key: units, Value: left(b.Unit)},
			brief.Change{Key: sheds, Value: shedList(b.Sheds, left)})
	}
	changes = append(changes,
		brief.Change{Key: "structure.tabby.a", Value: left(own.Tabby[0].Shafts())},
		brief.Change{Key: "structure.tabby.b", Value: left(own.Tabby[1].Shafts())},
		brief.Change{Key: "structure.shafts", Value: fmt.Sprint(next)})
	what := fmt.Sprintf("%s on %s, without block %s", own.Name, measure.Count(next, "shaft"),
		strings.Join(own.Letters()[n:], ", "))
	if letters != "" {
		what += ", " + letters
	}
	return way{what, changes, blockWeight}, next
}

// shaftList is a list of shafts as a brief has it, by their new numbers; those that have
// none are left out.
func shaftList(shafts []int, number map[int]int) string {
	var words []string
	for _, shaft := range shafts {
		if n, kept := number[shaft]; kept {
			words = append(words, fmt.Sprint(n))
		}
	}
	return "[" + strings.Join(words, ", ") + "]"
}

// shedList is the pattern sheds of a block as a brief has them.
func shedList(sheds []weave.Shed, list func([]int) string) string {
	words := make([]string, len(sheds))
	for i, shed := range sheds {
		words[i] = list(shed.Shafts())
	}
	if len(words) == 1 {
		return words[0]
	}
	return "[" + strings.Join(words, ", ") + "]"
}

// lettersWithin puts the first n blocks, over and over, in place of further ones where the
// brief writes these out, and says which; what follows a rule changes by itself.
func (f *finder) lettersWithin(n int) (what string, all []brief.Change) {
	known := f.b.Structure.Letters()
	gone := map[int]bool{}
	within := func(key string, runs []brief.Run) {
		runs = slices.Clone(runs)
		changed := false
		for i, r := range runs {
			if r.Block >= n {
				gone[r.Block], changed = true, true
				runs[i].Block %= n
			}
		}
		if changed {
			all = append(all, brief.Change{Key: key, Value: brief.RunList(f.b.RunTexts(runs))})
		}
	}
	within("warp.runs", f.b.Warp.Runs)
	for i, piece := range f.b.Pieces {
		within(fmt.Sprintf("piece[%d].runs", i), piece.Weft.Runs)
	}
	var words []string
	for i := n; i < len(known); i++ {
		if gone[i] {
			words = append(words, fmt.Sprintf("%s as %s", known[i], known[i%n]))
		}
	}
	if len(words) == 0 {
		return "", all
	}
	return "block " + strings.Join(words, ", "), all
}
