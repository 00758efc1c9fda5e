package svg

import (
	"fmt"
	"slices"

	"stripesong/sequence/measure"
)

// strips draws the stripes of the warp over every column of pieces, as wide as
// they are, and says what fits over each stripe: block, units and colour.
func (s *setSheet) strips() {
	w := s.grid.scale.paper
	h := max(1200, min(3*mm, w/14))
	id := s.strip(w, h)
	y := s.grid.top - 900 - h
	for column := range min(s.grid.columns, len(s.plan.Pieces)) {
		x := s.grid.left + um(column)*s.grid.pitch
		s.pen.use(id, "translate("+num(x)+" "+num(y)+")")
		s.pen.stroke(rect(x, y, w, h), line, 101)
		s.runNames(x, y-900, w)
	}
}

// strip defines the stripes in the colours of their yarn.
func (s *setSheet) strip(w, h um) string {
	id := s.pen.newID()
	s.pen.canvas.Def()
	s.pen.group(`id="`+id+`"`, `shape-rendering="crispEdges"`)
	at := 0
	for _, run := range s.plan.Warp.Runs {
		from, to := part(w, at, s.plan.Warp.Ends), part(w, at+run.Ends, s.plan.Warp.Ends)
		s.pen.fill(rect(from, 0, to-from, h), inkOf(s.pen, s.plan, run.Colour))
		at += run.Ends
	}
	s.pen.end()
	s.pen.canvas.DefEnd()
	return id
}

// runNames writes what has room over each stripe.
func (s *setSheet) runNames(x, y, w um) {
	f := small.sized(max(1500, min(small.size, w/20)))
	at, ends := 0, s.plan.Warp.Ends
	for _, run := range s.plan.Warp.Runs {
		centre := x + part(w, 2*at+run.Ends, 2*ends)
		at += run.Ends
		block := fmt.Sprintf("%s %d", run.Block, run.Units)
		text := widest(f, part(w, run.Ends, ends)-500, block+" "+run.Colour, block, run.Block)
		s.pen.text(centre, y, f.at(middle), text)
	}
}

// mostWarpLines is how many lines the stripes of the warp take in words.
const mostWarpLines = 6

// warpInWords says what the warp is, and names its stripes from left to right, as
// far as there is room.
func (s *setSheet) warpInWords(c *column) {
	w := &s.plan.Warp
	c.heading("Warp, left to right")
	all := make([]string, len(w.Runs))
	for i, run := range w.Runs {
		all[i] = fmt.Sprintf("%s %d %s", run.Block, run.Units, run.Colour)
	}
	back := []string(nil)
	turned := slices.Clone(all)
	slices.Reverse(turned)
	if len(all) > 3 && len(all)%2 == 1 && slices.Equal(all, turned) {
		all, back = all[:len(all)/2+1], []string{"and back again"}
	}
	lines := flow(small, c.w, append(slices.Clone(all), back...))
	for n := len(all) - 1; len(lines) > mostWarpLines && n > 0; n-- {
		more := fmt.Sprintf("and on: %d in all", len(w.Runs))
		lines = flow(small, c.w, append(slices.Clone(all[:n]), more))
	}
	for _, l := range append(lines, small.wrap(s.warpFacts(), c.w)...) {
		c.line(small, l)
	}
}

// flow sets a list in lines, none of its words broken off from the rest of it.
func flow(f font, room um, list []string) (lines []string) {
	for i, item := range list {
		if i < len(list)-1 {
			item += ","
		}
		if n := len(lines); n > 0 && f.width(lines[n-1]+" "+item) <= room {
			lines[n-1] += " " + item
			continue
		}
		lines = append(lines, f.fit(item, room))
	}
	return lines
}

// warpFacts is the size of the warp.
func (s *setSheet) warpFacts() string {
	w := &s.plan.Warp
	text := fmt.Sprintf("%d ends in %d units", w.Ends, w.Units)
	if w.ClosingEnds > 0 {
		text += " and one that closes"
	}
	if w.FloatingSelvedgeEnds > 0 {
		text += fmt.Sprintf(" and %d floating", w.FloatingSelvedgeEnds)
	}
	return text + ", " + measure.FormatLength(w.ReedWidthMM, s.plan.Units) + " wide in the reed; " +
		w.Divided()
}
