package palette

import "math"

// DeltaE00 is the CIEDE2000 difference (CIE 142:2001, ISO/CIE 11664-6, all
// weights 1) of two colours. It is 0 only for equal ones, the same both ways,
// and about 1 is the least that can be seen side by side. Meant for differences
// up to about 5; larger ones still rank sensibly, but 40 is not "twice" 20.
//
// Two hues exactly opposite have two mean hues. The published data take the
// plain mean of the two angles; hues within 1e-9 degrees of opposite count as
// opposite, so that rounding does not choose.
//
// The equations are those of Sharma, Wu & Dalal (Color Research & Application
// 30(1), 2005), with hue angles as unit vectors: the mean hue is the direction
// of their sum, and its multiples come from products, so that only one arc
// tangent is left.
func DeltaE00(one, two Lab) float64 {
	g := 1.5 - float64(0.5*chromaWeight((math.Sqrt(float64(one.A*one.A)+float64(one.B*one.B))+
		math.Sqrt(float64(two.A*two.A)+float64(two.B*two.B)))/2))
	a1, a2 := one.A*g, two.A*g
	c1 := math.Sqrt(float64(a1*a1) + float64(one.B*one.B))
	c2 := math.Sqrt(float64(a2*a2) + float64(two.B*two.B))
	hue, twist := meanHue(a1, one.B, c1, a2, two.B, c2)
	meanC := float64((c1 + c2) / 2)
	dL := (two.L - one.L) / lightnessScale(float64((one.L+two.L)/2))
	dC := (c2 - c1) / (1 + float64(0.045*meanC))
	dH := math.Sqrt(c1*c2) * twist / (1 + float64(0.015*meanC*hue.ripple()))
	rotation := -2 * chromaWeight(meanC) * hue.blueTurn()
	return math.Sqrt(math.Max(0, float64(dL*dL)+float64(dC*dC)+float64(dH*dH)+
		float64(rotation*dC*dH)))
}

// MicroE is the CIEDE2000 difference in whole millionths. Sort, compare and
// choose by this: it is the same number on processors that disagree about the
// last bit of an arc tangent.
func MicroE(one, two Lab) int64 { return micro(DeltaE00(one, two)) }

// micro rounds to whole millionths; NaN counts as 0, and what is past all
// measure as the largest there is.
func micro(v float64) int64 {
	const most = 1e12
	if math.IsNaN(v) {
		return 0
	}
	return int64(math.Round(min(most, max(-most, v)) * 1e6))
}

// chromaWeight is sqrt(C^7 / (C^7 + 25^7)).
func chromaWeight(c float64) float64 {
	c7 := c * c * c
	c7 = float64(c7 * c7 * c)
	return math.Sqrt(c7 / (c7 + 6103515625))
}

// lightnessScale is S_L for a mean lightness.
func lightnessScale(l float64) float64 {
	d := float64((l - 50) * (l - 50))
	return 1 + float64(0.015*d/math.Sqrt(20+d))
}

// direction is a hue as a unit vector; all zero where there is no hue.
type direction struct{ cos, sin float64 }

// opposite is the length of the sum of two unit vectors 180 - 1e-9 degrees apart.
const opposite = 1e-9 * math.Pi / 180

// meanHue is the hue half way between two, and twist = 2 sin(dh/2) with the sign
// of the turn from the first to the second. A colour without chroma has no say.
func meanHue(a1, b1, c1, a2, b2, c2 float64) (mean direction, twist float64) {
	if c1 == 0 || c2 == 0 {
		return greyHue(a1+a2, b1+b2, c1+c2), 0
	}
	u1, u2 := direction{a1 / c1, b1 / c1}, direction{a2 / c2, b2 / c2}
	x, y := u1.cos+u2.cos, u1.sin+u2.sin
	sum := math.Sqrt(float64(x*x) + float64(y*y))
	dx, dy := u2.cos-u1.cos, u2.sin-u1.sin
	twist = math.Sqrt(float64(dx*dx) + float64(dy*dy))
	if sum <= opposite {
		return oppositeHues(u1, u2, twist)
	}
	if float64(u1.cos*u2.sin) < float64(u1.sin*u2.cos) {
		twist = -twist
	}
	return direction{x / sum, y / sum}, twist
}

// greyHue is the hue of the one colour that has chroma; angle 0 if none has.
func greyHue(a, b, c float64) direction {
	if c == 0 {
		return direction{1, 0}
	}
	return direction{a / c, b / c}
}

// oppositeHues is the plain mean of two angles counted from 0 to 360.
func oppositeHues(u1, u2 direction, twist float64) (direction, float64) {
	h1, h2 := u1.degrees(), u2.degrees()
	if h2 < h1 {
		twist = -twist
	}
	sin, cos := math.Sincos((h1 + h2) / 2 * math.Pi / 180)
	return direction{cos, sin}, twist
}

// degrees is the angle, 0 to 360.
func (u direction) degrees() float64 {
	h := float64(math.Atan2(u.sin, u.cos) * (180 / math.Pi))
	if h < 0 {
		h += 360
	}
	return h
}

// The cosines and sines of 30, 6 and 63 degrees.
const (
	cos30, sin30 = 0.86602540378443864676, 0.5
	cos6, sin6   = 0.99452189536827333692, 0.10452846326765347140
	cos63, sin63 = 0.45399049973954679156, 0.89100652418836786236
)

// ripple is T: how the tolerance for hue goes up and down round the circle.
func (u direction) ripple() float64 {
	c, s := u.cos, u.sin
	c2, s2 := float64(c*c)-float64(s*s), float64(2*c*s)
	c3, s3 := float64(c2*c)-float64(s2*s), float64(s2*c)+float64(c2*s)
	c4, s4 := float64(c2*c2)-float64(s2*s2), float64(2*c2*s2)
	return 1 - float64(0.17*(float64(c*cos30)+float64(s*sin30))) +
		float64(0.24*c2) +
		float64(0.32*(float64(c3*cos6)-float64(s3*sin6))) -
		float64(0.20*(float64(c4*cos63)+float64(s4*sin63)))
}

// blueTurn is sin(2 dtheta), dtheta = 30 exp(-((h - 275)/25)^2) degrees: the
// tilt of the ellipses among the blues.
func (u direction) blueTurn() float64 {
	z := (u.degrees() - 275) / 25
	return math.Sin(math.Pi / 3 * math.Exp(float64(-z*z)))
}
