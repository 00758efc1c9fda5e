package loomwork

import (
	"slices"

	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// Treadle is one treadle to be tied.
type Treadle struct {
	Number int    // on the loom, from 1 at the left
	Name   string // "a" and "b" for tabby, else the block's letter
	Tabby  bool
	// by shaft, shaft 1 first: it moves them, and where the shed is "both" raises them and lowers
	// the rest
	Ties []bool
}

// Tread is one pick of a weft unit.
type Tread struct {
	Pattern bool // thrown with the pattern shuttle
	Treadle int  // its number
	Name    string
}

// TieUp is the treadles the whole set uses and how each block is trodden. On a loom
// with levers each stands for a shed.
type TieUp struct {
	Treadles []Treadle // by number
	Blocks   []BlockTread
	byShed   map[weave.Shed]int
}

// Shafts are those tied to a treadle, or moved by levers for the same shed.
func (t Treadle) Shafts() (shafts []int) {
	for i, tied := range t.Ties {
		if tied {
			shafts = append(shafts, i+1)
		}
	}
	return shafts
}

// Treadle is the treadle of a number, from 1 at the left; there must be one.
func (t *TieUp) Treadle(number int) Treadle {
	at := func(one Treadle) bool { return one.Number == number }
	return t.Treadles[slices.IndexFunc(t.Treadles, at)]
}

// BlockTread is the picks of one weft unit of a block; "" for plain ground. Order is the
// order of picks, "" for the structure's own.
type BlockTread struct {
	Block, Order string
	Picks        []Tread
}

// TieUpOf gives the pattern treadles numbers from the left and the two tabbies
// the last two at the right, so that each foot keeps to one kind (common
// practice, no source).
func TieUpOf(p *plan.Plan) *TieUp {
	s := p.Weave
	units := unitsUsed(p)
	picks := s.Picks(2, nil)
	for _, u := range units {
		picks = append(picks, p.InOrder(u.Order).UnitPicks(u.Block)...)
	}
	sheds := s.Treadles(picks)
	t := &TieUp{byShed: map[weave.Shed]int{}}
	ties := s.TieUp(sheds, p.Loom.Shed == "sinking")
	for _, i := range patternFirst(s, sheds) {
		tabby := sheds[i].Shed == s.Tabby[0] || sheds[i].Shed == s.Tabby[1]
		t.Treadles = append(t.Treadles,
			Treadle{t.place(p, len(sheds), tabby), sheds[i].Name, tabby, ties[i]})
		t.byShed[sheds[i].Shed] = len(t.Treadles) - 1
	}
	for _, u := range units {
		u.Picks = t.treads(p.InOrder(u.Order).UnitPicks(u.Block))
		t.Blocks = append(t.Blocks, u)
	}
	return t
}

// patternFirst is the numbers of sheds with the tabbies last.
func patternFirst(s *weave.Structure, sheds []weave.Treadle) (order []int) {
	for _, tabby := range []bool{false, true} {
		for i, shed := range sheds {
			if tabby == (shed.Shed == s.Tabby[0] || shed.Shed == s.Tabby[1]) {
				order = append(order, i)
			}
		}
	}
	return order
}

// place is the number of the next treadle.
func (t *TieUp) place(p *plan.Plan, used int, tabby bool) int {
	n := len(t.Treadles) + 1
	if tabby && p.Loom.Treadles > used {
		n += p.Loom.Treadles - used
	}
	return n
}

func (t *TieUp) treads(picks []weave.Woven) []Tread {
	treads := make([]Tread, len(picks))
	for i, pick := range picks {
		treadle := t.Treadles[t.byShed[pick.Shed]]
		treads[i] = Tread{pick.Pattern, treadle.Number, treadle.Name}
	}
	return treads
}

// unitsUsed lists the weft units woven in the set and its sample: by order of picks, the
// structure's own first, the blocks as the structure has them, and "" last where there is
// plain ground.
func unitsUsed(p *plan.Plan) (units []BlockTread) {
	orders := []string{""}
	used := map[[2]string]bool{}
	for _, piece := range p.Pieces {
		if !slices.Contains(orders, piece.PickOrder) {
			orders = append(orders, piece.PickOrder)
		}
		for _, run := range piece.Runs {
			used[[2]string{run.Block, run.PickOrder}] = true
		}
	}
	if p.Sample != nil {
		for _, run := range p.Sample.Runs {
			used[[2]string{run.Block, run.PickOrder}] = true
		}
	}
	for _, order := range orders {
		for _, letter := range append(p.Weave.Letters(), "") {
			if used[[2]string{letter, order}] {
				units = append(units, BlockTread{Block: letter, Order: order})
			}
		}
	}
	return units
}
