package svg

import (
	"cmp"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// weakness is three yarns that are hard to tell apart when woven, and in
// which pieces.
type weakness struct {
	warp, ground, pattern string
	worst                 *plan.Seen // where it shows least, from across the table
	pieces                []int
}

// weaknesses gathers the contrasts of the set that are less than clear from across
// the table, the worst first.
func weaknesses(p *plan.Plan) []weakness {
	var found []weakness
	place := map[[3]string]int{}
	for i := range p.Pieces {
		for _, c := range p.Pieces[i].Contrast {
			at := c.At(look.DecisiveM)
			if at == nil || at.Grade >= palette.Clear {
				continue
			}
			key := [3]string{c.Warp, c.Ground, c.Pattern}
			n, ok := place[key]
			if !ok {
				n = len(found)
				place[key] = n
				found = append(found, weakness{c.Warp, c.Ground, c.Pattern, at, nil})
			}
			found[n].add(i, at)
		}
	}
	slices.SortStableFunc(found, func(a, b weakness) int {
		return cmp.Compare(a.worst.Grade, b.worst.Grade)
	})
	return found
}

func (w *weakness) add(piece int, at *plan.Seen) {
	w.pieces = append(w.pieces, piece)
	if cmp.Or(cmp.Compare(at.Grade, w.worst.Grade), cmp.Compare(at.DeltaL, w.worst.DeltaL)) < 0 {
		w.worst = at
	}
}
