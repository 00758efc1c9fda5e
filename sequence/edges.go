package sequence

import "fmt"

// VanishError says that a block, counted from 0, has no stripe of its own.
type VanishError struct{ Block int }

func (e *VanishError) Error() string {
	return fmt.Sprintf("block %d of blocks vanishes: no stripe is nearest to it", e.Block+1)
}

// OnEdges shares out blocks in proportion to weights, each of whole stripes: the edge
// between two blocks falls on the edge between stripes that is nearest to where it would
// be in exact proportion; of two that are as near, on the left one, but not on the edge
// of the cloth. Where stripes and
// weights both read the same from either end, so do the blocks. The result is units
// like the stripes'. It fails with a [VanishError] where a block would have no stripe.
func OnEdges(stripes []int, weights []int64) ([]int, error) {
	n := 0
	for _, s := range stripes {
		n += s
	}
	sum, err := total(weights, n)
	if err != nil {
		return nil, err
	}
	edges := make([]int, 0, len(weights)+1)
	edges = append(edges, 0)
	var before int64
	for _, w := range weights[:len(weights)-1] {
		before += w
		edges = append(edges, nearestEdge(stripes, before*int64(n), sum))
	}
	edges = append(edges, n)
	if palindromic(stripes) && palindromic(weights) {
		for i, j := 0, len(edges)-1; i < j; i, j = i+1, j-1 {
			edges[j] = n - edges[i]
		}
	}
	blocks := make([]int, len(weights))
	for i := range blocks {
		if blocks[i] = edges[i+1] - edges[i]; blocks[i] <= 0 {
			return nil, &VanishError{Block: i}
		}
	}
	return blocks, nil
}

// nearestEdge is the stripe edge, those of the cloth included, that is nearest to
// at/sum units; of two as near one between stripes, then the left one.
func nearestEdge(stripes []int, at, sum int64) int {
	edge, best, least := 0, 0, int64(-1)
	for _, s := range stripes {
		edge += s
		apart := int64(edge)*sum - at
		if apart = max(apart, -apart); least < 0 || apart < least {
			best, least = edge, apart
		}
	}
	if at < least {
		return 0
	}
	return best
}

// palindromic tells whether a row reads the same from both ends.
func palindromic[T comparable](all []T) bool {
	for i, j := 0, len(all)-1; i < j; i, j = i+1, j-1 {
		if all[i] != all[j] {
			return false
		}
	}
	return true
}
