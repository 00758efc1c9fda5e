package palette

import (
	"bytes"
	"image"
	"image/color"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func cropOf(t *testing.T, m image.Image) Crop {
	t.Helper()
	c, err := ReadCrop(bytes.NewReader(pngOf(t, m)), PhotoLimits)
	require.NoError(t, err)
	return c
}

// TestCropAveragesLight: half black, half white is half the light, which is level
// 188 and not 128 (IEC 61966-2-1: 0.5 is encoded as 0.7354).
func TestCropAveragesLight(t *testing.T) {
	c := cropOf(t, halves(60, 60, color.NRGBA{0, 0, 0, 255}, color.NRGBA{255, 255, 255, 255}))
	assert.InDelta(t, 0.5, c.Light[0], 1e-12)
	assert.Equal(t, RGB{188, 188, 188}, c.Light.RGB())
	assert.InDelta(t, 0.5, c.Blown, 1e-12, "the white half")
}

// TestCropTellsUnevenLight: of thirds at 0.2, half of each, and 0.4 of the light the
// mean is 0.3, and the outer ones differ by two thirds of it.
func TestCropTellsUnevenLight(t *testing.T) {
	dark, light := Linear{0.2, 0.2, 0.2}.RGB(), Linear{0.4, 0.4, 0.4}.RGB()
	c := cropOf(t, halves(60, 60, color.NRGBA{dark.R, dark.G, dark.B, 255},
		color.NRGBA{light.R, light.G, light.B, 255}))
	assert.InDelta(t, 2.0/3, c.Uneven, 0.01)
	assert.Zero(t, cropOf(t,
		halves(60, 60, color.NRGBA{90, 80, 70, 255}, color.NRGBA{90, 80, 70, 255})).Uneven)
}

func TestCropRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		file []byte
		want string
	}{
		"too small": {pngOf(t, image.NewNRGBA(image.Rect(0, 0, 23, 100))),
			"the picture is 23 by 100 pixels, less than 24 each way"},
		"nothing": {pngOf(t, image.NewNRGBA(image.Rect(0, 0, 40, 40))),
			"the picture has no opaque pixel"},
		"no picture": {[]byte("wool"), "not a PNG or JPEG picture"},
		"too large":  {bomb(60_000, 60_000), "more than 50000000 in all"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := ReadCrop(bytes.NewReader(c.file), PhotoLimits)
			assert.ErrorContains(t, err, c.want)
		})
	}
}
