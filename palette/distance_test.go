package palette

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestStripesReference holds stripes from afar against the filters of X. Zhang and B. A.
// Wandell, "A spatial extension of CIELAB for digital color image reproduction", 1997
// (testdata/stripes_at_distance.csv: computed apart, by what constants it says).
func TestStripesReference(t *testing.T) {
	for _, r := range rows(t, "stripes_at_distance.csv") {
		v := numbers(t, r[3:])
		one, two := seenStripes(hex(t, "#"+r[1]).Linear().XYZ(), hex(t, "#"+r[2]).Linear().XYZ(),
			v[0], v[1])
		a, b := one.Lab(), two.Lab()
		got := []float64{a.L, a.A, a.B, b.L, b.A, b.B}
		for i, want := range v[2:8] {
			assert.InDelta(t, want, got[i], 2e-3, "%s %s mm %s m, figure %d", r[0], r[3], r[4], i)
		}
		assert.InDelta(t, v[8], math.Abs(a.L-b.L), 2e-3)
	}
}

// The law of Talbot (1834) and Plateau (1835), from memory, across space in place of
// time: fine stripes give the mixture, wide ones themselves.
func TestStripesLimits(t *testing.T) {
	a, b := hex(t, "#f5f0e1").Linear(), hex(t, "#1b2a49").Linear()
	mixed := Mix(Part{a, 1}, Part{b, 1}).XYZ()
	for _, c := range []struct{ width, distance float64 }{{0.001, 10}, {0, 1}, {-1, 1},
		{math.NaN(), 1}, {1, math.NaN()}, {1, math.Inf(1)}} {
		one, two := seenStripes(a.XYZ(), b.XYZ(), c.width, c.distance)
		assertNear(t, mixed, one, 1e-12)
		assertNear(t, mixed, two, 1e-12)
	}
	for _, c := range []struct{ width, distance float64 }{{2000, 0.2}, {1, 0}, {1, -1},
		{math.Inf(1), 1}} {
		one, two := seenStripes(a.XYZ(), b.XYZ(), c.width, c.distance)
		assertNear(t, a.XYZ(), one, 1e-12)
		assertNear(t, b.XYZ(), two, 1e-12)
	}
}

func TestOneColourStaysItselfAtAnyDistance(t *testing.T) {
	chance := rand.New(rand.NewPCG(5, 6))
	for range 200 {
		c := randomRGB(chance).Linear().XYZ()
		one, two := seenStripes(c, c, 10*chance.Float64(), 5*chance.Float64())
		assert.Equal(t, c, one)
		assert.Equal(t, c, two)
	}
}

// Nothing rises with distance: light, red-green, blue-yellow, and so L* (it follows from
// the filters being Gaussians of positive weight; no source).
func TestStripesFadeWithDistance(t *testing.T) {
	chance := rand.New(rand.NewPCG(8, 9))
	for range 60 {
		a, b := randomRGB(chance).Linear().XYZ(), randomRGB(chance).Linear().XYZ()
		last, lastL := [3]float64{9, 9, 9}, math.Inf(1)
		for step := range 80 {
			one, two := seenStripes(a, b, 3, 0.05*math.Pow(1.1, float64(step)))
			p, q := one.opponent(), two.opponent()
			for i := range p {
				d := math.Abs(p[i] - q[i])
				assert.LessOrEqual(t, d, last[i]+1e-12, "channel %d", i)
				last[i] = d
			}
			dl := math.Abs(one.Lab().L - two.Lab().L)
			assert.LessOrEqual(t, dl, lastL+1e-8)
			lastL = dl
		}
	}
}

func TestOnlyWidthOverDistanceMatters(t *testing.T) {
	a, b := hex(t, "#af363c").Linear().XYZ(), hex(t, "#469449").Linear().XYZ()
	for _, k := range []float64{0.5, 3, 10} {
		p, q := seenStripes(a, b, 4, 2)
		r, s := seenStripes(a, b, 4*k, 2*k)
		assertNear(t, p, r, 1e-12)
		assertNear(t, q, s, 1e-12)
		s, r = seenStripes(b, a, 4, 2)
		assertNear(t, p, r, 1e-15)
		assertNear(t, q, s, 1e-15)
	}
}

// The two series are one function: where both converge they agree, and both
// agree with the convolution summed as it stands.
func TestBothSeriesAgree(t *testing.T) {
	for _, aw := range []float64{0.4, 0.5, 0.59, 0.6, 0.61, 0.8, 1, 2} {
		assert.InDelta(t, blurredStripes(aw), blurredFourier(aw), 1e-13, "aw %g", aw)
		assert.InDelta(t, convolved(aw), blurred(aw), 1e-4, "aw %g", aw)
	}
}

// convolved is the square wave of half width 1/2 around 0 against the Gaussian
// exp(-(a x)^2), by the midpoint rule.
func convolved(aw float64) float64 {
	const steps, reach = 400_000, 12.0
	sum := 0.0
	for i := range steps {
		x := reach * ((float64(i)+0.5)/steps*2 - 1) // in units of 1/a
		stripe := math.Floor(x/aw + 0.5)
		sum += math.Exp(-x*x) * (1 - 2*math.Abs(math.Mod(stripe, 2)))
	}
	return sum * 2 * reach / steps / math.Sqrt(math.Pi)
}

func TestFiltersWeighOne(t *testing.T) {
	for i, f := range filters {
		sum := 0.0
		for _, l := range f {
			sum += l.weight
		}
		assert.InDelta(t, 1, sum, 1e-12, "channel %d", i)
	}
}

// seenStripes is what two colours look like in stripes of a width in mm, from a
// distance in metres.
func seenStripes(a, b XYZ, widthMM, distanceM float64) (XYZ, XYZ) {
	return BlurOf(widthMM, distanceM).Stripes(a, b)
}
