package look

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSharesByHand: four cloths of halvdräll, where the pattern weft passes over
// three ends of four in its own block and over one in the other. The first is
// worked out here: c 0.5, a 1, t 0.5 leave h = 0.5, over = (0.5, 0.25, 0.25) and
// under = (0, 0.75, 0.25), so on is three quarters of the one and one of the other:
// (0.375, 0.375, 0.25). Of the rest over and under stand below.
func TestSharesByHand(t *testing.T) {
	for _, c := range []struct {
		widths  Widths
		on, off Shares
	}{
		{Widths{0.5, 1, 0.5}, Shares{0.375, 0.375, 0.25}, Shares{0.125, 0.625, 0.25}},
		// over 0.75 0.125 0.125, under 0 0.875 0.125
		{Widths{0.75, 1, 0.25}, Shares{0.5625, 0.3125, 0.125}, Shares{0.1875, 0.6875, 0.125}},
		// over 0.8 0.06 0.14, under 0.16 0.42 0.42
		{Widths{0.8, 0.6, 0.6}, Shares{0.64, 0.15, 0.21}, Shares{0.32, 0.33, 0.35}},
		// over 0.4 0.15 0.45, under 0.2 0.375 0.425
		{Widths{0.4, 0.5, 0.5}, Shares{0.35, 0.20625, 0.44375}, Shares{0.25, 0.31875, 0.43125}},
	} {
		t.Run(fmt.Sprint(c.widths), func(t *testing.T) {
			near(t, c.on, c.widths.Patch(0.75))
			near(t, c.off, c.widths.Patch(0.25))
		})
	}
}

func near(t *testing.T, want, got Shares) {
	t.Helper()
	assert.InDelta(t, want.Pattern, got.Pattern, 1e-12)
	assert.InDelta(t, want.Warp, got.Warp, 1e-12)
	assert.InDelta(t, want.Ground, got.Ground, 1e-12)
}

// TestPlainByHand: a 0.6 and t 0.5 leave gaps of 0.4 x 0.5 = 0.2, half to each:
// warp 0.6 x 0.75 + 0.1 = 0.55, ground 0.5 x 0.7 + 0.1 = 0.45.
func TestPlainByHand(t *testing.T) {
	near(t, Shares{0, 0.55, 0.45}, Widths{Warp: 0.6, Ground: 0.5}.Plain())
	near(t, Shares{0, 0.5, 0.5}, Widths{Warp: 1, Ground: 1}.Plain())
}

// TestWidthByHand: one strand of 8/2 cotton, 147.63 tex, is 0.4547 mm (F. T. Peirce, "The
// geometry of cloth structure", 1937, from memory) and lies 1.5 times as wide, 0.68205; n
// strands together are 1 + (n - 1) 2/pi as wide as one.
func TestWidthByHand(t *testing.T) {
	assert.InDelta(t, 0.68205, WidthMM(1.5, 0.4547, 1), 1e-9)
	assert.InDelta(t, 0.68205*1.636620, WidthMM(1.5, 0.4547, 2), 1e-6)
	assert.InDelta(t, 1+4/math.Pi, WidthMM(1, 1, 3), 1e-12)
}

func randomWidths(chance *rand.Rand) Widths {
	return Widths{chance.Float64(), chance.Float64(), chance.Float64()}
}

func TestSharesSumToOneAndAreNeverLessThanNone(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 2))
	for range 10_000 {
		w := randomWidths(chance)
		for _, s := range []Shares{w.Patch(chance.Float64()), w.Patch(0), w.Patch(1), w.Plain()} {
			assert.InDelta(t, 1, s.Pattern+s.Warp+s.Ground, 1e-12)
			assert.GreaterOrEqual(t, min(s.Pattern, s.Warp, s.Ground), -1e-15, "%v", w)
		}
	}
}

// TestMoreOfAYarnNeverShowsLessOfIt: wider yarn or more of it alone, as c, a or t.
func TestMoreOfAYarnNeverShowsLessOfIt(t *testing.T) {
	chance := rand.New(rand.NewPCG(3, 4))
	for range 10_000 {
		w, phi := randomWidths(chance), chance.Float64()
		before, plain := w.Patch(phi), w.Plain()
		wider := func(v float64) float64 { return v + float64((1-v)*chance.Float64()) }
		c, a, g := w, w, w
		c.Pattern, a.Warp, g.Ground = wider(w.Pattern), wider(w.Warp), wider(w.Ground)
		assert.GreaterOrEqual(t, c.Patch(phi).Pattern, before.Pattern-1e-12, "%v to %v", w, c)
		assert.GreaterOrEqual(t, a.Patch(phi).Warp, before.Warp-1e-12, "%v to %v", w, a)
		assert.GreaterOrEqual(t, g.Patch(phi).Ground, before.Ground-1e-12, "%v to %v, phi %v", w,
			g, phi)
		assert.GreaterOrEqual(t, a.Plain().Warp, plain.Warp-1e-12)
		assert.GreaterOrEqual(t, g.Plain().Ground, plain.Ground-1e-12)
	}
}
