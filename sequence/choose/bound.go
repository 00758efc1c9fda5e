package choose

import (
	"slices"
)

// centres is how many clusters the bound divides a family into.
const centres = 48

// bound is what no k of the family can pass, and no less than from.
//
// All candidates are put with the nearest of a few centres. Two of them can't
// differ by more than the way round by the centre of one, of which one leg is
// known for every candidate. So k that differ by some measure need k clusters,
// or two in a wide one, that can differ by as much; the greatest measure for
// which there are such clusters is the bound. It is found by going through
// cliques; where that takes too long they are taken to exist. Limits of room
// are left out of it.
func (h *search) bound(k int, from int64) int64 {
	switch {
	case h.stopped():
		return from
	case k > word:
		return h.pigeons(k, from)
	}
	c := h.cluster(from)
	steps := c.measures(from)
	if len(steps) == 0 {
		return from
	}
	// the first measure that can't be reached
	low, _ := slices.BinarySearchFunc(steps, true, func(d int64, _ bool) int {
		if !h.stopped() && c.reaches(k, d) {
			return -1
		}
		return 1
	})
	best := from
	if low > 0 {
		best = steps[low-1]
	}
	return min(best, h.pigeons(k, from))
}

// pigeons is the bound of the factor two: with k-1 centres chosen farthest
// first, two of any k share a centre, and differ by no more than the way
// between them by it.
func (h *search) pigeons(k int, from int64) int64 {
	at := h.beginning(k - 1)
	h.measure(at)
	var reach int64
	for a := range h.of {
		reach = max(reach, int64(h.nearby[a].first))
	}
	if len(at) == 0 && h.from.Fixed == 0 {
		return Apart
	}
	return max(from, h.from.bent(2*reach))
}

// beginning is the first places of the order farthest first.
func (h *search) beginning(n int) []int {
	var at []int
	near := slices.Clone(h.near)
	if h.from.Fixed == 0 && n > 0 {
		copy(near, h.column(0))
	}
	for len(at) < n && !h.stopped() {
		best := -1
		for a := range h.of {
			if (best < 0 || near[a] > near[best]) && !slices.Contains(at, a) {
				best = a
			}
		}
		if best < 0 {
			break
		}
		if len(at) == 0 {
			copy(near, h.near)
		}
		at = append(at, best)
		for a, d := range h.column(best) {
			near[a] = min(near[a], d)
		}
	}
	return at
}

// clusters are a family's candidates by centre. Those nearer to what stands
// than the bound is to be are left out.
type clusters struct {
	count []int
	alone []bool    // the centre is all there is
	reach []int64   // greatest difference to what stands
	apart [][]int64 // how far members of two clusters, or of one, can differ at most
}

func (h *search) cluster(from int64) *clusters {
	among := h.lately(nil)
	if len(h.of) > word {
		among = h.spread(among[:min(len(among), centres/2)], centres)
	}
	n := len(among)
	c := &clusters{count: make([]int, n), alone: make([]bool, n), reach: make([]int64, n),
		apart: make([][]int64, n)}
	radius, across := make([]int64, n), make([]int64, n)
	far := make([][]int64, n) // of the members of one, to the centre of another
	for i := range n {
		c.apart[i], far[i] = make([]int64, n), make([]int64, n)
	}
	mine := h.nearest(among)
	for a := range h.of {
		if int64(h.near[a]) <= from && h.from.Fixed > 0 {
			continue
		}
		i := mine[a]
		c.count[i]++
		c.alone[i] = c.count[i] == 1 && a == among[i]
		c.reach[i] = max(c.reach[i], int64(h.near[a]))
		for j, b := range among {
			far[i][j] = max(far[i][j], int64(h.columns[b][a]))
		}
		d := int64(h.columns[among[i]][a])
		across[i] = max(across[i], radius[i]+d)
		radius[i] = max(radius[i], d)
	}
	for i := range n {
		for j := range n {
			c.apart[i][j] = h.ways(c, far, radius, across, i, j)
		}
	}
	return c
}

// ways is how far members of clusters i and j can differ at most. A cluster of
// its centre alone has exact differences.
func (h *search) ways(c *clusters, far [][]int64, radius, across []int64, i, j int) int64 {
	switch {
	case c.count[i] == 0 || c.count[j] == 0:
		return -1
	case i == j:
		return h.from.bent(across[i])
	case c.alone[i]:
		return far[j][i]
	case c.alone[j]:
		return far[i][j]
	}
	return h.from.bent(min(far[i][j]+radius[j], far[j][i]+radius[i]))
}

// nearest is the centre of each place, the first of equals.
func (h *search) nearest(among []int) []int {
	mine := make([]int, len(h.of))
	columns := h.columnsOf(among)
	h.each(quickly, func(from, to int) {
		for j, column := range columns {
			for a := from; a < to; a++ {
				if column[a] < columns[mine[a]][a] {
					mine[a] = j
				}
			}
		}
	})
	return mine
}

// spread adds places to some, farthest first, until there are n.
func (h *search) spread(some []int, n int) []int {
	at := slices.Clone(some)
	near := slices.Clone(h.near)
	for _, b := range at {
		for a, d := range h.column(b) {
			near[a] = min(near[a], d)
		}
	}
	for len(at) < min(n, len(h.of)) && !h.stopped() {
		best := 0
		for a := range near {
			if near[a] > near[best] {
				best = a
			}
		}
		if near[best] == 0 {
			break
		}
		at = append(at, best)
		for a, d := range h.column(best) {
			near[a] = min(near[a], d)
		}
	}
	return at
}

// measures are the differences above from at which what is possible changes,
// rising.
func (c *clusters) measures(from int64) []int64 {
	var all []int64
	for i := range c.apart {
		if c.count[i] == 0 {
			continue
		}
		all = append(all, c.reach[i])
		all = append(all, c.apart[i]...)
	}
	all = slices.DeleteFunc(all, func(d int64) bool { return d <= from })
	slices.Sort(all)
	return slices.Compact(all)
}

// reaches tells whether k could differ by some measure.
func (c *clusters) reaches(k int, measure int64) bool {
	g := &graph{nodes: steps}
	var usable []int
	for i, n := range c.count {
		if n > 0 && c.reach[i] >= measure {
			usable = append(usable, i)
		}
	}
	for _, i := range usable {
		weight, beside := 1, uint64(0)
		if c.apart[i][i] >= measure {
			weight = min(c.count[i], k)
		}
		for w, j := range usable {
			if i != j && c.apart[i][j] >= measure {
				beside |= 1 << w
			}
		}
		g.beside, g.weight = append(g.beside, beside), append(g.weight, weight)
	}
	return g.clique(k) != nil || g.nodes < 0
}
