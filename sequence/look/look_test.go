package look

import (
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
)

func cloth(t testing.TB) (*Mixer, *brief.Brief) {
	t.Helper()
	text, err := os.ReadFile("../plan/testdata/worked-brief.toml")
	require.NoError(t, err)
	b, err := brief.Parse("worked-brief.toml", text, brief.Options{})
	require.NoError(t, err)
	return Of(b), b
}

// everyTrio calls for every warp, ground and pattern colour there could be.
func everyTrio(colours int, call func(Trio)) {
	for w := range colours {
		for g := range colours {
			for p := range colours {
				call(Trio{Warp: w, Ground: g, Pattern: p})
			}
		}
	}
}

func TestOneColourClothIsThatColour(t *testing.T) {
	c, b := cloth(t)
	for i := range b.Colours {
		p := c.Patch(Trio{Warp: i, Ground: i, Pattern: i})
		assert.Equal(t, c.Light(i), p.On)
		assert.Equal(t, c.Light(i), p.Off)
		plain := c.Patch(Trio{Warp: i, Ground: i, Pattern: Plain})
		assert.Equal(t, c.Light(i), plain.On)
	}
}

func TestMixturesStayWithinTheLightnessOfTheirYarns(t *testing.T) {
	c, b := cloth(t)
	everyTrio(len(b.Colours), func(trio Trio) {
		low, high := 100.0, 0.0
		for _, i := range []int{trio.Warp, trio.Ground, trio.Pattern} {
			l := c.Light(i).Lab().L
			low, high = min(low, l), max(high, l)
		}
		p := c.Patch(trio)
		for _, l := range []float64{p.OnLab.L, p.OffLab.L} {
			assert.GreaterOrEqual(t, l, low-1e-6)
			assert.LessOrEqual(t, l, high+1e-6)
		}
	})
}

// TestSeenFades: no distance leaves more lightness than a nearer one, to any
// sight, and one colour stays unseen.
func TestSeenFades(t *testing.T) {
	c, b := cloth(t)
	chance := rand.New(rand.NewPCG(4, 4))
	everyTrio(len(b.Colours), func(trio Trio) {
		p, width := c.Patch(trio), 1+30*chance.Float64()
		for _, sight := range palette.Sights {
			last := See(p.On, p.Off, sight, width, 0.1)
			for _, d := range append([]float64{0.2}, DistancesM...) {
				s := See(p.On, p.Off, sight, width, d)
				assert.LessOrEqual(t, s.MicroL(), last.MicroL()+1)
				last = s
			}
		}
	})
	same := See(c.Light(0), c.Light(0), palette.Normal, 5, 2)
	assert.Equal(t, Difference{}, same)
}

// TestWideStripesGiveLabAndFineOnesTheMixture: the law of Talbot (1834) and Plateau (1835),
// from memory, across space in place of time.
func TestWideStripesGiveLabAndFineOnesTheMixture(t *testing.T) {
	c, _ := cloth(t)
	a, b := c.Light(0), c.Light(1)
	near, wide := Apart(a.Lab(), b.Lab()), See(a, b, palette.Normal, 10_000, 0.4)
	assert.InDelta(t, near.DeltaL, wide.DeltaL, 1e-6)
	assert.InDelta(t, near.DeltaE, wide.DeltaE, 1e-6)
	assert.InDelta(t, 0, See(a, b, palette.Normal, 0.01, 5).DeltaE, 1e-6)
}

func TestWorstIsNoBetterThanAnySight(t *testing.T) {
	c, b := cloth(t)
	everyTrio(len(b.Colours), func(trio Trio) {
		p := c.Patch(trio)
		sight, worst := Worst(p.On, p.Off, 8, 2)
		assert.Equal(t, See(p.On, p.Off, sight, 8, 2), worst)
		for _, s := range palette.Sights {
			assert.False(t, See(p.On, p.Off, s, 8, 2).Worse(worst), "%v %v", trio, s)
		}
	})
}
