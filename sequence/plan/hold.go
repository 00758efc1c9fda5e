package plan

import (
	"fmt"
	"slices"

	"stripesong/sequence/brief"
)

// scaled is the runs of a held piece as weights of n weft units, each at least
// one; the same runs where they come to n. A mirror image stays one.
func (m *maker) scaled(piece int, runs []brief.Run, n int) ([]brief.Run, error) {
	return m.rescaled(piece, runs, n, 0)
}

// rescaled is [maker.scaled] of runs no wider than a most, 0 for no bound; piece is -1
// for the warp.
func (m *maker) rescaled(piece int, runs []brief.Run, n, most int) ([]brief.Run, error) {
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
	shares, err := share(weights, n, mirrored, most)
	if err != nil {
		return nil, m.b.Wrong(piece, fmt.Sprintf("%d runs do not fit into %d units", len(runs), n),
			"leave runs out, or make it larger", "hold", "runs")
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
