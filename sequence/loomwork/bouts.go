package loomwork

import "stripesong/sequence/plan"

// Bout is a handful of ends wound together, left to right.
type Bout struct {
	From, To int // its first and last end, from 1
	Stripes  []Stripe
}

// Ends is how many ends a bout holds.
func (b Bout) Ends() int { return b.To - b.From + 1 }

// Stripe is a warp run, or the part of one that lies in a bout.
type Stripe struct {
	Run    int // of the plan's warp
	Ends   int
	To     int  // running total: its last end, from 1
	Begins bool // the run begins here
	Closes bool // the run ends here
}

// Bouts divides the warp into bouts of at most the plan's Loom.Bout ends. As
// few as can be break inside a stripe, and then only between threading units;
// of such divisions it has the fewest bouts, and of those the most even ones. A
// unit of more ends than a bout is one all the same. Floating selvedges are
// apart.
func Bouts(p *plan.Plan) []Bout {
	if p.Warp.Units == 0 {
		return nil
	}
	unit := (p.Warp.Ends - p.Warp.ClosingEnds) / p.Warp.Units
	closed := closedAt(p.Warp.Runs)
	ends := func(units int) int { // before this place between units
		if closed > 0 && units >= closed {
			return units*unit + 1
		}
		return units * unit
	}
	fits := func(from, to int) bool { return to-from == 1 || ends(to)-ends(from) <= p.Loom.Bout }
	breaks := boutBreaks(runUnits(p.Warp.Runs), fits)
	bouts := make([]Bout, 0, len(breaks))
	from := 0
	for _, to := range breaks {
		bouts = append(bouts, Bout{From: ends(from) + 1, To: ends(to)})
		from = to
	}
	fillBouts(bouts, p.Warp.Runs)
	return bouts
}

// closedAt is after how many units the closing end lies; 0 without one.
func closedAt(runs []plan.WarpRun) int {
	units := 0
	for _, r := range runs {
		units += r.Units
		if r.Closing > 0 {
			return units
		}
	}
	return 0
}

func runUnits(runs []plan.WarpRun) []int {
	units := make([]int, len(runs))
	for i, r := range runs {
		units[i] = r.Units
	}
	return units
}

// best is the best division of the warp up to one place.
type best struct {
	inside, bouts, squares int // what is kept small, in this order
	from                   int // where its last bout begins
}

func (b best) before(c best) bool {
	switch {
	case b.inside != c.inside:
		return b.inside < c.inside
	case b.bouts != c.bouts:
		return b.bouts < c.bouts
	}
	return b.squares < c.squares
}

// boutBreaks gives the end of every bout, in units, each of which fits: one unit always
// does, and of what does not, no more does.
func boutBreaks(runs []int, fits func(from, to int) bool) []int {
	edge := edges(runs)
	n := len(edge) - 1
	upTo := make([]best, n+1)
	for to := 1; to <= n; to++ {
		least := to - 1
		for least > 0 && fits(least-1, to) {
			least--
		}
		for from := least; from < to; from++ {
			b := upTo[from]
			b.bouts, b.squares, b.from = b.bouts+1, b.squares+(to-from)*(to-from), from
			if !edge[to] {
				b.inside++
			}
			if upTo[to].bouts == 0 || b.before(upTo[to]) {
				upTo[to] = b
			}
		}
	}
	var breaks []int
	for at := n; at > 0; at = upTo[at].from {
		breaks = append([]int{at}, breaks...)
	}
	return breaks
}

// edges tells for each place between units, from 0, whether a stripe ends there.
func edges(runs []int) []bool {
	edge := []bool{true}
	for _, units := range runs {
		edge = append(edge, make([]bool, units)...)
		edge[len(edge)-1] = true
	}
	return edge
}

// fillBouts lays the runs into bouts.
func fillBouts(bouts []Bout, runs []plan.WarpRun) {
	b, at := 0, 0 // the bout; ends laid so far
	for i, run := range runs {
		for left := run.Ends; left > 0; {
			if at == bouts[b].To {
				b++
			}
			n := min(left, bouts[b].To-at)
			at += n
			bouts[b].Stripes = append(bouts[b].Stripes,
				Stripe{Run: i, Ends: n, To: at, Begins: left == run.Ends, Closes: left == n})
			left -= n
		}
	}
}
