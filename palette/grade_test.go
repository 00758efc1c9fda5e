package palette

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The textile grey scale (ISO 105-A02, "Grey scale for assessing change in colour", 1993,
// table of grades, from memory): CIELAB differences of grades 5, 4-5, 4, 3-4, 3, 2-3, 2,
// 1-2, 1.
var greyScale = []float64{0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6}

func TestGradesMeetTheGreyScale(t *testing.T) {
	want := []Grade{Unseen, Unseen, Unseen, Faint, Soft, Soft, Clear, Clear, Strong}
	for i, step := range greyScale {
		// a grey pair about L* 50, where a unit of L* is close to a unit of dE00
		de := DeltaE00(Lab{L: 50 - step/2}, Lab{L: 50 + step/2})
		assert.Equal(t, want[i], GradeOf(step, de), "%g", step)
		assert.Equal(t, want[i], GradeOf(-step, de), "%g", -step)
	}
	// each whole grade of the scale doubles the one before
	for i := 2; i+2 < len(greyScale); i += 2 {
		assert.InDelta(t, 2, greyScale[i+2]/greyScale[i], 1e-9)
	}
}

func TestGradeEnds(t *testing.T) {
	for _, c := range []struct {
		l, e float64
		want Grade
	}{
		{0.5, 1.999, Unseen}, {40, 0.5, Unseen}, {0.5, 2, Faint}, {3.399, 2, Faint}, {3.4, 2, Soft},
		{6.799, 2, Soft},
		{6.8, 2, Clear}, {13.599, 2, Clear}, {13.6, 2, Strong}, {29.999, 2, Strong}, {30, 2, Bold},
		{100, 99, Bold},
		{3.4 - 1e-13, 2, Soft}, {math.NaN(), 2, Faint}, {9, math.NaN(), Unseen},
	} {
		assert.Equal(t, c.want, GradeOf(c.l, c.e), "%g %g", c.l, c.e)
	}
	names := ""
	for _, g := range Grades {
		names += g.String() + " "
	}
	assert.Equal(t, "unseen faint soft clear strong bold ", names)
}

// 30 is a contrast ratio above 2.2 : 1 for every pair: the ratio
// (Y + 0.05)/(Y' + 0.05) of the two luminances (W3C, "Web Content Accessibility
// Guidelines 2.1", 2018, definition of contrast ratio, from memory), least over all pairs
// of greys 30 apart in L*.
func TestBoldIsAContrastRatioAbove(t *testing.T) {
	least := math.Inf(1)
	for l := 0.0; l <= 70; l += 0.1 {
		dark, light := Lab{L: l}.XYZ(), Lab{L: l + 30}.XYZ()
		least = min(least, (light[1]+0.05)/(dark[1]+0.05))
	}
	assert.Greater(t, least, 2.2)
	assert.Less(t, least, 2.4)
}

// TestHueOnly: 6.8 is the grey scale's grade 2, from which a difference is clear.
func TestHueOnly(t *testing.T) {
	assert.True(t, HueOnly(6.7, 6.8))
	assert.True(t, HueOnly(-1, 20))
	assert.False(t, HueOnly(6.8, 20))
	assert.False(t, HueOnly(2, 6.7))
}
