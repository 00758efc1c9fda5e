package choose

import (
	"context"
	"slices"
)

// Spread gives the first n candidates farthest first, whatever they need: an
// order in which every beginning covers the pool about as evenly as can be. It
// gives fewer where no others differ.
func (p *Pool) Spread(ctx context.Context, n int) ([]int, error) {
	if p.Size == 0 || n < 1 {
		return nil, nil
	}
	h := newHunt(ctx, p, 0, (&Pool{Size: p.Size}).families()[0])
	var at []int
	if p.Fixed == 0 {
		at = h.beginning(1)
	}
	at = h.spread(at, n)
	return at, h.err
}

// Lay puts n members on a grid of so many columns, row by row, so that unlike
// ones stand far apart and alike ones side by side: it exchanges two at a time
// as long as that raises the sum of difference times distance, counted in steps
// along rows and columns. The result holds the member of each cell.
func Lay(n, columns int, between func(a, b int) int64) []int {
	diff := make([][]int64, n)
	cells := make([]int, n)
	for a := range n {
		cells[a], diff[a] = a, make([]int64, n)
		for b := range n {
			diff[a][b] = between(a, b)
		}
	}
	far := func(x, y int) int64 {
		return int64(max(x/columns-y/columns, y/columns-x/columns) + max(x%columns-y%columns, y%columns-x%columns))
	}
	for changed := true; changed; {
		changed = false
		for x := range n {
			for y := range x {
				if gain(diff, cells, far, x, y) > 0 {
					cells[x], cells[y] = cells[y], cells[x]
					changed = true
				}
			}
		}
	}
	return slices.Clip(cells)
}

// gain is what exchanging two cells adds to the sum.
func gain(diff [][]int64, cells []int, far func(x, y int) int64, x, y int) int64 {
	var sum int64
	for z, c := range cells {
		if z != x && z != y {
			sum += (diff[cells[y]][c] - diff[cells[x]][c]) * (far(x, z) - far(y, z))
		}
	}
	return sum
}
