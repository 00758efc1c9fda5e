package svg

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/plan"
)

// column is a run of text lines down the sheet.
type column struct {
	pen    *pen
	x, w   um
	y, end um // the next line's top; where it must stop
}

// heading starts a section.
func (c *column) heading(s string) {
	c.y += title.line()
	c.pen.text(c.x, c.y, title, title.fit(s, c.w))
	c.y += 1200
}

// line writes one line, and tells whether there was room.
func (c *column) line(f font, s string) bool {
	if c.y+f.line() > c.end {
		return false
	}
	c.y += f.line()
	c.pen.text(c.x, c.y, f, f.fit(s, c.w))
	return true
}

// left is how many more lines of a font there are.
func (c *column) left(f font) int { return int((c.end - c.y) / f.line()) }

// panel writes what stands beside the pieces.
func (s *setSheet) panel() {
	c := &column{s.pen, panelLeft, setWidth - margin - panelLeft, worksTop - 2*mm, setHeight - margin}
	s.legend(c)
	c.y += 2 * mm
	s.contrasts(c)
	c.y += 2 * mm
	s.differences(c)
	c.y += 2 * mm
	notes(c, s.plan.Notes)
}

// legend lists the colours: number, swatch, name, yarn, metres.
func (s *setSheet) legend(c *column) {
	c.heading("Yarn in all")
	yarns := s.plan.Yarn
	row := um(3900)
	if len(yarns) > 14 {
		row = 3000
	}
	shown := min(len(yarns), int(62*mm/row))
	for _, y := range yarns[:shown] {
		c.y += row
		legendRow(c, s.plan, y.Colour, y.Yarn, loomwork.YarnLength(y.TotalM, s.plan.Units))
	}
	if more := len(yarns) - shown; more > 0 {
		c.line(small, fmt.Sprintf("and %d more in the plan", more))
	}
}

// legendRow is one colour: its number, a swatch, its name and yarn, and how
// much.
func legendRow(c *column, p *plan.Plan, colour, yarn, amount string) {
	f := body
	c.pen.text(c.x+4*mm, c.y, small.at(end), keyOf(p, colour))
	c.pen.outlined(rect(c.x+5*mm, c.y-2200, 6*mm, 2600), inkOf(c.pen, p, colour), line, 100)
	names, yarns := (c.w-29*mm)*6/10, (c.w-29*mm)*4/10
	c.pen.text(c.x+13*mm, c.y, f, f.fit(colour, names-mm))
	c.pen.text(c.x+13*mm+names, c.y, small, small.fit(yarn, yarns-mm))
	c.pen.text(c.x+c.w, c.y, f.at(end), amount)
}

// contrasts lists the weakest patterns.
func (s *setSheet) contrasts(c *column) {
	c.heading("Hard to see at 2 m")
	found := weaknesses(s.plan)
	if len(found) == 0 {
		c.line(small, "nothing: every pattern is clear or better")
		return
	}
	c.y += small.line()
	c.pen.text(c.x, c.y, small, "grade")
	c.pen.text(c.x+13*mm, c.y, small, "pattern on warp, ground")
	c.pen.text(c.x+c.w, c.y, small.at(end), "dL*: pieces")
	shown := min(len(found), 5)
	for _, w := range found[:shown] {
		s.weakness(c, w)
	}
	if more := len(found) - shown; more > 0 {
		c.line(small, fmt.Sprintf("and %d more in the plan", more))
	}
}

// weakness is one line: grade, yarns, difference in lightness, pieces.
func (s *setSheet) weakness(c *column, w weakness) {
	c.y += body.line()
	where := "all"
	if len(w.pieces) < len(s.plan.Pieces) {
		where = numbers(w.pieces, 4)
	}
	tail := tenth(w.deltaL) + ": " + where
	c.pen.text(c.x, c.y, body.heavy(), w.grade)
	c.pen.text(c.x+c.w, c.y, small.at(end), tail)
	what := fmt.Sprintf("%s on %s, %s", w.pattern, w.warp, w.ground)
	c.pen.text(c.x+13*mm, c.y, small, small.fit(what, c.w-14*mm-small.width(tail)))
}

// numbers names pieces by number, the first few of them.
func numbers(pieces []int, most int) string {
	var words []string
	for i, n := range pieces {
		if i == most {
			words = append(words, "…")
			break
		}
		words = append(words, strconv.Itoa(n+1))
	}
	return strings.Join(words, " ")
}

// notes writes the warnings and then the notes, as far as they fit.
func notes(c *column, all []plan.Note) {
	c.heading("Notes")
	sorted := append(byLevel(all, true), byLevel(all, false)...)
	for i, n := range sorted {
		lines := small.wrap(n.Message, c.w-3*mm)
		spare := 1 // for "and more"
		if i == len(sorted)-1 {
			spare = 0
		}
		if len(lines) > c.left(small)-spare {
			c.line(small.heavy(), fmt.Sprintf("and %d more in the plan", len(sorted)-i))
			return
		}
		note(c, n.Level, lines)
	}
}

// note writes one note; a warning is marked and bold in its first line.
func note(c *column, level string, lines []string) {
	mark := "·"
	if level == "warning" {
		mark = "!"
	}
	c.pen.text(c.x, c.y+small.line(), small.heavy().in(black), mark)
	c.x, c.w = c.x+3*mm, c.w-3*mm
	for _, l := range lines {
		c.line(small, l)
	}
	c.x, c.w = c.x-3*mm, c.w+3*mm
}

func byLevel(all []plan.Note, warnings bool) (some []plan.Note) {
	for _, n := range all {
		if (n.Level == "warning") == warnings {
			some = append(some, n)
		}
	}
	return some
}
