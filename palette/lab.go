package palette

import "github.com/lucasb-eyer/go-colorful"

// Lab is a colour in CIELAB (CIE 15): L* 0..100, a* towards red, b* towards
// yellow, for the white of sRGB (D65, x 0.3127 y 0.3290) with no adaptation to
// D50. Good for small and middling differences between surfaces seen on
// neutral ground in good light; distances in it are not even, which is what
// [DeltaE00] mends.
type Lab struct{ L, A, B float64 }

// labParts rounds CIELAB to 1e-9: far below anything measured or printed, and
// far above what processors disagree about.
const labParts = 1e9

// Lab is the colour in CIELAB, rounded to 1e-9.
func (c XYZ) Lab() Lab {
	l, a, b := colorful.XyzToLabWhiteRef(c[0], c[1], c[2], white)
	return Lab{snap(100*l, labParts), snap(100*a, labParts), snap(100*b, labParts)}
}

// Lab is the colour in CIELAB, rounded to 1e-9.
func (c Linear) Lab() Lab { return c.XYZ().Lab() }

// Rounded is L*, a* and b* to four decimals, as answers have them.
func (c Lab) Rounded() [3]float64 {
	return [3]float64{decimals4(c.L), decimals4(c.A), decimals4(c.B)}
}

// XYZ takes CIELAB back, to about 1e-9.
func (c Lab) XYZ() XYZ {
	x, y, z := colorful.LabToXyzWhiteRef(c.L/100, c.A/100, c.B/100, white)
	return XYZ{x, y, z}
}
