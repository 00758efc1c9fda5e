package choose

import (
	"context"
	"slices"
)

// Spread gives the first n candidates of an order in which every beginning
// covers the candidates about as evenly as can be: farthest first, whatever they need,
// the families taking turns. It gives fewer where no others differ.
func (p *Candidates) Spread(ctx context.Context, n int) ([]int, error) {
	if p.Size == 0 || n < 1 {
		return nil, nil
	}
	h := newSearch(ctx, p, 0, (&Candidates{Size: p.Size}).families()[0])
	near, turns := slices.Clone(h.near), p.families()
	if p.Fixed == 0 { // begin far from the first
		near = slices.Clone(h.column(0))
		near[0] = 1
	}
	var at []int
	for idle := 0; len(at) < n && idle < len(turns) && !h.stopped(); {
		turn := turns[0]
		turns = append(turns[1:len(turns):len(turns)], turn)
		next := farthestOf(turn, near)
		if next < 0 {
			idle++
			continue
		}
		if at, idle = append(at, next), 0; len(at) == 1 {
			near = slices.Clone(h.near)
		}
		for a, d := range h.column(next) {
			near[a] = min(near[a], d)
		}
	}
	return at, h.err
}

// farthestOf is the candidate with the greatest difference; -1 where all are 0.
func farthestOf(candidates []int, near []int32) int {
	best := -1
	for _, c := range candidates {
		if near[c] > 0 && (best < 0 || near[c] > near[best]) {
			best = c
		}
	}
	return best
}
