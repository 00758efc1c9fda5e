package palette

// The just noticeable difference in OKLab and the precision of the search, as
// CSS Color 4 sets them.
const (
	noticeable  = 0.02
	chromaSteps = 0.0001
)

// Fit is the colour as light that a screen can show, each channel 0..1. What is
// inside already stays; what is outside loses chroma at its own lightness and
// hue until cutting off the rest can't be noticed. Lightness of 1 or more is
// white, of 0 or less (or NaN) black.
//
// This is the gamut mapping of CSS Color 4, section 13.2 (binary search in OKLCH
// with local MINDE). The cut moves the colour by less than 0.02 in OKLab.
func Fit(c OKLCH) Linear {
	switch {
	case !(c.L > 0):
		return Linear{}
	case c.L >= 1:
		return Linear{1, 1, 1}
	}
	light := c.OKLab().Linear()
	if light.shown() || cut(c) < noticeable {
		return light.clamp()
	}
	return reduceChroma(c)
}

// reduceChroma searches the chroma at which the cut is just not noticed.
func reduceChroma(c OKLCH) Linear {
	low, high, inside := 0.0, c.C, true
	for high-low > chromaSteps {
		c.C = (low + high) / 2
		if inside && c.OKLab().Linear().shown() {
			low = c.C
			continue
		}
		lost := cut(c)
		switch {
		case lost >= noticeable:
			high = c.C
		case noticeable-lost < chromaSteps:
			return c.OKLab().Linear().clamp()
		default:
			low, inside = c.C, false
		}
	}
	return c.OKLab().Linear().clamp()
}

// cut is how far clamping would move the colour, in OKLab.
func cut(c OKLCH) float64 {
	lab := c.OKLab()
	return lab.difference(lab.Linear().clamp().OKLab())
}

// shown reports whether a screen can show the colour, to rounding error.
func (c Linear) shown() bool {
	const slack = 1e-9
	for _, v := range c {
		if v < -slack || v > 1+slack {
			return false
		}
	}
	return true
}
