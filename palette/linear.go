package palette

import "math"

// Linear is light: linear sRGB, red, green, blue, 0..1 for colours that a
// screen can show. Light adds and averages; [RGB] does not.
type Linear [3]float64

// XYZ is a colour as the standard observer's three responses (CIE 1931), scaled
// so that white has Y = 1.
type XYZ [3]float64

// white is the white of sRGB: D65 as the chromaticity x 0.3127 y 0.3290, which
// is what its primaries add up to. The tabulated D65 of other places differs in
// the fourth figure and would leave greys tinted.
var white = XYZ{0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290}

// matrix is applied to a column of three.
type matrix [3][3]float64

// times multiplies without fused steps, so that every processor gets the same bits.
func (m matrix) times(v [3]float64) [3]float64 {
	var out [3]float64
	for i, row := range m {
		out[i] = float64(row[0]*v[0]) + float64(row[1]*v[1]) + float64(row[2]*v[2])
	}
	return out
}

// The matrices of sRGB (IEC 61966-2-1 primaries, exact white), as in CSS Color 4
// section 10.
var (
	linearToXYZ = matrix{
		{506752.0 / 1228815, 87881.0 / 245763, 12673.0 / 70218},
		{87098.0 / 409605, 175762.0 / 245763, 12673.0 / 175545},
		{7918.0 / 409605, 87881.0 / 737289, 1001167.0 / 1053270},
	}
	xyzToLinear = matrix{
		{12831.0 / 3959, -329.0 / 214, -1974.0 / 3959},
		{-851781.0 / 878810, 1648619.0 / 878810, 36519.0 / 878810},
		{705.0 / 12673, -2585.0 / 12673, 705.0 / 667},
	}
)

// XYZ is the same light as the standard observer's responses.
func (c Linear) XYZ() XYZ { return linearToXYZ.times(c) }

// Linear is the same light in the primaries of sRGB; colours that no screen
// shows come out below 0 or above 1.
func (c XYZ) Linear() Linear { return xyzToLinear.times(c) }

// RGB is the nearest colour of eight bits a channel. Light outside 0..1 is
// clamped, which shifts the hue of strong colours: see [Fit] for a gentler way.
func (c Linear) RGB() RGB { return RGB{level(c[0]), level(c[1]), level(c[2])} }

// clamp brings each channel into 0..1; NaN becomes 0.
func (c Linear) clamp() Linear {
	for i, v := range c {
		if !(v > 0) {
			v = 0
		}
		c[i] = math.Min(v, 1)
	}
	return c
}

// snap rounds to a whole number of parts of one, half away from zero, and never
// gives -0.
func snap(v, parts float64) float64 { return float64(math.Round(v*parts)/parts) + 0 }
