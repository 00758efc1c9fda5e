package svg

import (
	"fmt"
	"strconv"

	"stripesong/sequence/weave"
)

// The enlarged corner: so many ends from the left, and picks from a little
// below the foot of the body.
const (
	detailEnds  = 16
	detailPicks = 20
	detailHem   = 4
	crossing    = 3700 * um(1)
	threadWide  = 3100 * um(1)
)

// detail draws the lower left corner of the body, its threads as bars over
// and under each other: shafts below, sheds to the left, picks counted to the
// right.
func (s *pieceSheet) detail() {
	x := pieceWidth - edge - sideColumn
	s.pen.text(x, 26*mm, largeTitle, "A corner, enlarged")
	s.pen.text(x, 31*mm, largeSmall, largeSmall.fit("face, left edge, from the foot of the body up", sideColumn))
	ends := min(detailEnds, len(s.cloth.ends))
	first := max(0, s.piece.EndPicks()-detailHem)
	picks := min(detailPicks, len(s.cloth.picks)-first)
	left, top := x+14*mm, 34*mm
	foot := top + um(picks)*crossing
	s.pen.group()
	s.pen.title(fmt.Sprintf("picks %d to %d of the face, ends 1 to %d", first+1, first+picks, ends))
	for e := range ends {
		s.bar(rect(left+um(e)*crossing+(crossing-threadWide)/2, top-500, threadWide, foot-top+mm), s.cloth.ends[e].colour)
	}
	for k := range picks {
		s.over(left, foot-um(k+1)*crossing, first+k, ends)
	}
	s.pen.end()
	s.detailNumbers(left, top, foot, first, ends, picks)
	s.below = foot + 12*mm
}

// bar draws one thread's visible stretch.
func (s *pieceSheet) bar(at outline, colour uint8) {
	s.pen.outlined(at, s.pen.ink(s.cloth.inks[colour].Hex()), quiet, 150)
}

// over draws one pick where it lies on top.
func (s *pieceSheet) over(x, y um, pick, ends int) {
	shafts := make([]int, ends)
	for e := range shafts {
		shafts[e] = s.cloth.ends[e].shaft
	}
	var o outline
	for _, f := range floats(s.cloth.picks[pick].shed, shafts, false) {
		o = o.rect(x+um(f[0])*crossing-100, y+(crossing-threadWide)/2, um(f[1])*crossing+200, threadWide)
	}
	if o != nil {
		s.bar(o, s.cloth.picks[pick].colour)
	}
}

// detailNumbers writes shafts, sheds and the count of ends and picks.
func (s *pieceSheet) detailNumbers(x, top, foot um, first, ends, picks int) {
	f := largeSmall.in(black)
	for e := range ends {
		centre := x + um(e)*crossing + crossing/2
		s.pen.text(centre, foot+4*mm, f.at(middle), strconv.Itoa(s.cloth.ends[e].shaft))
		if e == 0 || (e+1)%4 == 0 {
			s.pen.text(centre, foot+7500, largeSmall.at(middle), strconv.Itoa(e+1))
		}
	}
	s.pen.text(x-1500, foot+4*mm, largeSmall.at(end), "shaft")
	s.pen.text(x-1500, foot+7500, largeSmall.at(end), "end")
	for k := range picks {
		y := foot - um(k)*crossing - crossing/2 + mm
		s.pen.text(x-1500, y, f.at(end), s.shedName(first+k))
		if n := first + k + 1; k == 0 || n%5 == 0 {
			s.pen.text(x+um(ends)*crossing+1200, y, largeSmall, strconv.Itoa(n))
		}
	}
}

// shedName tells what is woven in a pick: tabby a or b, in the hem or not, or
// pattern over a block.
func (s *pieceSheet) shedName(pick int) string {
	span := s.spanAt(pick)
	if span.hem && !span.show {
		return "hem " + s.tabby(s.cloth.picks[pick].shed)
	}
	unit := s.plan.In(s.piece.PickOrder).UnitPicks(span.block)
	if i := (pick - span.from) % len(unit); unit[i].Pattern {
		return "over " + span.block
	}
	return s.tabby(s.cloth.picks[pick].shed)
}

func (s *pieceSheet) spanAt(pick int) span {
	for _, sp := range s.cloth.spans {
		if pick < sp.from+sp.count {
			return sp
		}
	}
	return span{}
}

func (s *pieceSheet) tabby(shed weave.Shed) string {
	if shed == s.plan.Weave.Tabby[0] {
		return "a"
	}
	return "b"
}
