package sequence

import "container/heap"

// gains is the stripes by what each would gain from the next unit, the greatest
// first and of equal ones the earlier; those without room are left out.
type gains struct {
	of    func(stripe int) (gain int64, room bool)
	order []gain
}

type gain struct {
	stripe int
	gain   int64
}

func newGains(stripes int, of func(stripe int) (int64, bool)) *gains {
	g := &gains{of: of, order: make([]gain, 0, stripes)}
	for i := range stripes {
		if v, room := of(i); room {
			g.order = append(g.order, gain{i, v})
		}
	}
	heap.Init(g)
	return g
}

// best is the stripe that gains most; -1 where none has room.
func (g *gains) best() int {
	if len(g.order) == 0 {
		return -1
	}
	return g.order[0].stripe
}

// renew works out anew what the best stripe gains, which has been given units.
func (g *gains) renew() {
	v, room := g.of(g.order[0].stripe)
	if !room {
		heap.Pop(g)
		return
	}
	g.order[0].gain = v
	heap.Fix(g, 0)
}

func (g *gains) Len() int { return len(g.order) }

func (g *gains) Less(i, j int) bool {
	a, b := g.order[i], g.order[j]
	return a.gain > b.gain || a.gain == b.gain && a.stripe < b.stripe
}

func (g *gains) Swap(i, j int) { g.order[i], g.order[j] = g.order[j], g.order[i] }

// Push is for the interface of package heap; stripes never come back.
func (g *gains) Push(x any) { g.order = append(g.order, x.(gain)) }

func (g *gains) Pop() any {
	last := g.order[len(g.order)-1]
	g.order = g.order[:len(g.order)-1]
	return last
}
