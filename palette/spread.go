package palette

import "slices"

// Choice is some of a list of colours, chosen to differ as much as can be.
type Choice struct {
	Picked []int // places in the list chosen from, ascending

	// LeastMicro is the smallest difference between any two picked, in millionths of
	// dE00; 0 with fewer than two. No choice of that many has more than BoundMicro;
	// where the two are equal the choice is the best there is.
	LeastMicro, BoundMicro int64
}

// Best reports whether no better choice exists.
func (c Choice) Best() bool { return c.LeastMicro == c.BoundMicro }

// LeastE00 is the smallest difference between any two picked, dE00; 0 with fewer than two.
func (c Choice) LeastE00() float64 { return float64(c.LeastMicro) / 1e6 }

// BoundE00 is what no choice of that many exceeds, dE00.
func (c Choice) BoundE00() float64 { return float64(c.BoundMicro) / 1e6 }

// Spread picks the k colours whose two most alike differ most by CIEDE2000. It
// takes a good choice (farthest first, then swaps) and then looks for a better
// one by branch and bound, within a fixed number of steps: the best choice, and
// known to be, for a shelf of ordinary size (60 colours, any k); beyond, the best
// found, and a bound on what the best could be. The answer does not depend on
// chance or on the clock. k is brought into 0..len(colours).
func Spread(colours []Lab, k int) Choice {
	k = min(max(k, 0), len(colours))
	d := differences(colours)
	best := d.choice(farthestFirst(d, k))
	if k < 2 {
		return best
	}
	best = d.choice(swapped(d, best.Picked))
	return d.improve(best, k, searchSteps)
}

// table holds the difference of every two colours, in millionths.
type table [][]int64

func differences(colours []Lab) table {
	d := make(table, len(colours))
	for i := range d {
		d[i] = make([]int64, len(colours))
		for j := range i {
			d[i][j] = MicroE(colours[i], colours[j])
			d[j][i] = d[i][j]
		}
	}
	return d
}

// choice is the picked with their least difference, not yet bounded.
func (d table) choice(picked []int) Choice {
	slices.Sort(picked)
	least := d.least(picked)
	return Choice{Picked: picked, LeastMicro: least, BoundMicro: least}
}

// least is the smallest difference between two of the picked; 0 for fewer.
func (d table) least(picked []int) int64 {
	var least int64 = -1
	for i, a := range picked {
		for _, b := range picked[:i] {
			if least < 0 || d[a][b] < least {
				least = d[a][b]
			}
		}
	}
	return max(least, 0)
}

// farthestFirst starts from the two that differ most and adds whichever is
// farthest from all so far; ties go to the earlier.
func farthestFirst(d table, k int) []int {
	if k < 1 {
		return nil
	}
	a, b := 0, 0
	for i := range d {
		for j := range i {
			if d[i][j] > d[a][b] {
				a, b = j, i
			}
		}
	}
	picked := []int{a}
	for next := b; len(picked) < k; next = d.farthest(picked) {
		if slices.Contains(picked, next) { // all colours alike
			next = d.farthest(picked)
		}
		picked = append(picked, next)
	}
	return picked
}

// farthest is the colour not yet picked whose nearest picked one is farthest.
func (d table) farthest(picked []int) int {
	best, bestGap := -1, int64(-1)
	for i := range d {
		if slices.Contains(picked, i) {
			continue
		}
		if gap := d.gap(picked, i, -1); gap > bestGap {
			best, bestGap = i, gap
		}
	}
	return best
}

// gap is the difference from colour i to the nearest of the picked, the one at
// place skip left out.
func (d table) gap(picked []int, i, skip int) int64 {
	var gap int64 = 1 << 62
	for place, p := range picked {
		if place != skip {
			gap = min(gap, d[i][p])
		}
	}
	return gap
}

// swapped exchanges picked colours for others as long as that raises the least
// difference.
func swapped(d table, picked []int) []int {
	picked = slices.Clone(picked)
	for {
		place, with := d.bestSwap(picked)
		if place < 0 {
			return picked
		}
		picked[place] = with
	}
}

// bestSwap is the first exchange that raises the least difference the most;
// place is -1 where none does.
func (d table) bestSwap(picked []int) (place, with int) {
	place = -1
	best := d.least(picked)
	for at := range picked {
		rest := d.least(slices.Delete(slices.Clone(picked), at, at+1))
		for i := range d {
			if slices.Contains(picked, i) {
				continue
			}
			after := d.gap(picked, i, at)
			if len(picked) > 2 {
				after = min(after, rest)
			}
			if after > best {
				place, with, best = at, i, after
			}
		}
	}
	return place, with
}
