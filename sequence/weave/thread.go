package weave

// Strip is neighbouring units of one block: threading units in a warp, weft
// units in a piece. Block "" is plain ground, and stands in a weft only.
type Strip struct {
	Block string
	Units int
}

// Woven is one pick as it is woven: with which shuttle and in which shed.
type Woven struct {
	Pattern bool
	Shed    Shed
}

// UnitEnds is the number of ends in one threading unit of any block.
func (s *Structure) UnitEnds() int { return len(s.Blocks[0].Unit) }

// PatternPicks is the number of pattern picks in one weft unit.
func (s *Structure) PatternPicks() int { return len(s.Order) - s.GroundPicks() }

// GroundPicks is the number of ground picks in one weft unit. It is even.
func (s *Structure) GroundPicks() int {
	n := 0
	for _, p := range s.Order {
		if !p.Pattern {
			n++
		}
	}
	return n
}

// Block finds a block by its letter.
func (s *Structure) Block(letter string) (*Block, bool) {
	for i := range s.Blocks {
		if s.Blocks[i].Letter == letter {
			return &s.Blocks[i], true
		}
	}
	return nil, false
}

// Letters lists the blocks, A first.
func (s *Structure) Letters() []string {
	letters := make([]string, len(s.Blocks))
	for i, b := range s.Blocks {
		letters[i] = b.Letter
	}
	return letters
}

// Threading is the shaft of each end of a warp, left to right. A strip whose block the
// structure has not got adds no ends.
func (s *Structure) Threading(warp []Strip) []int {
	var shafts []int
	for i, t := range s.Thread(warp) {
		for range warp[i].Units {
			shafts = append(shafts, t.Unit...)
		}
		if t.Closing > 0 {
			shafts = append(shafts, t.Closing)
		}
	}
	return shafts
}

// Heddles is the number of ends of a warp on each shaft, shaft 1 first.
func (s *Structure) Heddles(warp []Strip) []int {
	counts := make([]int, s.Shafts)
	for i, t := range s.Thread(warp) {
		for shaft, n := range t.Heddles(warp[i].Units, s.Shafts) {
			counts[shaft] += n
		}
	}
	return counts
}

// Heddles is the number of ends of so many units on each of some shafts, shaft 1 first,
// the closing end included.
func (t Threaded) Heddles(units, shafts int) []int {
	counts := make([]int, shafts)
	for _, shaft := range t.Unit {
		counts[shaft-1] += units
	}
	if t.Closing > 0 {
		counts[t.Closing-1]++
	}
	return counts
}

// UnitPicks is the picks of one weft unit that covers a block on the face, or
// of one unit of plain ground where the block is "" (or none of the
// structure's).
func (s *Structure) UnitPicks(block string) []Woven {
	b, ok := s.Block(block)
	var picks []Woven
	for _, p := range s.Order {
		switch {
		case !p.Pattern:
			picks = append(picks, Woven{false, s.Tabby[p.Index]})
		case ok:
			picks = append(picks, Woven{true, b.Sheds[p.Index]})
		}
	}
	return picks
}

// Picks is every pick of one piece from the first woven up: hem picks of
// tabby, a first, then the body, then a hem again. An even number of hem picks
// keeps the tabby alternating.
func (s *Structure) Picks(hem int, body []Strip) []Woven {
	picks := s.hem(hem)
	for _, strip := range body {
		unit := s.UnitPicks(strip.Block)
		for range strip.Units {
			picks = append(picks, unit...)
		}
	}
	return append(picks, s.hem(hem)...)
}

func (s *Structure) hem(n int) []Woven {
	picks := make([]Woven, n)
	for i := range picks {
		picks[i].Shed = s.Tabby[i%2]
	}
	return picks
}
