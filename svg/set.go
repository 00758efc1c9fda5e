package svg

import (
	"fmt"
	"io"
	"strings"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// The sheet of the set fits the printable part of both A4 and Letter,
// landscape.
const (
	setWidth  = 267 * mm
	setHeight = 200 * mm
	margin    = 4 * mm
	panelLeft = setWidth - margin - 76*mm
	worksTop  = 48 * mm // where the figures below the warp begin
)

// Set writes plan.svg: one sheet for the whole set. It shows the warp's
// stripes between rulers in units and in the brief's measure; every piece's
// face and back at one true scale, from the bottom up as the cloth grows; what
// yarn is used; which patterns are hard to see at 2 m; how far the pieces
// differ; and the plan's notes as far as they fit.
func Set(w io.Writer, p *plan.Plan) error {
	if len(p.Pieces) == 0 || p.Weave == nil {
		return fmt.Errorf("nothing to draw: the plan of %q has no pieces or no structure", p.Title)
	}
	pen := open(w, setWidth, setHeight, titleOf(p), describe(p))
	s := &setSheet{pen: pen, plan: p}
	s.heading()
	s.warp()
	s.pieces()
	s.panel()
	return pen.finish()
}

type setSheet struct {
	pen  *pen
	plan *plan.Plan
}

func titleOf(p *plan.Plan) string {
	if strings.TrimSpace(p.Title) == "" {
		return "A set without a title"
	}
	return p.Title
}

// describe says in words what the sheet shows.
func describe(p *plan.Plan) string {
	var names []string
	for _, piece := range p.Pieces[:min(len(p.Pieces), 40)] {
		names = append(names, piece.Name)
	}
	if more := len(p.Pieces) - len(names); more > 0 {
		names = append(names, fmt.Sprintf("and %d more", more))
	}
	var runs []string
	for _, run := range p.Warp.Runs[:min(len(p.Warp.Runs), 80)] {
		runs = append(runs, fmt.Sprintf("%s %d %s", run.Block, run.Units, run.Colour))
	}
	return fmt.Sprintf("%s. Warp, left to right: %s. Pieces, first woven first: %s.", facts(p), strings.Join(runs, ", "), strings.Join(names, ", "))
}

// facts is the set in one line.
func facts(p *plan.Plan) string {
	pieces := "1 piece"
	if n := len(p.Pieces); n != 1 {
		pieces = fmt.Sprintf("%d pieces", n)
	}
	weight := ""
	if p.GramsPerM2 > 0 {
		weight = measure.FormatCloth(p.GramsPerM2, p.Units) + ", "
	}
	return fmt.Sprintf("%s on one warp of %s, %swound %s, seed %d",
		pieces, p.Structure, weight, measure.FormatWarp(p.Warp.WoundMM, p.Units), p.Seed)
}

func (s *setSheet) heading() {
	s.pen.text(margin, 9*mm, head, head.fit(titleOf(s.plan), 150*mm))
	s.pen.text(setWidth-margin, 9*mm, body.at(end), body.fit(facts(s.plan), 105*mm))
	s.pen.stroke(outline(nil).line(margin, 11500, setWidth-margin, 11500), hair, 200)
}

// warp draws the stripes with a ruler above in units and one below in the
// brief's measure, and between them what each stripe is.
func (s *setSheet) warp() {
	const left, top = margin + 15*mm, 16 * mm
	width := setWidth - margin - left
	w := &s.plan.Warp
	s.pen.text(margin, top, title, "Warp")
	s.pen.text(left, top, body, body.fit(s.warpFacts(), width))
	y := top + 6*mm
	s.pen.text(margin, y-1300, small, "units")
	s.pen.ruler(left, y, width, w.Units, stepOf(countSteps, w.Units, width, 9*mm), 1, false)
	s.stripes(left, y, width, 7*mm)
	s.runNames(left, y+10*mm, width)
	y += 15 * mm
	name, size, steps := measureOf(s.plan.Units)
	total := int(micrometres(w.FinishedWidthMM)) / 100
	s.pen.text(margin, y+3200, small, name+", finished")
	s.pen.ruler(left, y, width, total, stepOf(steps, total, width, 9*mm), size, true)
}

func (s *setSheet) warpFacts() string {
	w, units := &s.plan.Warp, s.plan.Units
	text := fmt.Sprintf("left to right as the weaver faces the loom: %d ends in %d units, %s in the reed, %s finished",
		w.Ends, w.Units, measure.FormatLength(w.ReedWidthMM, units), measure.FormatLength(w.FinishedWidthMM, units))
	if w.FloatingSelvedgeEnds > 0 {
		text += fmt.Sprintf("; %d floating selvedge ends more, not drawn", w.FloatingSelvedgeEnds)
	}
	return text
}

// stripes draws the warp in the colours of its yarn.
func (s *setSheet) stripes(x, y, w, h um) {
	s.pen.group(`shape-rendering="crispEdges"`)
	at := 0
	for _, run := range s.plan.Warp.Runs {
		from, to := part(w, at, s.plan.Warp.Ends), part(w, at+run.Ends, s.plan.Warp.Ends)
		s.pen.fill(rect(x+from, y, to-from, h), s.inkOf(run.Colour))
		at += run.Ends
	}
	s.pen.end()
	s.pen.stroke(rect(x, y, w, h), line, 150)
}

// inkOf is the colour of a name.
func (s *setSheet) inkOf(name string) paint { return inkOf(s.pen, s.plan, name) }

func inkOf(p *pen, of *plan.Plan, name string) paint {
	for _, c := range of.Colours {
		if c.Name == name {
			return p.ink(c.Hex)
		}
	}
	p.fail(fmt.Errorf("the plan has no colour %q", name))
	return black
}

// keyOf is the number that stands for a colour where its name has no room.
func keyOf(of *plan.Plan, name string) string {
	for i, c := range of.Colours {
		if c.Name == name {
			return fmt.Sprint(i + 1)
		}
	}
	return "?"
}

// runNames writes what fits under each stripe: block and units, and the
// colour's name or else its number in the legend. What has no room is left
// out; the ruler and the legend still tell.
func (s *setSheet) runNames(x, y, w um) {
	s.pen.text(margin, y, small, "block, units")
	s.pen.text(margin, y+3*mm, small, "colour")
	at, ends := 0, s.plan.Warp.Ends
	var marks outline
	for _, run := range s.plan.Warp.Runs {
		room := part(w, run.Ends, ends)
		centre := x + part(w, 2*at+run.Ends, 2*ends)
		at += run.Ends
		marks = marks.line(x+part(w, at, ends), y-3*mm, x+part(w, at, ends), y-1600)
		s.pen.text(centre, y, small.heavy().in(black).at(middle),
			widest(small.heavy(), room-600, fmt.Sprintf("%s %d", run.Block, run.Units), run.Block))
		s.pen.text(centre, y+3*mm, small.at(middle), widest(small, room-600, run.Colour, keyOf(s.plan, run.Colour)))
	}
	s.pen.stroke(marks, line, 150)
}

// widest is the first of some texts that fits, or nothing.
func widest(f font, room um, texts ...string) string {
	for _, t := range texts {
		if f.width(t) <= room {
			return t
		}
	}
	return ""
}
