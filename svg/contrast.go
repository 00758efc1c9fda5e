package svg

import "stripesong/sequence/plan"

// weak lists the grades that matter, the worst first.
var weak = []string{"unseen", "faint", "soft"}

// seenAt is what is left of a contrast at a distance in metres, nil where the
// plan does not say.
func seenAt(c plan.Contrast, metres float64) *plan.Seen {
	for i := range c.Seen {
		if c.Seen[i].DistanceM == metres {
			return &c.Seen[i]
		}
	}
	return nil
}

// weakness is three yarns that are hard to tell apart when woven, and in
// which pieces.
type weakness struct {
	warp, ground, pattern string
	grade                 string
	words                 string  // the grade, or its range
	deltaL                float64 // the least, at 2 m
	pieces                []int
}

// weaknesses gathers the contrasts of the set graded soft or worse at 2 m,
// the worst first.
func weaknesses(p *plan.Plan) []weakness {
	var found []weakness
	place := map[[3]string]int{}
	for i := range p.Pieces {
		for _, c := range p.Pieces[i].Contrast {
			at := seenAt(c, 2)
			if at == nil || rank(at.Grade) == len(weak) {
				continue
			}
			key := [3]string{c.Warp, c.Ground, c.Pattern}
			n, ok := place[key]
			if !ok {
				n = len(found)
				place[key] = n
				found = append(found, weakness{c.Warp, c.Ground, c.Pattern, at.Grade, at.Words(), at.DeltaL, nil})
			}
			found[n].add(i, at)
		}
	}
	return worstFirst(found)
}

func (w *weakness) add(piece int, at *plan.Seen) {
	w.pieces = append(w.pieces, piece)
	if rank(at.Grade) < rank(w.grade) || at.Grade == w.grade && at.DeltaL < w.deltaL {
		w.grade, w.words, w.deltaL = at.Grade, at.Words(), at.DeltaL
	}
}

// rank is a grade's place among the weak ones, 0 the worst; len(weak) for the
// rest.
func rank(grade string) int {
	for i, w := range weak {
		if w == grade {
			return i
		}
	}
	return len(weak)
}

// worstFirst puts the worse grades first and otherwise keeps the order.
func worstFirst(found []weakness) []weakness {
	var sorted []weakness
	for r := range weak {
		for _, w := range found {
			if rank(w.grade) == r {
				sorted = append(sorted, w)
			}
		}
	}
	return sorted
}
