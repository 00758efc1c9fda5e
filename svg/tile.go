package svg

import (
	"stripesong/sequence/weave"
)

// tile is one repeat of threads: what one weft unit does in one block of the
// warp. The warp shows through where nothing is drawn.
type tile struct {
	block           string // of the warp
	back            bool
	phase           int    // of its foot, in picks
	weft            string // the block the weft covers
	hem             bool
	pattern, ground uint8
}

// tiles hands out one pattern for each combination and remembers it.
type tiles struct {
	pen   *pen
	cloth *cloth
	known map[tile]paint
}

// of gives the paint of a span of picks over a block of the warp, in threads:
// one unit of the drawing is one crossing, x grows with the column seen, y
// from the last pick down to the first.
func (t *tiles) of(s span, unit []int, block string, back bool) paint {
	c := t.cloth
	foot := len(c.picks) - s.from
	key := tile{block, back, foot % s.unit, s.block, s.hem, s.pattern, s.ground}
	if known, ok := t.known[key]; ok {
		return known
	}
	id := t.pen.newID()
	t.known[key] = paint("url(#" + id + ")")
	t.pen.canvas.Pattern(id, 0, 0, float64(len(unit)), float64(s.unit), "user")
	for _, colour := range c.weftColours(s) {
		t.pen.fill(c.weft(s, unit, key, colour), t.pen.ink(c.inks[colour].Hex()))
	}
	t.pen.canvas.PatternEnd()
	return t.known[key]
}

// weftColours lists the colours of a span's picks, in the order they come.
func (c *cloth) weftColours(s span) []uint8 {
	var colours []uint8
	seen := map[uint8]bool{}
	for _, p := range c.picks[s.from : s.from+s.unit] {
		if !seen[p.colour] {
			seen[p.colour] = true
			colours = append(colours, p.colour)
		}
	}
	return colours
}

// weft outlines where one colour of weft lies on top in one unit of shafts
// and picks, later picks higher, turned round so that the tile's own origin
// is that of the cloth.
func (c *cloth) weft(s span, unit []int, key tile, colour uint8) outline {
	var o outline
	for row := range s.unit {
		pick := c.picks[s.from+s.unit-1-row]
		if pick.colour != colour {
			continue
		}
		for _, f := range floats(pick.shed, unit, key.back) {
			o = o.cells(f[0], (row+key.phase)%s.unit, f[1], 1)
		}
	}
	return o
}

// floats finds where the weft lies on top over some shafts, left to right as
// they are seen: column and length of each.
func floats(shed weave.Shed, shafts []int, back bool) (found [][2]int) {
	for x := range shafts {
		shaft := shafts[x]
		if back {
			shaft = shafts[len(shafts)-1-x]
		}
		if shed.Covers(shaft) == back {
			continue
		}
		if n := len(found); n > 0 && found[n-1][0]+found[n-1][1] == x {
			found[n-1][1]++
			continue
		}
		found = append(found, [2]int{x, 1})
	}
	return found
}
