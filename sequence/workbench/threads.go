package workbench

import "stripesong/sequence/weave"

// Threads is one piece down to its crossings: the weft lies over an end on the
// face where the pick's shed holds the end's shaft.
type Threads struct {
	Shafts  []int    `json:"shafts"`  // of each end, left to right, from 1
	Ends    []int    `json:"ends"`    // colour of each end, by its number in the view
	Sheds   []uint32 `json:"sheds"`   // of each pick, first woven first: bit s-1 for shaft s
	Picks   []int    `json:"picks"`   // colour of each pick
	Pattern []bool   `json:"pattern"` // whether it is a pattern pick

	// Rows are the hem, runs and hem of the piece, as they follow one another.
	Rows []ThreadRow `json:"rows"`
}

// ThreadRow is so many picks and how high they are together, finished.
type ThreadRow struct {
	Picks int     `json:"picks"`
	MM    float64 `json:"mm"`
}

// Threads gives piece i thread by thread; nothing where there is no such piece.
func (b *Bench) Threads(i int) Threads {
	t := Threads{}
	if i < 0 || i >= len(b.plan.Pieces) {
		return t
	}
	b.warpThreads(&t)
	p := b.plan.Pieces[i]
	s := b.plan.In(p.PickOrder)
	n := p.EndPicks()
	rows := b.rows(i)
	add := func(picks []weave.Woven, ground, pattern string) {
		if len(picks) > 0 {
			t.Rows = append(t.Rows, ThreadRow{len(picks), rows[len(t.Rows)].heightMM})
			t.add(picks, b.index(ground), b.index(pattern))
		}
	}
	add(s.Picks(n, nil)[:n], p.Hem, "")
	for _, r := range p.Runs {
		add(s.Picks(0, []weave.Strip{{Block: r.Block, Units: r.Units}}), r.Ground, r.Pattern)
	}
	add(s.Picks(n, nil)[:n], p.Hem, "")
	return t
}

func (b *Bench) warpThreads(t *Threads) {
	strips := make([]weave.Strip, len(b.plan.Warp.Runs))
	for i, r := range b.plan.Warp.Runs {
		strips[i] = weave.Strip{Block: r.Block, Units: r.Units}
		for range r.Ends {
			t.Ends = append(t.Ends, b.index(r.Colour))
		}
	}
	t.Shafts = b.brief.Structure.Threading(strips)
}

func (t *Threads) add(picks []weave.Woven, ground, pattern int) {
	for _, p := range picks {
		colour := ground
		if p.Pattern {
			colour = pattern
		}
		t.Sheds, t.Picks, t.Pattern = append(t.Sheds, uint32(p.Shed)), append(t.Picks, colour), append(t.Pattern, p.Pattern)
	}
}
