package palette

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
)

// The OKLab column of the reference is checked in [TestLabReference]; this is the
// table of four XYZ colours, to three decimals, in B. Ottosson, "A perceptual color
// space for image processing", 2020 (from memory).
func TestOKLabPublished(t *testing.T) {
	for _, c := range []struct {
		xyz  XYZ
		want OKLab
	}{
		{XYZ{0.950, 1, 1.089}, OKLab{1, 0, 0}},
		{XYZ{1, 0, 0}, OKLab{0.450, 1.236, -0.019}},
		{XYZ{0, 1, 0}, OKLab{0.922, -0.671, 0.263}},
		{XYZ{0, 0, 1}, OKLab{0.153, -1.415, -0.449}},
	} {
		got := c.xyz.Linear().OKLab()
		assertNear(t, [3]float64{c.want.L, c.want.A, c.want.B},
			[3]float64{got.L, got.A, got.B}, 1e-3)
	}
}

// The library agrees as far as its shorter matrices go, which is also how much
// they would tint a grey.
func TestOKLabAgreesWithTheLibrary(t *testing.T) {
	chance := rand.New(rand.NewPCG(21, 22))
	for range 500 {
		c := randomRGB(chance)
		l, a, b := colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255,
			B: float64(c.B) / 255}.OkLab()
		got := c.Linear().OKLab()
		assertNear(t, [3]float64{l, a, b}, [3]float64{got.L, got.A, got.B}, 2e-4)
	}
}

func TestHueOfGreyIsZero(t *testing.T) {
	for i := range 256 {
		lch := RGB{uint8(i), uint8(i), uint8(i)}.Linear().OKLab().LCH()
		assert.Zero(t, lch.H)
		assert.Less(t, lch.C, 1e-6)
	}
	// W3C, "CSS Color Module Level 4", 2022, section on oklch (from memory): red is
	// oklch(62.8% 0.25768 29.234)
	assert.InDelta(t, 29.234, hex(t, "#ff0000").Linear().OKLab().LCH().H, 1e-3)
	assert.InDelta(t, 0.25768, hex(t, "#ff0000").Linear().OKLab().LCH().C, 1e-5)
}

func TestFitLeavesWhatIsInside(t *testing.T) {
	chance := rand.New(rand.NewPCG(23, 24))
	for range 2000 {
		c := randomRGB(chance)
		assert.Equal(t, c, Fit(c.Linear().OKLab().LCH()).RGB())
	}
}

// What lies outside comes in at its hue and all but its lightness, with as much
// chroma as fits.
func TestFitKeepsHueAndLightness(t *testing.T) {
	chance := rand.New(rand.NewPCG(25, 26))
	outside := 0
	for range 3000 {
		c := OKLCH{0.05 + 0.9*chance.Float64(), 0.5 * chance.Float64(), 360 * chance.Float64()}
		if c.OKLab().Linear().shown() {
			continue
		}
		outside++
		got := Fit(c)
		assert.True(t, got.shown(), "%v", c)
		back := got.OKLab().LCH()
		assert.InDelta(t, c.L, back.L, noticeable, "%v", c)
		assert.LessOrEqual(t, back.C, c.C+noticeable)
		along := OKLCH{c.L, back.C, c.H}.OKLab()
		assert.Less(t, along.difference(got.OKLab()), noticeable+1e-3, "%v became %v", c, back)
		more := OKLCH{c.L, math.Min(c.C, back.C+0.03), c.H}
		assert.True(t, cut(more) >= noticeable-0.001 || more.C == c.C ||
			more.OKLab().Linear().shown() == false, "%v could keep more chroma", c)
	}
	assert.Greater(t, outside, 1000)
}

func TestFitAtTheEnds(t *testing.T) {
	assert.Equal(t, RGB{255, 255, 255}, Fit(OKLCH{1.2, 0.3, 40}).RGB())
	assert.Equal(t, RGB{}, Fit(OKLCH{0, 0.3, 40}).RGB())
	assert.Equal(t, RGB{}, Fit(OKLCH{math.NaN(), 0, 0}).RGB())
	// so little outside that cutting off the rest can't be noticed: it is simply cut
	red := hex(t, "#ff0000").Linear().OKLab().LCH()
	red.C += 0.005
	assert.Equal(t, red.OKLab().Linear().clamp(), Fit(red))
}

func TestRampHasEvenSteps(t *testing.T) {
	for _, ends := range [][2]string{{"#000000", "#ffffff"}, {"#24463c", "#f5f0e1"},
		{"#1b2a49", "#c9a227"}, {"#8b1e1e", "#f3f3f2"}, {"#e0a32e", "#383d96"}} {
		ramp := Ramp(hex(t, ends[0]), hex(t, ends[1]), 7)
		assert.Len(t, ramp, 7)
		assert.Equal(t, ends[0], ramp[0].Hex())
		assert.Equal(t, ends[1], ramp[6].Hex())
		first, last := ramp[0].Linear().OKLab().L, ramp[6].Linear().OKLab().L
		for i, c := range ramp {
			want := first + float64(i)/6*(last-first)
			// a level of 8 bits
			assert.InDelta(t, want, c.Linear().OKLab().L, 0.003, "%s step %d", ends, i)
		}
	}
}

// A grey has no hue: the ramp takes the other end's, and stays grey between greys.
func TestRampFromGrey(t *testing.T) {
	for _, c := range Ramp(hex(t, "#111111"), hex(t, "#eeeeee"), 9) {
		assert.True(t, c.R == c.G && c.G == c.B, c.Hex())
	}
	want := hex(t, "#2e5d34").Linear().OKLab().LCH().H
	for _, order := range [][]RGB{
		Ramp(hex(t, "#eeeeee"), hex(t, "#2e5d34"), 6)[2:5],
		Ramp(hex(t, "#2e5d34"), hex(t, "#eeeeee"), 6)[1:4],
	} {
		for _, c := range order {
			assert.InDelta(t, want, c.Linear().OKLab().LCH().H, 5)
		}
	}
}

func TestRampTakesTheShorterWay(t *testing.T) {
	for _, c := range []struct{ a, b, turn float64 }{{350, 10, 20}, {10, 350, -20}, {0, 180, 180},
		{180, 0, 180}, {90, 91, 1}} {
		start, turn := hueWay(OKLCH{0.5, 0.1, c.a}, OKLCH{0.5, 0.1, c.b})
		assert.Equal(t, c.a, start)
		assert.InDelta(t, c.turn, turn, 1e-9)
	}
}

func TestShortRamps(t *testing.T) {
	a, b := RGB{1, 2, 3}, RGB{200, 100, 50}
	assert.Empty(t, Ramp(a, b, 0))
	assert.Empty(t, Ramp(a, b, -3))
	assert.Equal(t, []RGB{a}, Ramp(a, b, 1))
	assert.Equal(t, []RGB{a, b}, Ramp(a, b, 2))
}
