package svg

import (
	"strconv"
	"strings"

	"stripesong/sequence/weave"
)

// The enlarged part: so many ends in whole units, and whole weft units as far as there is
// room.
const (
	detailEnds   = 8            // of each block, or a unit
	detailHem    = 4            // picks of it, where the foot of the body is shown
	detailPitch  = 3700 * um(1) // from end to end, or less where units are long
	detailWidth  = 60 * mm
	detailHeight = 84 * mm
	detailLeft   = 19 * mm // for the names of the picks
	detailTop    = 34 * mm
	detailEdge   = 100 * um(1)
)

// detail draws a part of the body to the thread, its threads edged so that they can be
// counted where their colours are alike: blocks and shafts below, sheds to the left, picks
// counted to the right.
func (s *pieceSheet) detail() {
	x := pieceWidth - edge - sideColumn
	c, what := s.enlarge(), "Where blocks meet, enlarged"
	if len(s.blocksOf(c)) < 2 {
		what = "A part, enlarged"
	}
	s.pen.text(x, 26*mm, largeTitle, what)
	s.pen.text(x, 31*mm, largeSmall, largeSmall.fit(c.title(), sideColumn))
	foot := detailTop
	for _, l := range c.strips {
		foot += l.h
	}
	t := newThreads(s.pen, s.plan, len(s.cloth.ends), c.width())
	t.edge = detailEdge
	t.cut(c.from, c.past, c.pitch)
	t.draw(x+detailLeft, c.laid(foot), c.title())
	s.detailEnds(x+detailLeft, foot, c)
	s.detailPicks(x+detailLeft, foot, c)
	s.below = foot + 16*mm
}

// enlarge finds the ends where the first two blocks of the warp meet, and the strips where
// the first two of the weft do, in the proportions of the finished cloth; the left edge
// and the foot of the body where there is one block only.
func (s *pieceSheet) enlarge() *enlarged {
	c := &enlarged{pitch: detailPitch}
	c.from, c.past = s.besideBlocks()
	c.pitch = min(c.pitch, detailWidth/um(c.past-c.from))
	least := c.pitch / 20
	for !s.fill(c) && c.pitch > least {
		c.pitch = c.pitch * 9 / 10
	}
	return c
}

// besideBlocks are whole units of two blocks that lie side by side in the warp.
func (s *pieceSheet) besideBlocks() (from, past int) {
	unit := s.plan.Weave.UnitEnds()
	each := max(1, detailEnds/unit) * unit
	at, runs := 0, s.plan.Warp.Runs
	for i := range len(runs) - 1 {
		at += runs[i].Ends
		if runs[i].Block != runs[i+1].Block {
			return max(0, at-each), min(len(s.cloth.ends), at+each)
		}
	}
	return 0, min(len(s.cloth.ends), 2*each)
}

// meeting is the first two spans of the body that follow one another in different blocks.
func (s *pieceSheet) meeting() (below, above span, ok bool) {
	spans := s.cloth.spans
	for i := range len(spans) - 1 {
		below, above = spans[i], spans[i+1]
		if below.block != "" && above.block != "" && below.block != above.block {
			return below, above, true
		}
	}
	return below, above, false
}

// firstPick is the lowest pick that is shown, and up to which it must go at least.
func (s *pieceSheet) firstPick(pitch um) (first, least int) {
	below, above, ok := s.meeting()
	if !ok {
		return max(0, s.piece.EndPicks()-detailHem), s.piece.EndPicks()
	}
	one, _ := s.stripAt(below.from, pitch, false)
	units := max(1, int(detailHeight/2/max(1, one.h)))
	return max(below.from, above.from-units*below.unit), above.from
}

// fill lays strips as far as there is room and tells whether that was for as many as it
// must be.
func (s *pieceSheet) fill(c *enlarged) bool {
	height, beyond := um(0), false
	first, least := s.firstPick(c.pitch)
	c.first, c.strips, c.picks = first, nil, nil
	for pick := first; pick < len(s.cloth.picks); {
		one, picks := s.stripAt(pick, c.pitch, false)
		if height+one.h > detailHeight {
			break
		}
		for _, at := range picks {
			c.picks = append(c.picks, height+at)
		}
		c.strips = append(c.strips, one)
		height += one.h
		beyond = beyond || pick >= least
		pick += len(picks)
	}
	return beyond
}

// besides is neighbouring ends of one block.
type besides struct {
	block      string
	from, past int
}

// blocksOf are the blocks of the warp in an enlarged part, from its left.
func (s *pieceSheet) blocksOf(c *enlarged) (all []besides) {
	at := 0
	for _, run := range s.plan.Warp.Runs {
		from, past := max(at, c.from), min(at+run.Ends, c.past)
		at += run.Ends
		if n := len(all); n > 0 && from < past && all[n-1].block == run.Block {
			all[n-1].past = past
		} else if from < past {
			all = append(all, besides{run.Block, from, past})
		}
	}
	return all
}

// detailEnds numbers ends and their shafts below the enlarged part, and names its blocks.
func (s *pieceSheet) detailEnds(x, foot um, c *enlarged) {
	at := func(end int) um { return x + um(end-c.from)*c.pitch }
	for e := c.from; e < c.past; e++ {
		centre := at(e) + c.pitch/2
		if c.pitch >= largeSmall.size*8/10 {
			s.pen.text(centre, foot+4*mm, largeSmall.in(black).at(middle),
				strconv.Itoa(s.cloth.ends[e].shaft))
		}
		if (e == c.from || (e+1)%4 == 0) && c.pitch*3 >= largeSmall.size*2 {
			s.pen.text(centre, foot+7500, largeSmall.at(middle), strconv.Itoa(e+1))
		}
	}
	s.pen.text(x-3*mm, foot+4*mm, largeSmall.at(end), "shaft")
	s.pen.text(x-3*mm, foot+7500, largeSmall.at(end), "end") // clear of the first number
	for i, b := range s.blocksOf(c) {
		if i > 0 {
			for _, y := range [][2]um{{mm, 4500}, {8200, 12 * mm}} { // not through a number
				s.pen.stroke(outline(nil).line(at(b.from), foot+y[0], at(b.from), foot+y[1]),
					line, 200)
			}
		}
		name := largeSmall.in(black).at(middle)
		s.pen.text((at(b.from)+at(b.past))/2, foot+11*mm, name,
			widest(name, at(b.past)-at(b.from), "block "+b.block, b.block))
	}
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
	unit := s.plan.InOrder(s.piece.PickOrder).UnitPicks(span.block)
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
