package palette

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
)

// published is Table I of G. Sharma, W. Wu and E. N. Dalal, "The CIEDE2000
// Color-Difference Formula", Color Research & Application 30(1), 2005
// (testdata/ciede2000.csv).
type published struct {
	one, two Lab
	want     float64
}

func ciede2000(t testing.TB) []published {
	var out []published
	for _, r := range rows(t, "ciede2000.csv") {
		v := numbers(t, r)
		out = append(out, published{Lab{v[0], v[1], v[2]}, Lab{v[3], v[4], v[5]}, v[6]})
	}
	assert.Len(t, out, 34)
	return out
}

// TestDeltaE00Published: to the last of the four decimals that are printed.
func TestDeltaE00Published(t *testing.T) {
	for i, p := range ciede2000(t) {
		assert.InDelta(t, p.want, DeltaE00(p.one, p.two), 5.1e-5, "pair %d", i+1)
		assert.InDelta(t, p.want, DeltaE00(p.two, p.one), 5.1e-5, "pair %d the other way", i+1)
	}
}

// textbook is CIEDE2000 as Sharma, Wu & Dalal print it, angles in degrees and
// all, with their tie rule made tolerant: slow, and written from the paper alone.
func textbook(p, q Lab) float64 {
	deg := math.Pi / 180
	cbar := (math.Hypot(p.A, p.B) + math.Hypot(q.A, q.B)) / 2
	g := 0.5 * (1 - math.Sqrt(math.Pow(cbar, 7)/(math.Pow(cbar, 7)+math.Pow(25, 7))))
	hue := func(a, b float64) float64 {
		if a == 0 && b == 0 {
			return 0
		}
		return math.Mod(math.Atan2(b, a)/deg+360, 360)
	}
	c1, c2 := math.Hypot(p.A*(1+g), p.B), math.Hypot(q.A*(1+g), q.B)
	h1, h2 := hue(p.A*(1+g), p.B), hue(q.A*(1+g), q.B)
	dh, hbar := h2-h1, (h1+h2)/2
	switch {
	case c1*c2 == 0:
		dh, hbar = 0, h1+h2
	case math.Abs(dh) > 180+1e-9:
		dh -= math.Copysign(360, dh)
		if h1+h2 < 360 {
			hbar += 180
		} else {
			hbar -= 180
		}
	}
	cos := func(d float64) float64 { return math.Cos(d * deg) }
	t := 1 - 0.17*cos(hbar-30) + 0.24*cos(2*hbar) + 0.32*cos(3*hbar+6) - 0.20*cos(4*hbar-63)
	l, c := (p.L+q.L)/2, (c1+c2)/2
	dL := (q.L - p.L) / (1 + 0.015*(l-50)*(l-50)/math.Sqrt(20+(l-50)*(l-50)))
	dC := (c2 - c1) / (1 + 0.045*c)
	dH := 2 * math.Sqrt(c1*c2) * math.Sin(dh/2*deg) / (1 + 0.015*c*t)
	theta := 30 * math.Exp(-math.Pow((hbar-275)/25, 2))
	rt := -2 * math.Sqrt(math.Pow(c, 7)/(math.Pow(c, 7)+math.Pow(25, 7))) * math.Sin(2*theta*deg)
	return math.Sqrt(dL*dL + dC*dC + dH*dH + rt*dC*dH)
}

func TestDeltaE00AgreesWithItsTextbookForm(t *testing.T) {
	for i, p := range ciede2000(t) {
		assert.InDelta(t, textbook(p.one, p.two), DeltaE00(p.one, p.two), 1e-9, "pair %d", i+1)
	}
	chance := rand.New(rand.NewPCG(1, 2000))
	for range 20000 {
		a, b := randomLab(chance), randomLab(chance)
		assert.InDelta(t, textbook(a, b), DeltaE00(a, b), 1e-9, "%v %v", a, b)
		near := Lab{a.L + chance.Float64(), a.A + chance.Float64(), a.B - chance.Float64()}
		assert.InDelta(t, textbook(a, near), DeltaE00(a, near), 1e-9, "%v %v", a, near)
	}
}

