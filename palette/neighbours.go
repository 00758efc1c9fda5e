package palette

import (
	"cmp"
	"slices"
)

// Neighbour is another colour of the list and how far off it is.
type Neighbour struct {
	Index  int
	MicroE int64 // CIEDE2000 in millionths
}

// E00 is the CIEDE2000 difference, dE00.
func (n Neighbour) E00() float64 { return float64(n.MicroE) / 1e6 }

// Neighbours lists for each colour the nearest others by CIEDE2000, nearest
// first, of equals the earlier; at most the given number of them.
func Neighbours(colours []Lab, most int) [][]Neighbour {
	d := differences(colours)
	out := make([][]Neighbour, len(colours))
	for i := range colours {
		var all []Neighbour
		for j, v := range d[i] {
			if j != i {
				all = append(all, Neighbour{j, v})
			}
		}
		slices.SortStableFunc(all, func(a, b Neighbour) int {
			return cmp.Compare(a.MicroE, b.MicroE)
		})
		out[i] = all[:min(len(all), max(0, most))]
	}
	return out
}

// LightestFirst is the places of the colours from the lightest to the darkest by
// L*, of equals the earlier first.
func LightestFirst(colours []Lab) []int {
	return orderBy(len(colours), func(i int) int64 { return -micro(colours[i].L) })
}

// LightnessRanks is the rank of each colour, 1 for the lightest.
func LightnessRanks(colours []Lab) []int {
	ranks := make([]int, len(colours))
	for rank, i := range LightestFirst(colours) {
		ranks[i] = rank + 1
	}
	return ranks
}

// RoundTheCircle is the places of the colours by rising OKLCH hue from 0 degrees
// (about crimson), of equals the earlier first. Greys have hue 0.
func RoundTheCircle(colours []RGB) []int {
	return orderBy(len(colours), func(i int) int64 {
		return micro(colours[i].Linear().OKLab().LCH().H)
	})
}

// orderBy is 0..n-1 by rising key, of equals the smaller.
func orderBy(n int, key func(int) int64) []int {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(key(a), key(b)) })
	return order
}

// A pair merges for a sight that sees less than MergesBelow between its colours
// while normal sight sees ApartFrom or more; both in dE00. Below 5 two yarns
// pass for one in a stripe; 10 is told apart across a table. Both are a
// judgement.
const (
	MergesBelow = 5.0
	ApartFrom   = 10.0
)

// Merge is a pair of colours that a sight takes for one.
type Merge struct {
	A, B   int // places in the list, A < B
	Sight  Sight
	Normal int64 // differences in millionths of dE00: to normal sight
	Seen   int64 // and to this one
}

// Merging lists the pairs that merge for protan or deutan sight, by place and
// then by sight.
func Merging(colours []Linear) []Merge {
	var views [len(Sights)]table
	for _, s := range Sights {
		labs := make([]Lab, len(colours))
		for i, c := range colours {
			labs[i] = s.See(c).Lab()
		}
		views[s] = differences(labs)
	}
	var out []Merge
	for a := range colours {
		for b := a + 1; b < len(colours); b++ {
			for _, s := range Sights[1:] {
				m := Merge{a, b, s, views[Normal][a][b], views[s][a][b]}
				if m.Normal >= micro(ApartFrom) && m.Seen < micro(MergesBelow) {
					out = append(out, m)
				}
			}
		}
	}
	return out
}
