package choose

import "math/bits"

// word is how many vertices a graph may have: one bit each of a machine word.
const word = 64

// graph is who may stand beside whom. A vertex counts for its weight.
type graph struct {
	beside []uint64
	weight []int
	fits   func(members []int) bool // nil where all do; what fits not, fits with more not either
	nodes  int                      // how many steps are left; below 0 the search was given up
}

// clique finds members, each beside all others, that weigh want or more; nil
// where there are none or the steps ran out.
func (g *graph) clique(want int) []int {
	return g.with(nil, want)
}

// with finds a clique that weighs want or more and holds some members; nil where there is
// none or the steps ran out.
func (g *graph) with(members []int, want int) []int {
	from := uint64(0)
	for v := range g.beside {
		from |= 1 << v
	}
	for i, v := range members {
		for _, w := range members[:i] {
			if g.beside[v]&(1<<w) == 0 {
				return nil
			}
		}
		from &= g.beside[v]
		want -= g.weight[v]
	}
	if g.fits != nil && len(members) > 0 && !g.fits(members) {
		return nil
	}
	return g.extend(members, from, want)
}

func (g *graph) extend(members []int, from uint64, want int) []int {
	if want <= 0 {
		return members
	}
	for from != 0 && g.reach(from) >= want {
		if g.nodes--; g.nodes < 0 {
			return nil
		}
		v := bits.TrailingZeros64(from)
		from &^= 1 << v
		with := append(members[:len(members):len(members)], v)
		if g.fits != nil && !g.fits(with) {
			continue
		}
		if found := g.extend(with, from&g.beside[v], want-g.weight[v]); found != nil {
			return found
		}
	}
	return nil
}

// reach bounds what a clique among vertices can weigh: it can have one of each
// class of vertices none of which is beside another.
func (g *graph) reach(from uint64) int {
	sum := 0
	for from != 0 {
		class, heaviest := from, 0
		for class != 0 {
			v := bits.TrailingZeros64(class)
			heaviest = max(heaviest, g.weight[v])
			from &^= 1 << v
			class &^= 1<<v | g.beside[v]
		}
		sum += heaviest
	}
	return sum
}
