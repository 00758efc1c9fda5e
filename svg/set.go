package svg

import (
	"fmt"
	"io"
	"strings"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// The sheet of the set fits the printable part of both A4 and Letter,
// landscape.
const (
	setWidth  = 267 * mm
	setHeight = 200 * mm
	margin    = 4 * mm
	panelLeft = setWidth - margin - 47*mm
	titleFoot = 9 * mm  // what the title stands on
	worksTop  = 14 * mm // where all below it begins
)

// Set writes plan.svg: one sheet for the whole set. Its pieces stand on it as
// large as there is room, in reading order, at one true scale, each from the
// bottom up as the cloth grows and with one corner turned over to show the back;
// over them the stripes of the warp, as wide as they. At the right edge stand
// the yarn it takes, what is hard to see at 2 m, how far the pieces differ, the
// plan's notes as far as they fit, and how to read the sheet.
func Set(w io.Writer, p *plan.Plan) error {
	if len(p.Pieces) == 0 || p.Weave == nil {
		return fmt.Errorf("nothing to draw: the plan of %q has no pieces or no structure", p.Title)
	}
	if micrometres(p.Warp.FinishedWidthMM) == 0 {
		return fmt.Errorf("the cloth of %q has no width", p.Title)
	}
	pen := open(w, setWidth, setHeight, titleOf(p), describe(p))
	s := &setSheet{pen: pen, plan: p}
	s.heading()
	s.pieces()
	s.panel()
	return pen.finish()
}

type setSheet struct {
	pen  *pen
	plan *plan.Plan
	grid *grid
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
	return fmt.Sprintf("%s. Warp, left to right: %s. Pieces, first woven first, row by row: %s.",
		facts(p), strings.Join(runs, ", "), strings.Join(names, ", "))
}

// facts is the set in one line.
func facts(p *plan.Plan) string {
	weight := ""
	if p.GramsPerM2 > 0 {
		weight = measure.FormatCloth(p.GramsPerM2, p.Units) + ", "
	}
	return fmt.Sprintf("%s on one warp of %s, %s%s, seed %d", measure.Count(len(p.Pieces), "piece"),
		weave.Spelt(p.Structure), weight, warpLength(p), p.Seed)
}

// warpLength is how long the warp is wound, or what is left of one that is on the loom.
func warpLength(p *plan.Plan) string {
	if p.Midway == nil {
		return "warp " + measure.FormatWarp(p.Warp.WoundMM, p.Units) + " long"
	}
	return fmt.Sprintf("%d woven, %s left", p.Midway.Woven,
		measure.FormatLength(p.Midway.WarpMM, p.Units))
}

func (s *setSheet) heading() {
	right := body.in(quiet)
	told := right.fit(facts(s.plan), 110*mm)
	s.pen.text(setWidth-margin, titleFoot, right.at(end), told)
	room := setWidth - 2*margin - 8*mm - right.width(told)
	large := poster
	if wide := large.width(titleOf(s.plan)); wide > room {
		large = large.sized(max(head.size, part(large.size, int(room), int(wide))))
	}
	s.pen.text(margin, titleFoot, large, large.fit(titleOf(s.plan), room))
}

// inkOf is the colour of a name.
func inkOf(p *pen, of *plan.Plan, name string) paint {
	for _, c := range of.Colours {
		if c.Name == name {
			return ink(c.RGB)
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

// widest is the first of some texts that fits, or nothing.
func widest(f font, room um, texts ...string) string {
	for _, t := range texts {
		if f.width(t) <= room {
			return t
		}
	}
	return ""
}
