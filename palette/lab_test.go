package palette

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
)

// TestLabReference holds CIELAB, OKLab and Y against other programs' values for published
// formulas (testdata/lab_reference.csv says which).
func TestLabReference(t *testing.T) {
	for _, r := range rows(t, "lab_reference.csv") {
		c, v := hex(t, "#"+r[0]).Linear(), numbers(t, r[1:])
		lab, ok := c.Lab(), c.OKLab()
		assert.InDelta(t, v[0], lab.L, 1e-6, r[0])
		assert.InDelta(t, v[1], lab.A, 1e-6, r[0])
		assert.InDelta(t, v[2], lab.B, 1e-6, r[0])
		assert.InDelta(t, v[6], ok.L, 1e-8, r[0])
		assert.InDelta(t, v[7], ok.A, 1e-8, r[0])
		assert.InDelta(t, v[8], ok.B, 1e-8, r[0])
		assert.InDelta(t, v[9], c.XYZ()[1], 1e-9, r[0])
	}
}

// By hand: for the grey 119, v = 119/255 = 0.466667; ((v + 0.055)/1.055)^2.4 =
// 0.494471^2.4 = exp(2.4 x -0.704267) = exp(-1.690240) = 0.184475; L* = 116
// cbrt(0.184475) - 16 = 116 x 0.569263 - 16 = 50.0345.
func TestLabOfMidGreyByHand(t *testing.T) {
	assert.InDelta(t, 50.0345, hex(t, "#777777").Lab().L, 2e-4)
}

func TestGreysStayGreyThroughEveryStep(t *testing.T) {
	for i := range 256 {
		c := RGB{uint8(i), uint8(i), uint8(i)}.Linear()
		for _, s := range Sights {
			seen := s.See(c)
			assert.InDelta(t, c[1], seen[0], 1e-12, s)
			assert.InDelta(t, c[1], seen[1], 1e-12, s)
			assert.InDelta(t, c[1], seen[2], 1e-12, s)
			assertGrey(t, seen.Lab())
		}
		mixed := Mix(Part{c, 0.3}, Part{white.Linear(), 0.5}, Part{Linear{}, 0.2})
		assertGrey(t, mixed.Lab())
		a, b := seenStripes(mixed.XYZ(), c.XYZ(), 2, 2)
		assertGrey(t, a.Lab())
		assertGrey(t, b.Lab())
		ok := c.OKLab()
		assert.InDelta(t, 0, ok.A, 1e-6)
		assert.InDelta(t, 0, ok.B, 1e-6)
		assertGrey(t, Fit(ok.LCH()).Lab())
	}
}

func assertGrey(t *testing.T, c Lab) {
	t.Helper()
	assert.InDelta(t, 0, c.A, 1e-6)
	assert.InDelta(t, 0, c.B, 1e-6)
	assert.False(t, math.Signbit(c.A) && c.A == 0, "no -0")
}

func TestConversionsComeBack(t *testing.T) {
	chance := rand.New(rand.NewPCG(11, 12))
	for range 2000 {
		c := randomRGB(chance).Linear()
		assertNear(t, c, c.XYZ().Linear(), 1e-12)
		assertNear(t, c, c.Lab().XYZ().Linear(), 1e-9)
		assertNear(t, c, c.OKLab().Linear(), 1e-9)
		assertNear(t, c, c.OKLab().LCH().OKLab().Linear(), 1e-9)
	}
}

// The library's matrices and ours are the same to its printed digits.
func TestXYZAgreesWithTheLibrary(t *testing.T) {
	chance := rand.New(rand.NewPCG(13, 14))
	for range 500 {
		c := randomRGB(chance).Linear()
		x, y, z := colorful.LinearRgbToXyz(c[0], c[1], c[2])
		assertNear(t, XYZ{x, y, z}, c.XYZ(), 1e-12)
		r, g, b := colorful.XyzToLinearRgb(x, y, z)
		assertNear(t, Linear{r, g, b}, c.XYZ().Linear(), 1e-12)
	}
}

func assertNear[T ~[3]float64](t *testing.T, want, got T, tolerance float64) {
	t.Helper()
	for i := range want {
		assert.InDelta(t, want[i], got[i], tolerance)
	}
}
