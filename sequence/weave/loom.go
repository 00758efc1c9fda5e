package weave

import "strconv"

// Treadle is one shed of a tie-up. Name is "a" or "b" for tabby; for pattern
// the letter of the block it covers, with a number where the block has several
// sheds ("A1"), and all such names where blocks share the shed ("A/C").
type Treadle struct {
	Name string
	Shed Shed // the shafts the weft covers
}

// Treadles lists the different sheds that the picks use, tabby a and b first,
// then pattern in the order of blocks.
func (s *Structure) Treadles(picks []Woven) []Treadle {
	used := map[Shed]bool{}
	for _, p := range picks {
		used[p.Shed] = true
	}
	var list []Treadle
	add := func(name string, shed Shed) {
		for i := range list {
			if list[i].Shed == shed {
				list[i].Name += "/" + name
				return
			}
		}
		if used[shed] {
			list = append(list, Treadle{name, shed})
		}
	}
	add("a", s.Tabby[0])
	add("b", s.Tabby[1])
	for _, b := range s.Blocks {
		for i, shed := range b.Sheds {
			add(b.shedName(i), shed)
		}
	}
	return list
}

func (b *Block) shedName(i int) string {
	if len(b.Sheds) == 1 {
		return b.Letter
	}
	return b.Letter + strconv.Itoa(i+1)
}

// TieUp tells for each treadle which shafts are tied to it, shaft 1 first. A
// sinking shed ties what the weft covers; a rising shed ties the rest, so that
// the face stays up on either loom.
func (s *Structure) TieUp(treadles []Treadle, sinking bool) [][]bool {
	ties := make([][]bool, len(treadles))
	for i, t := range treadles {
		ties[i] = make([]bool, s.Shafts)
		for shaft := range ties[i] {
			ties[i][shaft] = t.Shed.Covers(shaft+1) == sinking
		}
	}
	return ties
}
