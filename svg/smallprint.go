package svg

import (
	"fmt"
	"strings"

	"stripesong/sequence/plan"
)

// smallPrint writes at the foot of a column how to read the sheet, and gives its
// top.
func (s *setSheet) smallPrint(c *column) um {
	var lines []string
	for _, said := range []string{s.reading(), s.lighterSide(), cautions(s.plan.Notes)} {
		lines = append(lines, small.wrap(said, c.w)...)
	}
	y := setHeight - margin - um(len(lines)-1)*small.line()
	for i, l := range lines {
		c.pen.text(c.x, y+um(i)*small.line(), small, l)
	}
	y -= small.line() + 1200
	g := s.grid
	w := c.pen.bar(c.x, y, s.plan.Units, g.scale, 24*mm, small.in(black))
	ratio := fmt.Sprintf("1:%s", tenth(float64(g.scale.cloth)/float64(g.scale.paper)))
	c.pen.text(c.x+c.w, y, small.at(end), widest(small, c.w-w-mm, ratio))
	return y - small.line()
}

// reading says how the pieces are drawn.
func (s *setSheet) reading() string {
	text := "Finished size"
	if s.plan.Pieces[0].HemPicks > 0 {
		text += ", hems turned under"
	}
	text += "; woven from the foot up, first piece first. Turned corners show the back."
	for _, piece := range s.plan.Pieces {
		if piece.SeparatorPick > 0 {
			return text + fmt.Sprintf(" %d picks between pieces mark the cut.", piece.SeparatorPick)
		}
	}
	return text
}

// lighterSide says which side of all pieces together is the lighter, if any is.
func (s *setSheet) lighterSide() string {
	if l := s.plan.Set.Lighter; l != nil && len(s.plan.Pieces) > 1 {
		return "All together: " + l.Words + "."
	}
	return ""
}

// cautions says in short what is always to be minded.
func cautions(all []plan.Note) string {
	short := map[string]string{
		"sample-first": "colours here are not yarn: weave and wash a sample",
		"dye-bleed":    "strong dyes may bleed",
	}
	var said []string
	for _, n := range all {
		if text := short[n.Code]; text != "" {
			said = append(said, text)
		}
	}
	if len(said) == 0 {
		return ""
	}
	text := strings.Join(said, "; ") + "."
	return strings.ToUpper(text[:1]) + text[1:]
}