// The library is right on 33 of the 34 pairs: in one the hues are exactly
// opposite and its rounding picks the other mean.
func TestDeltaE00AgreesWithTheLibraryWhereItIsRight(t *testing.T) {
	agree := 0
	for i, p := range ciede2000(t) {
		theirs := 100 * libraryLab(p.one).DistanceCIEDE2000(libraryLab(p.two))
		if math.Abs(theirs-p.want) < 5.1e-5 {
			assert.InDelta(t, theirs, DeltaE00(p.one, p.two), 1e-6, "pair %d", i+1)
			agree++
		}
	}
	assert.GreaterOrEqual(t, agree, 33)
}

// libraryLab hands a colour over by the library's own default white, so that it
// gets the very Lab values back.
func libraryLab(c Lab) colorful.Color { return colorful.Lab(c.L/100, c.A/100, c.B/100) }

func TestDeltaE00Properties(t *testing.T) {
	chance := rand.New(rand.NewPCG(7, 7))
	for range 5000 {
		a, b := randomLab(chance), randomLab(chance)
		d := DeltaE00(a, b)
		assert.Equal(t, d, DeltaE00(b, a), "the same both ways, to the bit: %v %v", a, b)
		assert.Positive(t, d)
		assert.Zero(t, DeltaE00(a, a))
		assert.Equal(t, int64(math.Round(d*1e6)), MicroE(a, b))
	}
	// greys differ by lightness alone: dL / S_L by hand, S_L = 1 + 0.015*100/sqrt(120) = 1.136931
	assert.InDelta(t, 20/1.136931, DeltaE00(Lab{L: 50}, Lab{L: 70}), 1e-5)
	assert.Zero(t, DeltaE00(Lab{}, Lab{}))
}

// Hues opposite to the last bit, and a hair to either side, give one answer.
func TestDeltaE00DoesNotHangOnRoundingOfOppositeHues(t *testing.T) {
	want := DeltaE00(Lab{50, 2.5, 0}, Lab{50, -2.5, 0})
	for _, hair := range []float64{-1e-12, -1e-15, 1e-15, 1e-12} {
		assert.InDelta(t, want, DeltaE00(Lab{50, 2.5, 0}, Lab{50, -2.5, hair}), 1e-9, "%g", hair)
	}
}

func TestMicroTakesWhatIsNotANumber(t *testing.T) {
	assert.Equal(t, int64(0), micro(math.NaN()))
	assert.Equal(t, int64(1e18), micro(math.Inf(1)))
	assert.Equal(t, int64(-1e18), micro(math.Inf(-1)))
	assert.Equal(t, int64(3_400_000), micro(3.3999999))
}

func randomLab(chance *rand.Rand) Lab {
	return Lab{100 * chance.Float64(), 200*chance.Float64() - 100, 200*chance.Float64() - 100}
}

func randomRGB(chance *rand.Rand) RGB {
	v := chance.Uint32()
	return RGB{uint8(v), uint8(v >> 8), uint8(v >> 16)}
}

// Both benchmarks take the same thousand pairs. Ours gets prepared Lab values,
// as a search does; the library takes colours only.
func BenchmarkDeltaE00(b *testing.B) {
	chance := rand.New(rand.NewPCG(3, 4))
	var labs [1001]Lab
	var theirs [1001]colorful.Color
	for i := range labs {
		c := randomRGB(chance)
		labs[i] = c.Lab()
		theirs[i] = colorful.Color{R: float64(c.R) / 255, G: float64(c.G) / 255,
			B: float64(c.B) / 255}
	}
	sink := 0.0
	b.Run("prepared", func(b *testing.B) {
		for i := range b.N {
			sink += DeltaE00(labs[i%1000], labs[i%1000+1])
		}
	})
	b.Run("library", func(b *testing.B) {
		for i := range b.N {
			sink += theirs[i%1000].DistanceCIEDE2000(theirs[i%1000+1])
		}
	})
	if testing.Verbose() {
		fmt.Println(sink)
	}
}
