package svg

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

// shown is a picture read back as light.
type shown struct {
	w, h  int
	kinds [][]palette.Linear          // the different lines: of each, w + 1 sums from the left
	lines []int                       // which of them each line is
	bands map[[2]int][]palette.Linear // the mean of some lines, as sums from the left
}

// band is the mean of the lines from one to before another, as sums from the left.
func (s shown) band(from, to int) []palette.Linear {
	if band, ok := s.bands[[2]int{from, to}]; ok {
		return band
	}
	parts := make([]float64, len(s.kinds))
	for _, kind := range s.lines[from:to] {
		parts[kind] += 1 / float64(to-from)
	}
	band := make([]palette.Linear, s.w+1)
	for kind, part := range parts {
		if part == 0 {
			continue
		}
		for x, light := range s.kinds[kind] {
			band[x] = plusLight(band[x], part, light)
		}
	}
	s.bands[[2]int{from, to}] = band
	return band
}

// mean is the mean light of a rectangle.
func (s shown) mean(r image.Rectangle) (mean palette.Linear) {
	band, part := s.band(r.Min.Y, r.Max.Y), 1/float64(r.Dx())
	return plusLight(plusLight(mean, part, band[r.Max.X]), -part, band[r.Min.X])
}

// seenAcross is what is seen of a rectangle from a distance at which nothing finer
// than some pixels can be told, from its left to its right, four places to as many
// pixels.
func (s shown) seenAcross(r image.Rectangle, finest float64) (seen []palette.Linear) {
	band := s.band(r.Min.Y, r.Max.Y)
	reach := int(finest)
	weights, all := make([]float64, 2*reach+1), 0.0
	for i := range weights {
		weights[i] = 1 + math.Cos(math.Pi*float64(i-reach)/finest)
		all += weights[i]
	}
	for x := r.Min.X; x+len(weights) <= r.Max.X; x += max(1, reach/4) {
		var light palette.Linear
		for i, weight := range weights {
			light = plusLight(light, weight/all, band[x+i+1])
			light = plusLight(light, -weight/all, band[x+i])
		}
		seen = append(seen, light)
	}
	return seen
}

func shownIn(t testing.TB, data []byte) shown {
	img, err := png.Decode(bytes.NewReader(data))
	require.NoError(t, err)
	s := shown{w: img.Bounds().Dx(), h: img.Bounds().Dy(), bands: map[[2]int][]palette.Linear{}}
	known := map[string]int{}
	for y := range s.h {
		bytes := lineOf(t, img, y)
		kind, ok := known[bytes]
		if !ok {
			kind = len(s.kinds)
			known[bytes] = kind
			s.kinds = append(s.kinds, sumsOf(img, y))
		}
		s.lines = append(s.lines, kind)
	}
	return s
}

// sumsOf is a line of a picture as sums of light from the left.
func sumsOf(img image.Image, y int) []palette.Linear {
	sums := make([]palette.Linear, img.Bounds().Dx()+1)
	var last color.Color
	var light palette.Linear
	for x := range len(sums) - 1 {
		if at := img.At(x, y); at != last {
			c := color.NRGBAModel.Convert(at).(color.NRGBA)
			last, light = at, palette.RGB{R: c.R, G: c.G, B: c.B}.Linear()
		}
		sums[x+1] = plusLight(sums[x], 1, light)
	}
	return sums
}

// lineOf is a line of a picture as it is held in memory.
func lineOf(t testing.TB, img image.Image, y int) string {
	switch img := img.(type) {
	case *image.Paletted:
		return string(img.Pix[y*img.Stride : (y+1)*img.Stride])
	case *image.RGBA:
		return string(img.Pix[y*img.Stride : (y+1)*img.Stride])
	case *image.NRGBA:
		return string(img.Pix[y*img.Stride : (y+1)*img.Stride])
	}
	require.Failf(t, "another kind of picture", "%T", img)
	return ""
}

func pictureOf(t testing.TB, p *plan.Plan, i int, back bool) shown {
	var b bytes.Buffer
	require.NoError(t, Picture(&b, p, i, back))
	return shownIn(t, b.Bytes())
}

// crossed is a rectangle of pixels in which one weft run crosses one warp run; or
// plain that stays in sight, which has no weft run.
type crossed struct {
	at   image.Rectangle
	warp plan.WarpRun
	weft plan.WeftRun
	show bool
}

// mix is the plan's mixed colour of it.
func (c crossed) mix(s *plan.Shades, piece *plan.Piece, back bool) *plan.Mix {
	if c.show {
		return s.Hem(c.warp.Colour, piece.Hem)
	}
	return s.Body(c.warp, c.weft, back)
}

// blocksIn divides a picture of a piece evenly among its ends and by the finished
// length of what is woven, on its own: the warp mirrored on the back, the first weft
// run at the foot, the plain that stays in sight at both ends.
func blocksIn(p *plan.Plan, i, w, h int, back bool) (all []crossed) {
	piece := p.Pieces[i]
	show := crossed{show: true}
	weft := []crossed{show}
	mm := []float64{piece.ShowWovenMM}
	for _, run := range piece.Runs {
		weft = append(weft, crossed{weft: run})
		mm = append(mm, float64(run.Units)*piece.BodyWovenMM/float64(piece.BodyUnits))
	}
	weft, mm = append(weft, show), append(mm, piece.ShowWovenMM)
	whole := piece.BodyWovenMM + 2*piece.ShowWovenMM
	part := func(n, of float64, length int) int { return int(math.Round(n / of * float64(length))) }
	below := 0.0
	for k, row := range weft {
		y0, y1 := h-part(below+mm[k], whole, h), h-part(below, whole, h)
		below += mm[k]
		if y0 == y1 {
			continue
		}
		left := 0
		for _, warp := range p.Warp.Runs {
			x0, x1 := part(float64(left), float64(p.Warp.Ends), w),
				part(float64(left+warp.Ends), float64(p.Warp.Ends), w)
			left += warp.Ends
			if back {
				x0, x1 = w-x1, w-x0
			}
			row.at, row.warp = image.Rect(x0, y0, x1, y1), warp
			all = append(all, row)
		}
	}
	return all
}

