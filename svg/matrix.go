package svg

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"stripesong/sequence/plan"
)

// mostCompared is the largest set whose matrix can be read; of larger ones the
// pairs most alike are listed.
const (
	mostCompared = 12
	mostPairs    = 4
)

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
		if pair.Difference < s.plan.Set.NearlyE() {
			near++
		}
	}
	text := fmt.Sprintf("mean dE00, least %s", tenth(s.plan.Set.LeastDifference))
	if near > 0 {
		limit := strconv.FormatFloat(s.plan.Set.NearlyE(), 'f', -1, 64)
		text += fmt.Sprintf("; nearly alike, under %s: %d", limit, near)
	}
	for _, l := range small.wrap(text, c.w) {
		c.line(small, l)
	}
	if n <= mostCompared {
		s.matrix(c, n)
		return
	}
	s.mostAlike(c)
}

// mostAlike lists the pairs that differ least.
func (s *setSheet) mostAlike(c *column) {
	pairs := slices.Clone(s.plan.Set.Pairs)
	slices.SortStableFunc(pairs, func(a, b plan.Pair) int {
		return cmp.Compare(a.Difference, b.Difference)
	})
	for _, p := range pairs[:min(len(pairs), mostPairs)] {
		c.y += small.line()
		c.pen.text(c.x, c.y, small, fmt.Sprintf("%d and %d", p.NumberA, p.NumberB))
		c.pen.text(c.x+c.w, c.y, small.at(end), tenth(p.Difference))
	}
}

func tenth(v float64) string { return strconv.FormatFloat(v, 'f', 1, 64) }

// matrix draws one row for every piece but the first and one column for every
// one but the last, by their numbers.
func (s *setSheet) matrix(c *column, n int) {
	const numbers = 4 * mm
	w := min(8*mm, (c.w-numbers)/um(n-1))
	const h = 2900
	c.y += 800
	pairs := map[[2]int]float64{}
	for _, p := range s.plan.Set.Pairs {
		pairs[[2]int{p.NumberA, p.NumberB}] = p.Difference
		pairs[[2]int{p.NumberB, p.NumberA}] = p.Difference
	}
	f := small.sized(1900)
	for i := 1; i < n; i++ {
		c.pen.text(c.x+numbers-1300, c.y+h*76/100, f.at(end), strconv.Itoa(i+1))
		for j := range i {
			if d, ok := pairs[[2]int{i + 1, j + 1}]; ok {
				difference(c.pen, frame{c.x + numbers + um(j)*w, c.y, w, h}, d,
					d < s.plan.Set.NearlyE())
			}
		}
		c.y += h
	}
	for j := range n - 1 {
		c.pen.text(c.x+numbers+um(j)*w+w/2, c.y+f.size, f.at(middle), strconv.Itoa(j+1))
	}
	c.y += f.size + 600
}

// difference draws one cell.
func difference(p *pen, at frame, d float64, near bool) {
	box := rect(at.x+150, at.y+150, at.w-300, at.h-300)
	fill, edge, f := shaded, shaded, small.sized(1900)
	if near {
		fill, edge, f = paper, black, f.heavy().in(black)
	}
	p.outlined(box, fill, edge, 250)
	text := widest(f, at.w-400, tenth(d), strconv.FormatFloat(d, 'f', 0, 64))
	p.text(at.x+at.w/2, at.y+at.h*74/100, f.at(middle), text)
}
