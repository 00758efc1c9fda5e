package palette

import (
	"math/bits"
	"math/rand/v2"
	"slices"
)

// Sample is a colour and how often it was seen.
type Sample struct {
	Colour RGB
	Count  int64
}

// Cluster is one of the colours that a picture comes down to.
type Cluster struct {
	Colour RGB
	Count  int64
	Share  float64 // of all samples, 0..1; the shares of all clusters sum to 1
}

// Clusters brings samples down to at most k colours: k-means in OKLab, seeded by
// k-means++ (Arthur & Vassilvitskii 2007) from the chance passed in, the best of
// several runs; then the two most alike are merged as long as they are closer
// than [MergedBelow]. The largest comes first. It gives fewer than k where there
// are fewer colours to tell apart, none for k below 1 or without samples.
//
// It works on whole numbers (OKLab in parts of 2^-14), so that the same chance
// gives the same clusters on every processor. At most 2^27 samples in all.
func Clusters(samples []Sample, k int, chance *rand.Rand) []Cluster {
	points := pointsOf(samples)
	if k < 1 || len(points) == 0 {
		return nil
	}
	var best means
	for range runs {
		m := seeded(points, k, chance)
		m.settle(points)
		if best.centres == nil || m.cost < best.cost {
			best = m
		}
	}
	return clustersOf(merged(best.totals(points)))
}

// runs is how many seedings are tried, rounds how long one may take to settle.
const runs, rounds = 4, 60

// grid is the fineness of the whole numbers: a lightness step of an 8-bit
// channel is some fifty of them. Squares times counts stay below 2^63.
const grid = 1 << 14

// spot is a place in OKLab on the grid.
type spot [3]int64

// point is a spot with its weight.
type point struct {
	spot
	weight int64
}

func spotOf(c OKLab) spot {
	return spot{int64(snap(c.L*grid, 1)), int64(snap(c.A*grid, 1)), int64(snap(c.B*grid, 1))}
}

// oklab is the colour at the spot.
func (s spot) oklab() OKLab {
	return OKLab{float64(s[0]) / grid, float64(s[1]) / grid, float64(s[2]) / grid}
}

// rgb is the colour at the spot; means of shown colours are all but shown.
func (s spot) rgb() RGB { return Fit(s.oklab().LCH()).RGB() }

// square is the square of the distance between two spots.
func (s spot) square(o spot) int64 {
	var sum int64
	for i := range s {
		sum += (s[i] - o[i]) * (s[i] - o[i])
	}
	return sum
}

func pointsOf(samples []Sample) []point {
	var points []point
	for _, s := range samples {
		if s.Count > 0 {
			points = append(points, point{spotOf(s.Colour.Linear().OKLab()), s.Count})
		}
	}
	return points
}

// means is a set of centres and the weighted sum of the squares to the nearest.
type means struct {
	centres []spot
	cost    int64
}

// seeded picks the first centre by weight and each further one by weight times
// square of the distance from those before; fewer than k where no others are left.
func seeded(points []point, k int, chance *rand.Rand) means {
	var m means
	reach := make([]int64, len(points))
	for i := range reach {
		reach[i] = 1
	}
	for len(m.centres) < k {
		at := draw(points, reach, chance)
		if at < 0 {
			break
		}
		m.centres = append(m.centres, points[at].spot)
		for i, p := range points {
			reach[i] = p.square(m.centres[nearest(m.centres, p.spot)])
		}
	}
	return m
}

// draw picks a place with probability in proportion to weight times reach, -1
// where all are zero.
func draw(points []point, reach []int64, chance *rand.Rand) int {
	var total uint64
	for i, p := range points {
		total += uint64(p.weight * reach[i])
	}
	mark, _ := bits.Mul64(chance.Uint64(), total)
	for i, p := range points {
		part := uint64(p.weight * reach[i])
		if mark < part {
			return i
		}
		mark -= part
	}
	return -1
}

// nearest is the centre nearest to a spot, of equals the first.
func nearest(centres []spot, s spot) int {
	best := 0
	for i, c := range centres {
		if s.square(c) < s.square(centres[best]) {
			best = i
		}
	}
	return best
}

// settle moves centres to the mean of what is nearest to them until they stay.
func (m *means) settle(points []point) {
	for range rounds {
		before := slices.Clone(m.centres)
		for i, t := range m.totals(points) {
			if t.weight > 0 {
				m.centres[i] = t.mean()
			}
		}
		if slices.Equal(before, m.centres) {
			break
		}
	}
	m.cost = 0
	for _, p := range points {
		m.cost += p.weight * p.square(m.centres[nearest(m.centres, p.spot)])
	}
}

// total is the weighted sum of spots.
type total struct {
	sum    spot
	weight int64
}

// totals sums the points nearest to each centre.
func (m *means) totals(points []point) []total {
	out := make([]total, len(m.centres))
	for _, p := range points {
		t := &out[nearest(m.centres, p.spot)]
		t.weight += p.weight
		for i, v := range p.spot {
			t.sum[i] += v * p.weight
		}
	}
	return out
}

// mean is the spot in the middle, halves rounded up.
func (t total) mean() spot {
	var s spot
	for i, v := range t.sum {
		s[i] = floorDiv(2*v+t.weight, 2*t.weight)
	}
	return s
}

// floorDiv is the quotient rounded down, for d > 0.
func floorDiv(n, d int64) int64 {
	q := n / d
	if n%d < 0 {
		q--
	}
	return q
}
