package palette

import (
	"math/bits"
	"slices"
)

// A choice of k colours with least difference t or more is a set of k colours
// that are all joined, where two are joined if they differ by t or more. So the
// best choice is found by trying values of t, and no greater t has one where the
// search for such a set ends without.

// searchSteps is how many sets a search for one t looks at before it gives up.
const searchSteps = 200_000

// improve looks for the greatest t that has a choice, by halving the values that
// occur, each with so many steps; it returns the best choice found and the least bound proved.
func (d table) improve(best Choice, k, steps int) Choice {
	values := d.valuesAbove(best.LeastMicro)
	bound := best.LeastMicro
	if len(values) > 0 {
		bound = values[len(values)-1]
	}
	low, high := 0, len(values) // values[:low] tried or possible, values[high:] impossible
	for low < high {
		mid := (low + high) / 2
		picked, sure := d.joined(values[mid]).clique(k, steps)
		switch {
		case picked != nil:
			best = d.choice(picked)
			low = max(mid+1, place(values, best.LeastMicro)+1)
		case sure:
			high = mid
			bound = best.LeastMicro
			if mid > 0 {
				bound = values[mid-1]
			}
		default: // not known: the bound lies above
			low = mid + 1
		}
	}
	best.BoundMicro = max(bound, best.LeastMicro)
	return best
}

// valuesAbove is every difference greater than the least, ascending, once.
func (d table) valuesAbove(least int64) []int64 {
	var values []int64
	for i := range d {
		for _, v := range d[i][:i] {
			if v > least {
				values = append(values, v)
			}
		}
	}
	slices.Sort(values)
	return slices.Compact(values)
}

// place is where a value stands in an ascending list that holds it.
func place(values []int64, v int64) int {
	i, _ := slices.BinarySearch(values, v)
	return i
}

// set is a set of colours, one bit each.
type set []uint64

func newSet(n int) set   { return make(set, (n+63)/64) }
func (s set) add(i int)  { s[i/64] |= 1 << (i % 64) }
func (s set) drop(i int) { s[i/64] &^= 1 << (i % 64) }

// keep leaves the members that are in both.
func (s set) keep(o set) {
	for w := range s {
		s[w] &= o[w]
	}
}

// without takes the members of the other out.
func (s set) without(o set) {
	for w := range s {
		s[w] &^= o[w]
	}
}

// first is the lowest member, -1 for the empty set.
func (s set) first() int {
	for w, word := range s {
		if word != 0 {
			return 64*w + bits.TrailingZeros64(word)
		}
	}
	return -1
}

// graph is, for every colour, the set of those it is joined to.
type graph []set

// joined joins the colours that differ by t or more.
func (d table) joined(t int64) graph {
	g := make(graph, len(d))
	for i := range d {
		g[i] = newSet(len(d))
		for j, v := range d[i] {
			if i != j && v >= t {
				g[i].add(j)
			}
		}
	}
	return g
}

// search is one search for k colours all joined.
type search struct {
	graph  graph
	k      int
	steps  int // left
	picked []int
}

// clique is k colours all joined, nil if there are none or the steps ran out;
// sure tells which.
func (g graph) clique(k, steps int) (picked []int, sure bool) {
	s := &search{graph: g, k: k, steps: steps}
	all := newSet(len(g))
	for i := range g {
		all.add(i)
	}
	if s.expand(all) {
		return s.picked, true
	}
	return nil, s.steps > 0
}

// expand adds colours from the candidates until k are picked. Candidates that
// fall into fewer classes of mutually unjoined colours than are still needed
// can't supply them (Tomita & Seki 2003).
func (s *search) expand(candidates set) bool {
	if len(s.picked) == s.k {
		return true
	}
	order, class := s.graph.classes(candidates)
	for i := len(order) - 1; i >= 0; i-- {
		if s.steps == 0 || len(s.picked)+class[i] < s.k {
			return false
		}
		s.steps--
		next := slices.Clone(candidates)
		next.keep(s.graph[order[i]])
		s.picked = append(s.picked, order[i])
		if s.expand(next) {
			return true
		}
		s.picked = s.picked[:len(s.picked)-1]
		candidates.drop(order[i])
	}
	return false
}

// classes sorts candidates into classes in which no two are joined, numbered
// from 1; no class gives two members to a set that is all joined.
func (g graph) classes(candidates set) (order, class []int) {
	rest := slices.Clone(candidates)
	for number := 1; rest.first() >= 0; number++ {
		open := slices.Clone(rest)
		for v := open.first(); v >= 0; v = open.first() {
			order, class = append(order, v), append(class, number)
			rest.drop(v)
			open.drop(v)
			open.without(g[v])
		}
	}
	return order, class
}
