package plan

import (
	"fmt"
	"slices"

	"stripesong/sequence/brief"
)

// scaled is the runs of a held piece as weights of n weft units, each at least
// one; the same runs where they come to n. A mirror image stays one.
func (m *maker) scaled(piece int, runs []brief.Run, n int) ([]brief.Run, error) {
	if units(runs) == n {
		return runs, nil
	}
	weights := make([]int64, len(runs))
	for i, r := range runs {
		weights[i] = int64(r.Units)
	}
	mirrored := len(runs)%2 == 1 && mirrorImage(runs)
	if mirrored {
		weights = weights[:len(runs)/2+1]
	}
	shares, err := share(weights, n, mirrored, 0)
	if err != nil {
		return nil, m.b.Wrong(piece, fmt.Sprintf("%d runs that are held do not fit into %d weft units", len(runs), n),
			"leave runs out, or make the piece longer", "hold", "runs")
	}
	made := slices.Clone(runs)
	for i := range made {
		made[i].Units = shares[i]
	}
	return made, nil
}

// mirrorImage tells whether runs read the same from both ends.
func mirrorImage(runs []brief.Run) bool {
	turned := slices.Clone(runs)
	slices.Reverse(turned)
	return slices.Equal(runs, turned)
}
