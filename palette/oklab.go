package palette

import "math"

// OKLab is a colour in OKLab (B. Ottosson, "A perceptual color space for image
// processing", 2020): L 0..1, A towards red, B towards
// yellow. Its lines of even hue and lightness are straighter than CIELAB's, so
// ramps, averages and gamut mapping are done in it; differences between yarns
// are not ([DeltaE00]).
type OKLab struct{ L, A, B float64 }

// OKLCH is OKLab as lightness 0..1, chroma (0 to about 0.32 in sRGB) and hue in
// degrees, 0 to 360. Colours of chroma below 4e-6 have no hue: H is 0.
type OKLCH struct{ L, C, H float64 }

// hueless is the chroma below which a hue is rounding error, as in CSS Color 4.
const hueless = 4e-6

// The matrices of OKLab for the exact white of sRGB, as in CSS Color 4 section
// 10 (recomputed to 64 bits); with the shorter ones first published, and go-colorful's
// copy of them, greys are tinted by up to 4e-5.
var (
	xyzToCones = matrix{
		{0.8190224379967030, 0.3619062600528904, -0.1288737815209879},
		{0.0329836539323885, 0.9292868615863434, 0.0361446663506424},
		{0.0481771893596242, 0.2642395317527308, 0.6335478284694309},
	}
	conesToOKLab = matrix{
		{0.2104542683093140, 0.7936177747023054, -0.0040720430116193},
		{1.9779985324311684, -2.4285922420485799, 0.4505937096174110},
		{0.0259040424655478, 0.7827717124575296, -0.8086757549230774},
	}
	conesToXYZ = matrix{
		{1.2268798758459243, -0.5578149944602171, 0.2813910456659647},
		{-0.0405757452148008, 1.1122868032803170, -0.0717110580655164},
		{-0.0763729366746601, -0.4214933324022432, 1.5869240198367816},
	}
	oklabToCones = matrix{
		{1, 0.3963377773761749, 0.2158037573099136},
		{1, -0.1055613458156586, -0.0638541728258133},
		{1, -0.0894841775298119, -1.2914855480194092},
	}
)

// OKLab is the colour in OKLab.
func (c Linear) OKLab() OKLab {
	cones := xyzToCones.times(c.XYZ())
	for i, v := range cones {
		cones[i] = math.Cbrt(v)
	}
	v := conesToOKLab.times(cones)
	return OKLab{v[0], v[1], v[2]}
}

// Linear is the colour as light, outside 0..1 where no screen shows it.
func (c OKLab) Linear() Linear {
	cones := oklabToCones.times([3]float64{c.L, c.A, c.B})
	for i, v := range cones {
		cones[i] = v * v * v
	}
	return XYZ(conesToXYZ.times(cones)).Linear()
}

// LCH is the colour by lightness, chroma and hue.
func (c OKLab) LCH() OKLCH {
	chroma := math.Sqrt(float64(c.A*c.A) + float64(c.B*c.B))
	if chroma < hueless {
		return OKLCH{L: c.L, C: chroma}
	}
	return OKLCH{c.L, chroma, direction{c.A, c.B}.degrees()}
}

// OKLab is the colour by its two opponent axes.
func (c OKLCH) OKLab() OKLab {
	sin, cos := math.Sincos(c.H * (math.Pi / 180))
	return OKLab{c.L, c.C * cos, c.C * sin}
}

// difference is the plain distance in OKLab (deltaEOK in CSS Color 4).
func (c OKLab) difference(o OKLab) float64 {
	l, a, b := c.L-o.L, c.A-o.A, c.B-o.B
	return math.Sqrt(float64(l*l) + float64(a*a) + float64(b*b))
}
