package svg

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/sequence/plan"
)

// nearAlike is the mean dE00 below which two pieces look nearly alike, where
// the brief has no at_least.
const nearAlike = 4.0

// nearly is the difference below which pieces of a plan are marked.
func nearly(p *plan.Plan) float64 {
	if p.Set.AtLeast > 0 {
		return p.Set.AtLeast
	}
	return nearAlike
}

// mostCompared is the largest set whose matrix can be read.
const mostCompared = 24

// differences draws how far every two pieces differ: a quiet matrix, those
// nearly alike marked.
func (s *setSheet) differences(c *column) {
	n := len(s.plan.Pieces)
	if n < 2 {
		return
	}
	c.heading("How the pieces differ")
	near := 0
	for _, pair := range s.plan.Set.Pairs {
		if pair.Difference < nearly(s.plan) {
			near++
		}
	}
	text := fmt.Sprintf("mean dE00, least %s", tenth(s.plan.Set.LeastDifference))
	if near > 0 {
		text += fmt.Sprintf("; under %s is nearly alike (framed): %d", strconv.FormatFloat(nearly(s.plan), 'f', -1, 64), near)
	}
	if n > mostCompared {
		text = strings.Replace(text, " (framed)", "", 1)
	}
	c.line(small, text)
	if n <= mostCompared {
		s.matrix(c, n)
	}
}

func tenth(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

// matrix draws one row for every piece but the first and one column for every
// one but the last.
func (s *setSheet) matrix(c *column, n int) {
	names := 26 * mm
	w := min(7*mm, (c.w-names)/um(n-1))
	h := max(1400, min(3200, 38*mm/um(n)))
	c.y += 800
	pairs := map[[2]int]float64{}
	for _, p := range s.plan.Set.Pairs {
		pairs[[2]int{p.NumberA, p.NumberB}], pairs[[2]int{p.NumberB, p.NumberA}] = p.Difference, p.Difference
	}
	f := small.sized(min(2*mm, h*7/10))
	for i := 1; i < n; i++ {
		c.pen.text(c.x, c.y+h*8/10, f, f.fit(fmt.Sprintf("%d %s", i+1, s.plan.Pieces[i].Name), names-mm))
		for j := range i {
			if d, ok := pairs[[2]int{i + 1, j + 1}]; ok {
				difference(c.pen, frame{c.x + names + um(j)*w, c.y, w, h}, d, d < nearly(s.plan))
			}
		}
		c.y += h
	}
	for j := range n - 1 {
		c.pen.text(c.x+names+um(j)*w+w/2, c.y+f.size, f.at(middle), strconv.Itoa(j+1))
	}
	c.y += f.size + 600
}

// difference draws one cell.
func difference(p *pen, at frame, d float64, near bool) {
	box := rect(at.x+150, at.y+150, at.w-300, at.h-300)
	fill, edge, f := shaded, shaded, small.sized(min(2*mm, at.h*65/100))
	if near {
		fill, edge, f = paper, black, f.heavy().in(black)
	}
	p.outlined(box, fill, edge, 250)
	p.text(at.x+at.w/2, at.y+at.h*75/100, f.at(middle), widest(f, at.w-400, tenth(d), strconv.FormatFloat(d, 'f', 0, 64)))
}
