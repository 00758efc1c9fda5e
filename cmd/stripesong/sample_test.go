package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wholeBlocks is a cloth of one block across, woven on the face to the middle and
// behind from there on.
const wholeBlocks = `
[set]
pieces = 1
hem    = "2 cm"
[cloth]
structure = "halvdrall"
sett = "8/cm"
ground = "6/cm"
spread = 1.42
scatter = 0.03
[loom]
waste = "70 cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "chalk"
hex  = "#e4dfd2"
[[colour]]
name = "straw"
hex  = "#c2a566"
[[colour]]
name = "night"
hex  = "#2b2f4a"
[warp]
runs = ["A 40 chalk"]
[weft]
ground = "straw"
[[piece]]
name = "half and half"
runs = ["A 60 night", "B 60 night"]
`

// TestLearnedFromItsOwnPicture: the picture of a piece, taken for a photo of it,
// tells the spread and scatter by which it was drawn; --write puts them into a
// brief that has neither, and what was a range is none.
func TestLearnedFromItsOwnPicture(t *testing.T) {
	program, dir := binary(t), t.TempDir()
	run := func(args ...string) string {
		t.Helper()
		cmd := exec.Command(program, args...)
		cmd.Dir = dir
		var aside bytes.Buffer // on a busy machine also what is said of work that takes long
		cmd.Stderr = &aside
		out, err := cmd.Output()
		require.NoError(t, err, "%s", aside.String())
		return string(out)
	}
	put := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666))
	}
	put("true.toml", wholeBlocks)
	run("plan", "true.toml", "--out", "true")
	crop := func(name string, from, to int) {
		savePart(t, filepath.Join(dir, "true", "piece-01-face.png"), filepath.Join(dir, name),
			from, to)
	}
	crop("pattern.png", 55, 95)
	crop("ground.png", 5, 45)
	for name, c := range map[string]color.NRGBA{"chalk": {0xe4, 0xdf, 0xd2, 255},
		"straw": {0xc2, 0xa5, 0x66, 255}, "night": {0x2b, 0x2f, 0x4a, 255}} {
		card := image.NewNRGBA(image.Rect(0, 0, 60, 60))
		draw.Draw(card, card.Bounds(), image.NewUniform(c), image.Point{}, draw.Src)
		savePNG(t, filepath.Join(dir, name+".png"), card)
	}
	put("measured.toml", `[sample]
pattern_area = "pattern.png"
ground_area  = "ground.png"
wraps = { chalk = "chalk.png", straw = "straw.png", night = "night.png" }
`)
	put("unsure.toml", strings.Replace(wholeBlocks, "spread = 1.42\nscatter = 0.03\n", "", 1))

	out := run("calibrate", "unsure.toml", "measured.toml", "--write")
	assert.Contains(t, out, "the photo: pattern area #")
	var p struct {
		Pieces []struct{ Contrast []struct{ Range []float64 } }
	}
	require.NoError(t, json.Unmarshal([]byte(run("plan", "unsure.toml", "--json")), &p))
	assert.Nil(t, p.Pieces[0].Contrast[0].Range)
	written, err := os.ReadFile(filepath.Join(dir, "unsure.toml"))
	require.NoError(t, err)
	assert.Regexp(t, `(?m)^spread *= 1\.4[123]$`, string(written))
	assert.Regexp(t, `(?m)^scatter *= 0\.03[01]?`, string(written))
}

// savePart keeps a part of a picture's height, in hundredths.
func savePart(t *testing.T, from, to string, top, bottom int) {
	t.Helper()
	f, err := os.Open(from)
	require.NoError(t, err)
	defer f.Close()
	whole, err := png.Decode(f)
	require.NoError(t, err)
	b := whole.Bounds()
	part := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()*(bottom-top)/100))
	draw.Draw(part, part.Bounds(), whole, image.Pt(b.Min.X, b.Min.Y+b.Dy()*top/100), draw.Src)
	savePNG(t, to, part)
}

func savePNG(t *testing.T, name string, m image.Image) {
	t.Helper()
	f, err := os.Create(name)
	require.NoError(t, err)
	require.NoError(t, png.Encode(f, m))
	require.NoError(t, f.Close())
}
