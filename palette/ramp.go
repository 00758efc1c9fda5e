package palette

import "math"

// Ramp is n colours from one to another, both included, in equal steps of OKLCH
// lightness; chroma goes along in equal steps, hue by the shorter way round (of
// two equal ways the one with rising angle), and a grey takes the hue of the
// other end. Colours that no screen shows are brought in by [Fit], at their own
// lightness. One colour is the first; none or fewer give none.
func Ramp(from, to RGB, n int) []RGB {
	if n < 1 {
		return nil
	}
	out := make([]RGB, n)
	a, b := from.Linear().OKLab().LCH(), to.Linear().OKLab().LCH()
	start, turn := hueWay(a, b)
	for i := range out {
		t := float64(i) / float64(max(1, n-1))
		out[i] = fitLightness(OKLCH{
			L: between(a.L, b.L, t),
			C: between(a.C, b.C, t),
			H: start + float64(t*turn),
		}).RGB()
	}
	if n > 1 {
		out[n-1] = to
	}
	out[0] = from
	return out
}

// fitLightness is [Fit] asked for a little more or less light, so that what its
// cut adds or takes away is made up for.
func fitLightness(c OKLCH) Linear {
	const tries = 4
	want := c.L
	fitted := Fit(c)
	for range tries {
		c.L += want - fitted.OKLab().L
		fitted = Fit(c)
	}
	return fitted
}

// between is the value t of the way from a to b.
func between(a, b, t float64) float64 { return a + float64(t*(b-a)) }

// greyChroma is the chroma below which an end of a ramp counts as grey: half
// a step of an 8-bit channel.
const greyChroma = 0.002

// hueWay is the hue a ramp starts from and how far it turns, in degrees,
// -180 < turn <= 180.
func hueWay(a, b OKLCH) (start, turn float64) {
	switch {
	case a.C < greyChroma:
		return b.H, 0
	case b.C < greyChroma:
		return a.H, 0
	}
	turn = math.Mod(b.H-a.H+540, 360) - 180
	if turn == -180 {
		turn = 180
	}
	return a.H, turn
}
