package svg

import (
	"bytes"
	"image"
	"image/color"
	"image/png"
	"io"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

// magnifiedImage is the magnifier's drawing, a pixel to each it is meant for.
func magnifiedImage(t testing.TB, p *plan.Plan, at Magnifier) image.Image {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Magnified(&b, p, 0, at))
	whole := box4{0, 0, MagnifiedPixels, MagnifiedPixels}
	img, err := png.Decode(bytes.NewReader(renderedAs(t, b.Bytes(), whole, 1)))
	require.NoError(t, err)
	return img
}

// narrowBlocks is a brief with floats of six ends.
func narrowBlocks(text string) string {
	return regexp.MustCompile(`\[warp\]\nruns = .*`).ReplaceAllString(text,
		"[warp]\nruns = ["+strings.TrimSuffix(strings.Repeat(`"A 3 chalk", "B 3 ink", `, 8), ", ")+"]")
}

// apart is how far two colours differ at most in a channel, of 255.
func apart(a, b color.Color) int {
	r, g, bl, _ := a.RGBA()
	r2, g2, bl2, _ := b.RGBA()
	most := 0
	for _, two := range [][2]uint32{{r, r2}, {g, g2}, {bl, bl2}} {
		most = max(most, int(two[0]>>8)-int(two[1]>>8), int(two[1]>>8)-int(two[0]>>8))
	}
	return most
}

// TestMagnifierMoves: an end farther on, the cloth is the same and lies that
// much farther along, up to the rim of the drawing, floats that reach over it too.
func TestMagnifierMoves(t *testing.T) {
	for name, text := range map[string]string{
		"belt": narrowBlocks(clothBrief("monks-belt", "6/cm", "6/cm", 2)), "halvdrall": clothBrief("halvdrall", "6/cm", "6/cm", 1),
	} {
		t.Run(name, func(t *testing.T) {
			p := planFrom(t, text)
			for _, back := range []bool{false, true} {
				const end, pick, pitch = 24, 60, 15
				one := magnifiedImage(t, p, Magnifier{Column: end, Pick: pick, Back: back})
				next := magnifiedImage(t, p, Magnifier{Column: end + 1, Pick: pick, Back: back})
				differ := 0
				for y := 0; y < MagnifiedPixels; y++ {
					for x := 0; x+pitch < MagnifiedPixels; x++ {
						middle := image.Rect(150-2*pitch, 150-pitch, 150+2*pitch, 150+pitch) // the frames
						if !image.Pt(x, y).In(middle) && apart(one.At(x+pitch, y), next.At(x, y)) > 8 {
							differ++
						}
					}
				}
				assert.Zero(t, differ, "pixels, back %v", back)
			}
		})
	}
}

// TestMagnifierHasRim: beyond the cloth it is dark, and cloth begins in the middle at
// its first end and its first pick.
func TestMagnifierHasRim(t *testing.T) {
	p := worked(t)
	img := magnifiedImage(t, p, Magnifier{})
	dark := palette.RGB{R: 0x1f, G: 0x1f, B: 0x1f}.Hex()
	at := func(x, y int) string {
		r, g, b, _ := img.At(x, y).RGBA()
		return palette.RGB{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}.Hex()
	}
	assert.Equal(t, dark, at(100, 100), "left of the first end")
	assert.Equal(t, dark, at(200, 200), "below the first pick")
	assert.NotEqual(t, dark, at(200, 100))
}

// TestMagnifierSees: all that is drawn is seen through the eyes given, the rim apart.
func TestMagnifierSees(t *testing.T) {
	var b strings.Builder
	red := func(palette.Linear) palette.Linear { return palette.Linear{1, 0, 0} }
	require.NoError(t, Magnified(&b, worked(t), 0, Magnifier{Column: 40, Pick: 300, See: red}))
	inks := map[string]bool{}
	tree(t, []byte(b.String())).walk(func(n *node) {
		if fill := n.Attr["fill"]; fill != "" {
			inks[fill] = true
		}
	})
	for ink := range inks {
		if ink == "none" || ink == string(paper) || ink == string(black) {
			continue
		}
		rgb, err := palette.ParseHex(ink)
		require.NoError(t, err)
		assert.True(t, rgb.R > 200 && rgb.G == 0 && rgb.B == 0, ink)
	}
	assert.Greater(t, len(inks), 2)
}

func TestMagnifierRefuses(t *testing.T) {
	p := worked(t)
	for want, at := range map[string]Magnifier{
		"piece 1 has no end 0 or no pick 1": {Column: -1},
		"piece 1 has no end 1 or no pick 0": {Pick: -1},
	} {
		assert.EqualError(t, Magnified(io.Discard, p, 0, at), want)
	}
	assert.Error(t, Magnified(io.Discard, p, 0, Magnifier{Column: p.Warp.Ends}))
	assert.Error(t, Magnified(io.Discard, p, 0, Magnifier{Pick: p.Pieces[0].Picks}))
	assert.Error(t, Magnified(io.Discard, p, 99, Magnifier{}))
}
