package palette

import "math"

// lobe is one Gaussian of an eye's filter: its share, and its full width at half
// maximum in degrees of visual angle.
type lobe struct{ weight, degrees float64 }

// The filters of S-CIELAB (Zhang & Wandell, J. SID 5(1), 1997) for light,
// red-green and blue-yellow, the negative lobe for light left out and the rest
// scaled to sum to 1.
var filters = [3][]lobe{
	{{1.00327 / (1.00327 + 0.114416), 0.05}, {0.114416 / (1.00327 + 0.114416), 0.225}},
	{{0.616725, 0.0685}, {0.383275, 0.826}},
	{{0.567885, 0.0920}, {0.432115, 0.6451}},
}

// Blur is what a distance leaves of the difference between stripes of one width,
// in light, red-green and blue-yellow: 1 all of it, 0 nothing.
type Blur [3]float64

// BlurOf is the blur of a width in mm at a distance in metres, worth keeping where
// many colours are seen the same way. A width of zero or less gives the mixture, a
// distance of zero or less the colours themselves; NaN in either gives the mixture.
func BlurOf(widthMM, distanceM float64) Blur {
	var left Blur
	width := angle(widthMM, distanceM)
	for i := range left {
		left[i] = remains(filters[i], width)
	}
	return left
}

// Stripes is what two colours look like at the middle of their stripes, when stripes
// of the blur's width alternate and are looked at from its distance: wide or near ones give the
// colours themselves, fine or far ones their optical mixture. Only the ratio of width to distance
// matters, and what is left of a difference in light, in red-green or in blue-yellow never grows
// with distance, and so neither does the difference in L*. (CIEDE2000 of the two can,
// by up to about 1 for woven mixtures: as chroma fades its tolerance narrows.)
//
// It is S-CIELAB in closed form for a square wave, in the linearised opponent
// space (Y, X/Xn - Y, Y - Z/Zn) (B. W. Kolpatzik and C. A. Bouman, "Optimized error
// diffusion for image display", Journal of Electronic Imaging 1(3), 1992, from memory), in which
// greys have two zeros. The result may lie a little outside the colours that surfaces can
// have, for strong colours beside dark ones, as light and hue blur at
// different rates. Good for the flat sight of a patterned cloth in good light;
// knows nothing of glare, movement, or age.
func (left Blur) Stripes(a, b XYZ) (XYZ, XYZ) {
	if a == b {
		return a, b
	}
	oa, ob := a.opponent(), b.opponent()
	for i := range oa {
		mean, half := float64((oa[i]+ob[i])/2), (oa[i]-ob[i])/2
		rest := float64(half * left[i])
		oa[i], ob[i] = mean+rest, mean-rest
	}
	return fromOpponent(oa), fromOpponent(ob)
}

// angle is the visual angle in degrees of a width at a distance, +Inf at no
// distance, 0 for no width.
func angle(widthMM, distanceM float64) float64 {
	switch {
	case !(widthMM > 0) || math.IsNaN(distanceM):
		return 0
	case distanceM <= 0:
		return math.Inf(1)
	}
	return math.Atan(widthMM/(1000*distanceM)) * (180 / math.Pi)
}

// remains is R, the part of a square wave's half height that is left in the
// middle of a stripe of the given width in degrees, 0..1.
func remains(filter []lobe, width float64) float64 {
	var sum float64
	for _, l := range filter {
		sum += float64(l.weight * blurred(2*math.Sqrt(math.Ln2)/l.degrees*width))
	}
	return min(1, max(0, sum))
}

// fine is the a w below which the sum over stripes converges slowly and the
// Fourier series fast.
const fine = 0.6

// blurred is R for one Gaussian, aw being the stripe's width in units of its
// scale: the square wave convolved with the Gaussian, at the middle of a stripe.
func blurred(aw float64) float64 {
	switch {
	case aw < fine:
		return blurredFourier(aw)
	case math.IsInf(aw, 1):
		return 1
	}
	return blurredStripes(aw)
}

// blurredStripes sums the shares that the stripe itself and its neighbours on
// both sides contribute.
func blurredStripes(aw float64) float64 {
	sum, sign := math.Erf(aw/2), -1.0
	for k := 1; ; k++ {
		near := math.Erf(aw * (float64(k) - 0.5))
		if near == 1 {
			return sum
		}
		sum += float64(sign * (math.Erf(aw*(float64(k)+0.5)) - near))
		sign = -sign
	}
}

// blurredFourier sums the harmonics of the square wave, each damped.
func blurredFourier(aw float64) float64 {
	if aw <= 0 {
		return 0
	}
	sum, sign := 0.0, 1.0
	for n := 1.0; ; n += 2 {
		z := math.Pi * n / (2 * aw)
		term := math.Exp(float64(-z*z)) / n
		if term == 0 || n > 1 && term < sum*1e-17 {
			return 4 / math.Pi * sum
		}
		sum += float64(sign * term)
		sign = -sign
	}
}

// opponent is light, red against green, yellow against blue; greys have two zeros.
func (c XYZ) opponent() [3]float64 {
	return [3]float64{c[1], c[0]/white[0] - c[1], c[1] - c[2]/white[2]}
}

// fromOpponent takes [XYZ.opponent] back.
func fromOpponent(o [3]float64) XYZ {
	return XYZ{(o[1] + o[0]) * white[0], o[0], (o[0] - o[2]) * white[2]}
}
