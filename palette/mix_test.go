package palette

import (
	"bufio"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMixLeavesOutWhatHasNoArea(t *testing.T) {
	red, blue := Linear{1, 0, 0}, Linear{0, 0, 1}
	assert.Equal(t, red, Mix(Part{blue, 0}, Part{red, 2}, Part{blue, -1}, Part{blue, math.NaN()}))
	assert.Equal(t, Linear{}, Mix())
	assert.Equal(t, Linear{0.75, 0, 0.25}, Mix(Part{red, 3}, Part{blue, 1}))
}

// TestScatterByHand: half of a reflectance of 1 and half of 0.01 at B = 0.02.
// f(1) = 0 and f(0.01) = 0.99/0.01 = 99, so v = 49.5 and
// R = (1 - 0.01 x 49.5 x 0.98) / (1 + 0.02 x 49.5) = 0.5149 / 1.99 = 0.258744.
func TestScatterByHand(t *testing.T) {
	mixed := Scatter(0.02).Mix(Part{Linear{1, 1, 1}, 1}, Part{Linear{0.01, 0.01, 0.01}, 1})
	for _, r := range mixed {
		assert.InDelta(t, 0.258744, r, 1e-6)
	}
}

func TestNoScatterIsTheAverageByArea(t *testing.T) {
	chance := rand.New(rand.NewPCG(15, 16))
	for range 1000 {
		a, b, share := randomRGB(chance).Linear(), randomRGB(chance).Linear(), chance.Float64()
		mixed := Scatter(0).Mix(Part{a, share}, Part{b, 1 - share})
		near := Scatter(1e-9).Mix(Part{a, share}, Part{b, 1 - share})
		for i := range mixed {
			average := float64(share*a[i]) + float64((1-share)*b[i])
			assert.InDelta(t, average, mixed[i], 1e-12)
			assert.InDelta(t, average, near[i], 1e-4, "and a scatter of almost none is near it")
		}
	}
}

func TestMixturesLieBetweenTheirParts(t *testing.T) {
	chance := rand.New(rand.NewPCG(19, 20))
	for range 1000 {
		a, b := randomRGB(chance).Linear(), randomRGB(chance).Linear()
		share, scatter := chance.Float64(), Scatter(0.4*chance.Float64())
		mixed := scatter.Mix(Part{a, share}, Part{b, 1 - share})
		plain := Mix(Part{a, share}, Part{b, 1 - share})
		for i, r := range mixed {
			assert.GreaterOrEqual(t, r, min(a[i], b[i])-1e-12)
			assert.LessOrEqual(t, r, plain[i]+1e-12, "light that spreads is lost, never won")
		}
	}
}

func TestPartsAlikeGiveExactlyThatColour(t *testing.T) {
	chance := rand.New(rand.NewPCG(17, 18))
	for range 500 {
		c := randomRGB(chance)
		l := c.Linear()
		mixed := Scatter(chance.Float64()/2).Mix(Part{l, chance.Float64()}, Part{l, 0.3},
			Part{l, 2})
		assert.Equal(t, l, mixed)
		assert.Equal(t, c, mixed.RGB())
	}
}

// handwoven is testdata/handwoven_pairs.csv: cloth of warp i and weft j, the
// flagged ones left out.
//
// Source: D. Vongpramate and others, "Data and code for: Shift-aware evaluation
// and physics-guided residual learning for colour prediction of handwoven
// fabrics", 2026, doi:10.5281/zenodo.23205538, table 4.7, CC BY 4.0.
func handwoven(t *testing.T) (cloth map[[2]string]Lab, flagged map[string]bool) {
	t.Helper()
	file, err := os.Open("testdata/handwoven_pairs.csv")
	require.NoError(t, err)
	defer file.Close()
	cloth, flagged = map[[2]string]Lab{}, map[string]bool{}
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		f := strings.Split(lines.Text(), ",")
		if strings.HasPrefix(lines.Text(), "#") || f[0] == "warp" {
			continue
		}
		var v [3]float64
		for i := range v {
			v[i], err = strconv.ParseFloat(f[2+i], 64)
			require.NoError(t, err)
		}
		if f[5] != "" {
			flagged[f[0]+"+"+f[1]] = true
		}
		cloth[[2]string{f[0], f[1]}] = Lab{v[0], v[1], v[2]}
	}
	require.NoError(t, lines.Err())
	require.Len(t, cloth, 400)
	return cloth, flagged
}

// TestScatterAgainstMeasuredCloth holds half-and-half mixtures against 162 pairs
// of handwoven cloth: warp over weft and weft over warp averaged as light.
func TestScatterAgainstMeasuredCloth(t *testing.T) {
	law, plain := heldAgainstCloth(t, 0.034), heldAgainstCloth(t, 0)
	t.Logf("%d pairs: dE00 %.2f on average (plain average %.2f); %d further apart than 40 L*: "+
		"%.2f (%.2f)",
		law.pairs, law.mean, plain.mean, law.farPairs, law.far, plain.far)
	assert.Equal(t, 162, law.pairs)
	assert.LessOrEqual(t, law.mean, 1.8)
	assert.LessOrEqual(t, law.far, 3.2)
	assert.Greater(t, plain.mean, 4.5, "the plain average is far from cloth")
	assert.Greater(t, plain.far, 14.0)
}

type held struct {
	pairs, farPairs int
	mean, far       float64
}

func heldAgainstCloth(t *testing.T, b Scatter) (h held) {
	cloth, flagged := handwoven(t)
	for at := range cloth {
		i, j := at[0], at[1]
		if i >= j || flagged[i+"+"+j] || flagged[j+"+"+i] || flagged[i+"+"+i] || flagged[j+"+"+j] {
			continue
		}
		one, two := cloth[[2]string{i, i}], cloth[[2]string{j, j}]
		measured := Mix(Part{cloth[at].XYZ().Linear(), 1},
			Part{cloth[[2]string{j, i}].XYZ().Linear(), 1})
		mixed := b.Mix(Part{one.XYZ().Linear(), 1}, Part{two.XYZ().Linear(), 1})
		off := DeltaE00(mixed.Lab(), measured.Lab())
		h.pairs, h.mean = h.pairs+1, h.mean+off
		if math.Abs(one.L-two.L) > 40 {
			h.farPairs, h.far = h.farPairs+1, h.far+off
		}
	}
	h.mean /= float64(h.pairs)
	h.far /= float64(h.farPairs)
	return h
}
