package palette

import (
	"math"
	"testing"

	"github.com/lucasb-eyer/go-colorful"
	"github.com/stretchr/testify/assert"
)

func TestParseHex(t *testing.T) {
	for text, want := range map[string]RGB{
		"#24463c": {0x24, 0x46, 0x3c},
		"#24463C": {0x24, 0x46, 0x3c},
		"#abc":    {0xaa, 0xbb, 0xcc},
		"#000000": {},
		"#ffffff": {255, 255, 255},
	} {
		got, err := ParseHex(text)
		assert.NoError(t, err)
		assert.Equal(t, want, got)
	}
	for _, text := range []string{"", "#", "24463c", "#24463", "#24463c0", "#24463g", "#-12345",
		"#+1+1+1", "# 2 4 6", "#äbc", "spruce", "rgb(1,2,3)"} {
		_, err := ParseHex(text)
		assert.ErrorContains(t, err, `"`+text+`"`)
	}
}

func TestEveryLevelComesBack(t *testing.T) {
	for i := range 256 {
		c := RGB{uint8(i), uint8(255 - i), uint8(i * 7)}
		assert.Equal(t, c, c.Linear().RGB())
		assert.Equal(t, c, hex(t, c.Hex()))
	}
}

// The light of every level is rounded to 2^-37. None lies so near a tie that a
// power function wrong in its last bits could fall on the other side.
func TestLightIsTheSameOnEveryProcessor(t *testing.T) {
	check := func(v, rounded float64) {
		exact, _, _ := colorful.Color{R: v}.LinearRgb()
		scaled := exact * (1 << 37)
		assert.InDelta(t, exact, rounded, 0x1p-38)
		if exact > 0 && exact < 1 {
			ulps := (0.5 - math.Abs(scaled-math.Round(scaled))) / (math.Nextafter(scaled,
				2*scaled) - scaled)
			assert.Greater(t, ulps, 100.0, "level %g is %g units in the last place from a tie",
				v*255, ulps)
		}
	}
	for i, v := range light {
		check(float64(i)/255, v)
	}
	for i, v := range thresholds {
		check((float64(i)+0.5)/255, v)
	}
}

func TestRoundingToLevelsIsThatOfTheCurve(t *testing.T) {
	for i := range 5000 {
		v := float64(i) / 4999
		c := colorful.LinearRgb(v, v, v)
		r, _, _ := c.RGB255()
		assert.Equal(t, r, level(v), "%g", v)
	}
}

func TestLightOutsideTheScreenIsClampedNotWrapped(t *testing.T) {
	assert.Equal(t, RGB{0, 255, 0}, Linear{-0.2, 1.7, math.NaN()}.RGB())
	assert.Equal(t, RGB{255, 0, 255}, Linear{math.Inf(1), math.Inf(-1), 1}.RGB())
	assert.Equal(t, Linear{0, 1, 0}, Linear{-0.2, 1.7, math.NaN()}.clamp())
}
