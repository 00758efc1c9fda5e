package palette

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The two worked lines of the design: cp 0.5 and 0.75, phi 3/4 on and 1/4 off.
func TestPatternAreasWorked(t *testing.T) {
	for _, c := range []struct {
		cp, phi float64
		want    Areas
	}{
		{0.5, 0.75, Areas{0.375, 0.375, 0.25}},
		{0.5, 0.25, Areas{0.125, 0.625, 0.25}},
		{0.75, 0.75, Areas{0.5625, 0.3125, 0.125}},
		{0.75, 0.25, Areas{0.1875, 0.6875, 0.125}},
		{1, 0.75, Areas{0.75, 0.25, 0}},
		{0, 0.75, Plain},
	} {
		assert.Equal(t, c.want, PatternAreas(c.cp, c.phi))
	}
}

func TestCover(t *testing.T) {
	assert.InDelta(t, 0.473, Cover(1.3, 0.455, 0.8), 1e-3) // 1.3 x 0.455 mm x 0.8/mm
	assert.Equal(t, 1.0, Cover(2, 1, 0.8))
	assert.Equal(t, 0.0, Cover(1.3, -1, 0.8))
}

func TestAreasSumToOneAndSidesExchange(t *testing.T) {
	chance := rand.New(rand.NewPCG(15, 16))
	for range 1000 {
		cp, phi := chance.Float64(), chance.Float64()
		on, off := PatternAreas(cp, phi), PatternAreas(cp, 1-phi)
		assert.InDelta(t, 1, on.Pattern+on.Warp+on.Ground, 1e-12)
		// what is not pattern on one side is pattern on the other: the pattern weft is
		// on top of phi of the ends here and of the rest there.
		assert.InDelta(t, cp, on.Pattern+off.Pattern, 1e-12)
		assert.InDelta(t, 1, on.Warp+off.Warp, 1e-12)
		assert.InDelta(t, on.Ground, off.Ground, 1e-12)
	}
}

func TestOneColourClothGivesExactlyThatColour(t *testing.T) {
	chance := rand.New(rand.NewPCG(17, 18))
	for range 500 {
		c := randomRGB(chance)
		for _, phi := range []float64{0.25, 0.75} {
			cloth := PatternAreas(chance.Float64(), phi).Mix(c.Linear(), c.Linear(), c.Linear())
			assert.Equal(t, c.Linear(), cloth)
			assert.Equal(t, c, cloth.RGB())
		}
	}
}

func TestMixturesStayWithinTheLightnessOfTheirParts(t *testing.T) {
	chance := rand.New(rand.NewPCG(19, 20))
	for range 1000 {
		a, b, c := randomRGB(chance).Linear(), randomRGB(chance).Linear(), randomRGB(chance).Linear()
		l := PatternAreas(chance.Float64(), chance.Float64()).Mix(a, b, c).Lab().L
		assert.GreaterOrEqual(t, l, min(a.Lab().L, b.Lab().L, c.Lab().L)-1e-8)
		assert.LessOrEqual(t, l, max(a.Lab().L, b.Lab().L, c.Lab().L)+1e-8)
	}
}

func TestMixLeavesOutWhatHasNoArea(t *testing.T) {
	red, blue := Linear{1, 0, 0}, Linear{0, 0, 1}
	assert.Equal(t, red, Mix(Part{blue, 0}, Part{red, 2}, Part{blue, -1}, Part{blue, math.NaN()}))
	assert.Equal(t, Linear{}, Mix())
	assert.Equal(t, Linear{0.75, 0, 0.25}, Mix(Part{red, 3}, Part{blue, 1}))
}

// The worked brief, reckoned by an independent program: its cloth is halvdräll,
// pattern weft two strands of 16/1 linen, one pattern pick to each of 7.5 ground
// picks a cm, 10 % lost in length, spread 1.3.
//
// tex 1653.5155/16 x 2 = 206.689 (ASTM D2260 linen lea); d = 0.03568 sqrt(206.689 x 1.1)
// = 0.537996 mm (Peirce 1937); n = 0.75/0.9 = 0.833333 a mm; cp = 0.582829.
func TestWorkedContrasts(t *testing.T) {
	cp := Cover(1.3, 0.03568*math.Sqrt(1653.5155/16*2*1.1), 0.75/0.9)
	assert.InDelta(t, 0.582829, cp, 1e-5)
	checked := 0
	for _, piece := range workedPlan(t).Pieces {
		for _, c := range piece.Contrast {
			checkWorked(t, cp, c)
			checked++
		}
	}
	assert.GreaterOrEqual(t, checked, 12)
}

type worked struct {
	Warp, Ground, Pattern string
	On, Off               [3]float64
	DeltaL                float64 `json:"delta_l"`
	DeltaE                float64 `json:"delta_e"`
	NarrowestMM           float64 `json:"narrowest_mm"`
	Vision                string
	Seen                  []struct {
		DistanceM float64 `json:"distance_m"`
		DeltaL    float64 `json:"delta_l"`
	}
}

func workedPlan(t *testing.T) (p struct{ Pieces []struct{ Contrast []worked } }) {
	t.Helper()
	text, err := os.ReadFile("testdata/worked-plan.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &p))
	return p
}

// workedShelf is the shelf of worked-brief.toml.
var workedShelf = map[string]string{"chalk": "#f1ede2", "slate": "#4a5560", "buoy": "#c2492f", "deep water": "#17394d"}

func checkWorked(t *testing.T, cp float64, c worked) {
	what := c.Warp + "/" + c.Ground + "/" + c.Pattern
	p, w, g := hex(t, workedShelf[c.Pattern]).Linear(), hex(t, workedShelf[c.Warp]).Linear(), hex(t, workedShelf[c.Ground]).Linear()
	on, off := PatternAreas(cp, 0.75).Mix(p, w, g), PatternAreas(cp, 0.25).Mix(p, w, g)
	a, b := on.Lab(), off.Lab()
	assertNear(t, c.On, [3]float64{a.L, a.A, a.B}, 0.01)
	assertNear(t, c.Off, [3]float64{b.L, b.A, b.B}, 0.01)
	assert.InDelta(t, c.DeltaL, math.Abs(a.L-b.L), 0.01, what)
	assert.InDelta(t, c.DeltaE, DeltaE00(a, b), 0.01, what)
	assert.Equal(t, c.Vision, worstAt(on, off, c.NarrowestMM, 2).String(), what)
	for _, seen := range c.Seen {
		s := worstAt(on, off, c.NarrowestMM, 2)
		one, two := SeenStripes(s.See(on).XYZ(), s.See(off).XYZ(), c.NarrowestMM, seen.DistanceM)
		assert.InDelta(t, seen.DeltaL, math.Abs(one.Lab().L-two.Lab().L), 0.01, what)
	}
}

// worstAt is the sight with the least lightness difference at a distance.
func worstAt(on, off Linear, widthMM, distanceM float64) Sight {
	worst, least := Normal, math.Inf(1)
	for _, s := range Sights {
		one, two := SeenStripes(s.See(on).XYZ(), s.See(off).XYZ(), widthMM, distanceM)
		if d := math.Abs(one.Lab().L - two.Lab().L); d < least {
			worst, least = s, d
		}
	}
	return worst
}
