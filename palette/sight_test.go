package palette

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestSightReference holds the matrices of G. M. Machado and others, "A Physiologically-based
// Model for Simulation of Color Vision Deficiency", 2009, and colours seen through them,
// against testdata/cvd.csv, which tells where it has them from.
func TestSightReference(t *testing.T) {
	seen := 0
	for _, r := range rows(t, "cvd.csv") {
		switch r[0] {
		case "matrix":
			checkMatrix(t, r[1], numbers(t, r[2:]))
		case "sample":
			c := hex(t, "#"+r[1]).Linear()
			assert.Equal(t, hex(t, "#"+r[2]), Protan.See(c).RGB(), r[1])
			assert.Equal(t, hex(t, "#"+r[3]), Deutan.See(c).RGB(), r[1])
			assert.Equal(t, c, Normal.See(c))
			seen++
		}
	}
	assert.Equal(t, 14, seen)
}

// checkMatrix compares with the published six figures; ours have rows that sum
// to 1, so they may differ by one in the last.
func checkMatrix(t *testing.T, name string, v []float64) {
	sight, ours := map[string]Sight{"machado_protan": Protan, "machado_deutan": Deutan}[name]
	if !ours {
		return
	}
	for i, row := range machado[sight] {
		assert.InDelta(t, 1, row[0]+row[1]+row[2], 1e-15)
		for j, got := range row {
			assert.InDelta(t, v[3*i+j], got, 1.1e-6, "%s %d %d", name, i, j)
		}
	}
}

func TestSightClampsAndNames(t *testing.T) {
	for _, s := range Sights {
		for _, text := range []string{"#00ff00", "#ff0000", "#0000ff", "#00ffff"} {
			for _, v := range s.See(hex(t, text).Linear()) {
				assert.True(t, v >= 0 && v <= 1, "%v sees %s as %g", s, text, v)
			}
		}
	}
	assert.Equal(t, "normal protan deutan", Normal.String()+" "+Protan.String()+" "+Deutan.String())
}

// Red and green of like lightness keep their difference for normal eyes only (well
// known, no source; the bounds are judgements).
func TestSightMergesRedAndGreen(t *testing.T) {
	a, b := hex(t, "#8a6d3b").Linear(), hex(t, "#5f7a3a").Linear()
	assert.Greater(t, DeltaE00(a.Lab(), b.Lab()), 15.0)
	assert.Less(t, DeltaE00(Protan.See(a).Lab(), Protan.See(b).Lab()), 10.0)
}
