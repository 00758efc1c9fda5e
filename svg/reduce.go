package svg

import "math"

// weight is how much of one of several stretches a pixel shows.
type weight struct {
	of   int
	part float64
}

// reach is how far from its middle a pixel gathers light, in pixels.
const reach = 1.5

// gathered is how much of a pixel's light comes from the left of a place, -1.5 to
// 1.5 pixels from its middle. It is the integral of the quadratic B-spline, a box
// a pixel wide smoothed with itself twice: never negative, the same in sum
// whatever lies between the pixels, and with next to nothing left of what is finer
// than a pixel.
func gathered(x float64) float64 {
	switch {
	case x <= -reach:
		return 0
	case x < -0.5:
		d := x + reach
		return d * d * d / 6
	case x <= 0.5:
		return 0.5 + float64(0.75*x) - x*x*x/3
	case x < reach:
		d := reach - x
		return 1 - d*d*d/6
	}
	return 1
}

// reduce tells what a pixel shows whose middle is at a place, of stretches that
// repeat after a period: edges has their ends in pixels, from 0 to the period.
func reduce(edges []float64, at float64) (all []weight) {
	period := edges[len(edges)-1]
	first := math.Floor((at - reach) / period)
	last := math.Floor((at + reach) / period)
	for i, to := range edges[1:] {
		part := 0.0
		for k := first; k <= last; k++ {
			shift := float64(k*period) - at
			part += gathered(to+shift) - gathered(edges[i]+shift)
		}
		if part > 0 {
			all = append(all, weight{i, part})
		}
	}
	return all
}

// evenly tells what is seen of stretches where all of a period runs together.
func evenly(edges []float64) (all []weight) {
	period := edges[len(edges)-1]
	for i, to := range edges[1:] {
		all = append(all, weight{i, (to - edges[i]) / period})
	}
	return all
}
