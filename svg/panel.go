package svg

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/look"
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
	c.y += section.line()
	c.pen.text(c.x, c.y, section, section.fit(s, c.w))
	c.y += 800
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

// panel writes what stands at the right edge.
func (s *setSheet) panel() {
	const apart = 2 * mm
	c := &column{s.pen, panelLeft, setWidth - margin - panelLeft, worksTop, setHeight - margin}
	c.end = s.smallPrint(c) - apart
	s.legend(c)
	c.y += apart
	s.warpInWords(c)
	c.y += apart
	s.contrasts(c)
	c.y += apart
	s.differences(c)
	c.y += apart
	notes(c, s.plan.Notes)
}

// mostYarns is how many colours are listed.
const mostYarns = 20

// legend lists the colours: number, swatch, name, yarn, metres.
func (s *setSheet) legend(c *column) {
	c.heading(yarnHeading(s.plan))
	yarns := s.plan.Yarn
	row := um(4200)
	if len(yarns) > 8 {
		row = 2750
	}
	shown := min(len(yarns), mostYarns)
	for _, y := range yarns[:shown] {
		c.y += row
		legendRow(c, row, s.plan, y)
	}
	if m := sampleM(yarns); m > 0 {
		c.y += 800
		c.line(small, loomwork.YarnLength(m, s.plan.Units)+" of this is the sample's weft")
	}
	if more := len(yarns) - shown; more > 0 {
		c.line(small, fmt.Sprintf("and %d more in the plan", more))
	}
}

// sampleM is the weft of the sample, in metres.
func sampleM(yarns []plan.Yarn) (m float64) {
	for _, y := range yarns {
		m += y.SampleM
	}
	return m
}

// legendRow is one colour: its number, a swatch, its name and yarn, and how
// much.
func legendRow(c *column, row um, p *plan.Plan, y plan.Yarn) {
	f := small.in(black)
	h := row - 700
	c.pen.text(c.x+2700, c.y, small.at(end), keyOf(p, y.Colour))
	c.pen.outlined(rect(c.x+3500, c.y-(h+1500)/2, 6*mm, h), inkOf(c.pen, p, y.Colour), line, 100)
	amount := loomwork.YarnLength(y.NeededM(), p.Units)
	left, right := c.x+10500, c.x+c.w-f.width(amount)-mm
	c.pen.text(c.x+c.w, c.y, f.at(end), amount)
	name := f.fit(y.Colour, right-left)
	c.pen.text(left, c.y, f, name)
	left += f.width(name) + 1200
	c.pen.text(left, c.y, small, widest(small, right-left, y.Yarn))
}

// mostWeak is how many weak contrasts are listed.
const mostWeak = 4

// contrasts lists the weakest patterns, each in two lines: how it shows and in
// which pieces; which yarns.
func (s *setSheet) contrasts(c *column) {
	c.heading("Hard to see at " + s.plan.FromTable())
	found := weaknesses(s.plan)
	if len(found) == 0 {
		c.line(small, s.allShow())
		return
	}
	shown := min(len(found), mostWeak)
	for _, w := range found[:shown] {
		where := "in all"
		if len(w.pieces) < len(s.plan.Pieces) {
			where = "in " + numbers(w.pieces, 6)
		}
		c.y += small.line()
		f := small.heavy().in(black)
		c.pen.text(c.x, c.y, f,
			f.fit(w.worst.Words()+" "+tenth(w.worst.DeltaL), c.w-small.width(where)-mm))
		c.pen.text(c.x+c.w, c.y, small.at(end), where)
		c.line(small, fmt.Sprintf("%s on %s, ground %s", w.pattern, w.warp, w.ground))
	}
	if more := len(found) - shown; more > 0 {
		c.line(small, fmt.Sprintf("and %d more in the plan", more))
	}
}

// allShow says that no pattern is weak as reckoned, and whether one may be.
func (s *setSheet) allShow() string {
	worst := palette.Clear
	for i := range s.plan.Pieces {
		for _, c := range s.plan.Pieces[i].Contrast {
			if at := c.At(look.DecisiveM); at != nil && at.Range != nil {
				worst = min(worst, at.Range.Grades[0])
			}
		}
	}
	if worst < palette.Clear {
		return "nothing sure; some may be " + worst.String()
	}
	return "nothing: every pattern is clear or better"
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

// standingNotes are the notes that every plan has; the small print says them in short.
var standingNotes = map[string]bool{"sample-first": true, "dye-bleed": true}

// notes writes the notes of a plan, which has warnings first, as far as they fit.
func notes(c *column, all []plan.Note) {
	var sorted []plan.Note
	for _, n := range all {
		if !standingNotes[n.Code] {
			sorted = append(sorted, n)
		}
	}
	if len(sorted) == 0 {
		return
	}
	c.heading("Notes")
	for i, n := range sorted {
		lines := small.wrap(n.Message, c.w-2*mm)
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
func note(c *column, level plan.Level, lines []string) {
	mark := "·"
	if level == plan.Warning {
		mark = "!"
	}
	c.pen.text(c.x, c.y+small.line(), small.heavy().in(black), mark)
	c.x, c.w = c.x+2*mm, c.w-2*mm
	for _, l := range lines {
		c.line(small, l)
	}
	c.x, c.w = c.x-2*mm, c.w+2*mm
}

// yarnHeading says what the yarn is for.
func yarnHeading(p *plan.Plan) string {
	if p.Midway != nil {
		return "Yarn for the rest"
	}
	return "Yarn in all"
}
