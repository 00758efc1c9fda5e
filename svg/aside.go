package svg

import (
	"fmt"

	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// aside writes what stands below the enlarged part: the yarns of the piece
// and every contrast.
func (s *pieceSheet) aside() {
	c := &column{s.pen, pieceWidth - edge - sideColumn, sideColumn, s.below, clothFoot}
	s.yarns(c)
	s.contrasts(c)
	s.lighter(c)
}

// lighter says which side is the lighter, and what would set the sides further
// apart; nothing where they pass for the same.
func (s *pieceSheet) lighter(c *column) {
	if s.piece.Lighter == nil {
		return
	}
	c.header("Light side, dark side")
	c.wrapped(largeSmall.in(black), s.piece.Lighter.Words)
	for _, more := range s.piece.MoreSides {
		c.wrapped(largeSmall, "It would be more "+more.Words())
	}
}

// wrapped writes a text on as many lines as it takes, while there is room.
func (c *column) wrapped(f font, s string) {
	for _, l := range f.wrap(s, c.w) {
		c.line(f, l)
	}
}

// header starts a section of the larger sheet.
func (c *column) header(s string) {
	c.y += largeTitle.line() + 2500
	c.pen.text(c.x, c.y, largeTitle, largeTitle.fit(s, c.w))
	c.y += 1500
}

// yarns shows the colours of warp and piece.
func (s *pieceSheet) yarns(c *column) {
	c.header("Colours")
	const row = 5 * mm
	used := s.used()
	for i, colour := range used {
		if i == 12 {
			c.line(largeSmall, fmt.Sprintf("and %d more in the plan", len(used)-i))
			return
		}
		c.y += row
		c.pen.outlined(rect(c.x, c.y-3*mm, 8*mm, 3600), ink(colour.RGB), line, 100)
		name := largeBody.fit(colour.Name, 42*mm)
		c.pen.text(c.x+10*mm, c.y, largeBody, name)
		c.pen.text(c.x+54*mm, c.y, largeSmall, largeSmall.fit(colour.Yarn, c.w-54*mm))
	}
}

// used lists the colours in warp and piece, in the plan's order.
func (s *pieceSheet) used() (colours []plan.Colour) {
	seen := map[string]bool{s.piece.Hem: s.piece.EndPicks() > 0}
	for _, run := range s.plan.Warp.Runs {
		seen[run.Colour] = true
	}
	for _, run := range s.piece.Runs {
		seen[run.Ground] = true
		seen[run.Pattern] = true
	}
	for _, c := range s.plan.Colours {
		if seen[c.Name] {
			colours = append(colours, c)
		}
	}
	return colours
}

// contrastDistances are those of the plan that have a column, in metres: from nearer
// threads are seen singly.
var contrastDistances = []float64{2, 5}

// contrastNames is the room for what lies on what, contrastGrade that for a grade with
// its range.
const contrastNames, contrastGrade = 34 * mm, 27 * mm

// contrasts lists the combinations: yarns, then grade by distance.
func (s *pieceSheet) contrasts(c *column) {
	all := s.piece.Contrast
	if len(all) == 0 {
		return
	}
	c.header("Contrast of pattern and ground")
	ground, alike := all[0].Ground, true
	for _, k := range all {
		alike = alike && k.Ground == ground
	}
	header := "pattern on warp, ground"
	if alike {
		header = "on ground " + ground
	}
	contrastRow(c, largeSmall, header, func(metres float64) string {
		return s.plan.Distance(metres)
	})
	for i, k := range all {
		if c.left(largeSmall) < 3 && i < len(all)-1 {
			c.line(largeSmall, fmt.Sprintf("and %d more in the plan", len(all)-i))
			return
		}
		on := "on " + k.Warp
		if !alike {
			on += ", " + k.Ground
		}
		f, grades := largeSmall.in(black), func(metres float64) string { return gradeAt(k, metres) }
		if whole := k.Pattern + " " + on; f.width(whole) <= contrastNames-mm {
			contrastRow(c, f, whole, grades)
			continue
		}
		contrastRow(c, f, k.Pattern, grades)
		c.line(f, on)
	}
	c.wrapped(largeSmall,
		fmt.Sprintf("at %s each thread is seen by itself", s.plan.Distance(look.DistancesM[0])))
}

// contrastRow writes one line of the list of contrasts: what it is about, and a word at each
// distance.
func contrastRow(c *column, f font, what string, at func(metres float64) string) {
	c.line(f, "")
	c.pen.text(c.x, c.y, f, f.fit(what, contrastNames-mm))
	for j, metres := range contrastDistances {
		c.pen.text(c.x+contrastNames+um(j)*contrastGrade, c.y, f, f.fit(at(metres), contrastGrade))
	}
}

func gradeAt(c plan.Contrast, metres float64) string {
	if at := c.At(metres); at != nil {
		return at.Words()
	}
	return ""
}