// TestPicture reads both sides of a few pieces of every cloth back.
func TestPicture(t *testing.T) {
	for name, p := range cloths(t) {
		for i := range min(len(p.Pieces), 2) {
			for side, back := range []bool{false, true} {
				if !everything() && side != i%2 {
					continue
				}
				t.Run(fmt.Sprintf("%s %d %s", name, i+1, sideName(back)), func(t *testing.T) {
					t.Parallel()
					s := pictureOf(t, p, i, back)
					t.Run("holds the mixed colours", func(t *testing.T) {
						holdsMixed(t, p, i, back, s)
					})
					t.Run("leaves no moiré", func(t *testing.T) { leavesNoMoire(t, p, i, back, s) })
				})
			}
		}
	}
}

// holdsMixed: the average of every block is the plan's mixed colour.
func holdsMixed(t *testing.T, p *plan.Plan, i int, back bool, s shown) {
	shades := p.Shades()
	for _, b := range blocksIn(p, i, s.w, s.h, back) {
		mix := b.mix(shades, &p.Pieces[i], back)
		d := palette.DeltaE00(s.mean(b.at).Lab(), labOf(mix.Lab))
		if !assert.LessOrEqual(t, d, 1.0, "%v for %v: %v", b, mix.RGB.Hex(),
			s.mean(b.at).RGB().Hex()) {
			return
		}
	}
}

// leavesNoMoire: from where threads can't be told apart a block is even,
// however the threads fall on the pixels: taking the thread in the middle of each
// pixel makes differences of more than dE00 2.
func leavesNoMoire(t *testing.T, p *plan.Plan, i int, back bool, s shown) {
	worst := 0.0
	for _, b := range blocksIn(p, i, s.w, s.h, back) {
		b.at.Min.X++ // where a unit is narrower than four pixels, runs may share one
		b.at.Max.X--
		unit := float64(b.at.Dx()) / float64(b.warp.Units)
		seen := s.seenAcross(b.at, 2*unit)
		for _, light := range seen {
			worst = max(worst, palette.DeltaE00(seen[0].Lab(), light.Lab()))
		}
	}
	assert.LessOrEqual(t, worst, 0.7)
}

func labOf(v [3]float64) palette.Lab { return palette.Lab{L: v[0], A: v[1], B: v[2]} }

// TestPictureProportions: true to half a pixel, at least 1200 long, and no more pixels than
// can be looked at though the piece has a million threads. By hand for the first below: two
// and a half pixels to each of 432 ends are 1080 across and 1540 long, 5.4 lines to each of
// 286 units, so 6: 1716 long, 1203 across.
func TestPictureProportions(t *testing.T) {
	for name, p := range cloths(t) {
		for i := range p.Pieces {
			px := pixelsOf(p, &p.Pieces[i])
			assert.GreaterOrEqual(t, px.height, 1200, name)
			width := float64(px.height) * p.Warp.FinishedWidthMM / p.Pieces[i].FinishedMM
			assert.InDelta(t, width, px.width, 0.51, name)
		}
	}
	for _, c := range []struct {
		width, length float64 // mm
		ends, units   int
		want          pixels
	}{
		{462, 659, 432, 286, pixels{1203, 1716, 6, 0}},
		{80, 80, 40, 20, pixels{1200, 1200, 60, 0}},
		{400, 2000, 400, 1000, pixels{800, 4000, 4, 0}},
		{1500, 20_000, 40_000, 10_000, pixels{750, 10_000, 1, 0}},
		{50_000, 300, 40_000, 150, pixels{50_000, 300, 2, 0}},
		{50_000, 20_000, 40_000, 10_000, pixels{6323, 2529, 0, 0}},
	} {
		piece := plan.Piece{FinishedMM: c.length, Runs: []plan.WeftRun{{Units: c.units}}}
		p := &plan.Plan{Warp: plan.Warp{FinishedWidthMM: c.width, Ends: c.ends}}
		assert.Equal(t, c.want, pixelsOf(p, &piece))
	}
}

func BenchmarkPicture(b *testing.B) {
	p := planOf(b, "../examples/orchard-kitchen/brief.toml")
	for b.Loop() {
		for i := range p.Pieces {
			if err := Picture(io.Discard, p, i, false); err != nil {
				b.Fatal(err)
			}
		}
	}
}

// BenchmarkPictureBare packs the same pictures with the standard encoder.
func BenchmarkPictureBare(b *testing.B) {
	p := planOf(b, "../examples/orchard-kitchen/brief.toml")
	var images []image.Image
	for i := range p.Pieces {
		var buffer bytes.Buffer
		require.NoError(b, Picture(&buffer, p, i, false))
		img, err := png.Decode(&buffer)
		require.NoError(b, err)
		images = append(images, img)
	}
	encoder := &png.Encoder{CompressionLevel: png.BestSpeed}
	for b.Loop() {
		for _, img := range images {
			if err := encoder.Encode(io.Discard, img); err != nil {
				b.Fatal(err)
			}
		}
	}
}
