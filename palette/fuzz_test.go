package palette

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
)

// smallLimits keep a fuzzed picture small.
var smallLimits = Limits{Bytes: 1 << 16, Pixels: 1 << 14}

// pictures are small ones of every kind the decoders know.
func pictures(f *testing.F) [][]byte {
	f.Helper()
	at := image.Rect(0, 0, 9, 5)
	all := []image.Image{image.NewGray(at), image.NewNRGBA(at), image.NewRGBA64(at),
		image.NewPaletted(at, color.Palette{color.Black, color.White, color.Transparent}),
		image.NewGray16(at)}
	var files [][]byte
	for i, picture := range all {
		if p, ok := picture.(interface{ Set(x, y int, c color.Color) }); ok {
			for n := range 20 {
				p.Set(n%9, n%5, color.NRGBA{uint8(40 * n), uint8(90 * i), 7, 255})
			}
		}
		var asPNG, asJPEG bytes.Buffer
		require.NoError(f, png.Encode(&asPNG, picture))
		require.NoError(f, jpeg.Encode(&asJPEG, picture, &jpeg.Options{Quality: 50 + 10*i}))
		files = append(files, asPNG.Bytes(), asJPEG.Bytes(), asPNG.Bytes()[:asPNG.Len()/2],
			asJPEG.Bytes()[:asJPEG.Len()-9])
	}
	return files
}

// FuzzPhoto takes any bytes for a photograph: it is refused, or its colours are
// counted, each in its own bin and no more of them than the picture has pixels.
func FuzzPhoto(f *testing.F) {
	for _, file := range pictures(f) {
		f.Add(file)
	}
	f.Fuzz(func(t *testing.T, file []byte) {
		samples, err := ReadPhoto(bytes.NewReader(file), smallLimits)
		if err != nil {
			require.Nil(t, samples)
			return
		}
		require.NotEmpty(t, samples)
		config, _, err := image.DecodeConfig(bytes.NewReader(file))
		require.NoError(t, err)
		var n int64
		last := -1
		for _, s := range samples {
			require.Positive(t, s.Count)
			n += s.Count
			bin := int(s.Colour.R>>3)<<10 | int(s.Colour.G>>3)<<5 | int(s.Colour.B>>3)
			require.Greater(t, bin, last, "in the order of bins")
			last = bin
		}
		require.LessOrEqual(t, n, int64(config.Width)*int64(config.Height))
		require.LessOrEqual(t, n, smallLimits.Pixels)
	})
}
