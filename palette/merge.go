package palette

import (
	"cmp"
	"slices"
)

// MergedBelow is the difference in dE00 below which clusters are one.
const MergedBelow = 5.0

// merged joins the two closest totals as long as they are too alike, and leaves
// out empty ones.
func merged(totals []total) []total {
	totals = slices.DeleteFunc(totals, func(t total) bool { return t.weight == 0 })
	for {
		a, b := closest(totals)
		if b < 0 {
			return totals
		}
		for i, v := range totals[b].sum {
			totals[a].sum[i] += v
		}
		totals[a].weight += totals[b].weight
		totals = slices.Delete(totals, b, b+1)
	}
}

// closest is the pair that differs least, a < b, both -1 if none is too alike.
func closest(totals []total) (a, b int) {
	a, b = -1, -1
	least := micro(MergedBelow)
	for j := range totals {
		for i := range j {
			if d := MicroE(totals[i].mean().rgb().Lab(), totals[j].mean().rgb().Lab()); d < least {
				a, b, least = i, j, d
			}
		}
	}
	return a, b
}

// clustersOf turns totals into colours, the largest first, of equals the lightest.
func clustersOf(totals []total) []Cluster {
	slices.SortFunc(totals, func(a, b total) int {
		p, q := a.mean(), b.mean()
		return cmp.Or(cmp.Compare(b.weight, a.weight), slices.Compare(q[:], p[:]))
	})
	var all int64
	for _, t := range totals {
		all += t.weight
	}
	var out []Cluster
	for _, t := range totals {
		out = append(out, Cluster{t.mean().rgb(), t.weight, float64(t.weight) / float64(all)})
	}
	return out
}
