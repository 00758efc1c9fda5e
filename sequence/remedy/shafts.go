package remedy

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
)

// orderWeight is to tread it otherwise, tieUpWeight to tie it up otherwise: judgements.
const orderWeight, tieUpWeight = 3, 1

// shaftWays weave with fewer shafts: with fewer blocks of the weaver's own structure, else
// in one that is built in.
func (f *finder) shaftWays() (all []way) {
	if _, known := weave.Lookup(f.b.Structure.Name); !known {
		all = f.fewerBlocks()
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
	sheds := way{"a treadle for each shed instead of one for each shaft",
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
	return []way{{fmt.Sprintf("in columns, picks %s instead of %s", order, was), changes,
		orderWeight}}
}
