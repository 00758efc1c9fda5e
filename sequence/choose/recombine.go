package choose

import "slices"

// steps is how long a search for cliques may take.
const steps = 20_000

// recombine finds the best set of as many among all members whose columns are
// known: s itself where none is better, or where the search would take too
// long.
func (h *search) recombine(s set) set {
	if len(s.at) < 2 || len(s.at) > word || s.over > 0 {
		return s
	}
	if len(h.of) <= word {
		for a := range h.of {
			h.column(a)
		}
	}
	among := h.lately(s.at)
	left := steps
	for left > 0 && !h.stopped() {
		g := h.graph(among, s.least+1)
		g.nodes = left
		found := g.clique(len(s.at))
		left = g.nodes
		if found == nil {
			return s
		}
		at := make([]int, len(found))
		for i, v := range found {
			at[i] = among[v]
		}
		s = h.weigh(at)
	}
	return s
}

// lately lists members and the places whose columns are known, the latest
// first, as many as a graph can hold.
func (h *search) lately(members []int) []int {
	among := slices.Clone(members)
	for i := len(h.known) - 1; i >= 0 && len(among) < word; i-- {
		if !slices.Contains(members, h.known[i]) {
			among = append(among, h.known[i])
		}
	}
	return among
}

// graph puts those beside each other that differ by least or more.
func (h *search) graph(among []int, least int64) *graph {
	g := &graph{beside: make([]uint64, len(among)), weight: make([]int, len(among))}
	for v, a := range among {
		g.weight[v] = 1
		if int64(h.near[a]) < least {
			continue
		}
		column := h.column(a)
		for w, b := range among {
			if w != v && int64(column[b]) >= least && int64(h.near[b]) >= least {
				g.beside[v] |= 1 << w
			}
		}
	}
	if h.from.Needs != nil {
		g.fits = func(members []int) bool {
			at := make([]int, len(members))
			for i, v := range members {
				at[i] = among[v]
			}
			return h.over(h.used(at)) == 0
		}
	}
	return g
}
