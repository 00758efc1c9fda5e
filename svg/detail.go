package svg

import (
	"strconv"
	"strings"

	"stripesong/sequence/weave"
)

// The enlarged corner: so many ends from the left, and whole weft units from a
// little below the foot of the body, as far as there is room.
const (
	detailEnds   = 12
	detailHem    = 4
	detailWidth  = 4600 * um(1) // from end to end, or less where units are long
	detailHeight = 84 * mm
	detailLeft   = 19 * mm // for the names of the picks
	detailTop    = 34 * mm
	detailEdge   = 100 * um(1)
)

// detail draws the lower left corner of the body to the thread, its threads edged so
// that they can be counted where their colours are alike: shafts below, sheds to the
// left, picks counted to the right.
func (s *pieceSheet) detail() {
	x := pieceWidth - edge - sideColumn
	s.pen.text(x, 26*mm, largeTitle, "A corner, enlarged")
	s.pen.text(x, 31*mm, largeSmall, largeSmall.fit("face, left edge, from the foot of the body up", sideColumn))
	c := s.corner()
	foot := detailTop
	for _, l := range c.strips {
		foot += l.h
	}
	t := newThreads(s.pen, s.plan, c.ends, c.width())
	t.edge = detailEdge
	t.draw(x+detailLeft, c.laid(foot), c.title())
	s.detailEnds(x+detailLeft, foot, c)
	s.detailPicks(x+detailLeft, foot, c)
	s.below = foot + 12*mm
}

// corner finds the strips of the corner, in the proportions of the finished cloth.
func (s *pieceSheet) corner() *enlarged {
	first := max(0, s.piece.EndPicks()-detailHem)
	c := &enlarged{ends: min(detailEnds, len(s.cloth.ends)), first: first, pitch: detailWidth}
	for !s.fill(c) && c.pitch > detailWidth/20 {
		c.pitch = c.pitch * 9 / 10
		c.strips, c.picks = nil, nil
	}
	return c
}

// fill lays strips as far as there is room and tells whether that was for a little of
// the body.
func (s *pieceSheet) fill(c *enlarged) bool {
	height, body := um(0), false
	for pick := c.first; pick < len(s.cloth.picks); {
		one, picks := s.stripAt(pick, c.pitch, false)
		if height+one.h > detailHeight {
			break
		}
		for _, at := range picks {
			c.picks = append(c.picks, height+at)
		}
		c.strips = append(c.strips, one)
		height += one.h
		pick += len(picks)
		body = body || !one.hem
	}
	return body
}

// detailEnds numbers ends and their shafts below the corner.
func (s *pieceSheet) detailEnds(x, foot um, c *enlarged) {
	for e := range c.ends {
		centre := x + um(e)*c.pitch + c.pitch/2
		if c.pitch >= largeSmall.size*8/10 {
			s.pen.text(centre, foot+4*mm, largeSmall.in(black).at(middle), strconv.Itoa(s.cloth.ends[e].shaft))
		}
		if (e == 0 || (e+1)%4 == 0) && c.pitch*3 >= largeSmall.size*2 {
			s.pen.text(centre, foot+7500, largeSmall.at(middle), strconv.Itoa(e+1))
		}
	}
	s.pen.text(x-1500, foot+4*mm, largeSmall.at(end), "shaft")
	s.pen.text(x-1500, foot+7500, largeSmall.at(end), "end")
}

// detailPicks names picks to the left of the corner, pattern picks beside it and
// ground picks between them farther out, and counts them to its right. What would
// stand too close to the one below is left out.
func (s *pieceSheet) detailPicks(x, foot um, c *enlarged) {
	lowest := [3]um{foot + 2*mm, foot + 2*mm, foot + 2*mm} // where the last one stands, by column
	write := func(column int, x, y um, f font, text string) {
		if lowest[column]-y < f.size {
			return
		}
		lowest[column] = y
		s.pen.text(x, y, f, text)
	}
	for k, up := range c.picks {
		pick, y := c.first+k, foot-up+mm
		name, column, left := s.shedName(pick), 0, x-1500
		if span := s.spanAt(pick); span.block != "" && !strings.HasPrefix(name, "block") {
			column, left = 1, x-detailLeft+3*mm
		}
		write(column, left, y, largeSmall.in(black).at(end), name)
		if n := pick + 1; k == 0 || n%5 == 0 {
			write(2, x+c.width()+1200, y, largeSmall, strconv.Itoa(n))
		}
	}
}

// shedName tells what is woven in a pick: tabby a or b, in the hem or not, or
// the block whose pattern is thrown.
func (s *pieceSheet) shedName(pick int) string {
	span := s.spanAt(pick)
	if span.hem && !span.show {
		return "hem " + s.tabby(s.cloth.picks[pick].shed)
	}
	unit := s.plan.In(s.piece.PickOrder).UnitPicks(span.block)
	if i := (pick - span.from) % len(unit); unit[i].Pattern {
		return "block " + span.block
	}
	return s.tabby(s.cloth.picks[pick].shed)
}

func (s *pieceSheet) tabby(shed weave.Shed) string {
	if shed == s.plan.Weave.Tabby[0] {
		return "a"
	}
	return "b"
}
