package svg

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"os"
	"os/exec"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// box4 is a rectangle on paper in millimetres: left, top, width, height.
type box4 [4]float64

var paperSize = regexp.MustCompile(`width="[^"]*mm" height="[^"]*mm" viewBox="[^"]*"`)

// rendered is a part of a drawing as an independent renderer paints it, so many
// pixels to a millimetre. Without that renderer the test is skipped, but in CI it
// fails.
func rendered(t testing.TB, drawing []byte, part box4, perMM float64) shown {
	t.Helper()
	return shownIn(t, renderedAs(t, drawing, part, perMM))
}

// renderedAs is the same as a PNG.
func renderedAs(t testing.TB, drawing []byte, part box4, perMM float64) []byte {
	t.Helper()
	renderer, err := exec.LookPath("rsvg-convert")
	if err != nil {
		if os.Getenv("STRIPESONG_CI") != "" {
			require.NoError(t, err)
		}
		t.Skip("no rsvg-convert here")
	}
	size := fmt.Sprintf(`width="%d" height="%d" viewBox="%g %g %g %g"`,
		int(math.Round(part[2]*perMM)), int(math.Round(part[3]*perMM)), part[0], part[1], part[2],
		part[3])
	found := paperSize.FindIndex(drawing)
	require.NotNil(t, found)
	command := exec.Command(renderer)
	command.Stdin = strings.NewReader(string(drawing[:found[0]]) + size +
		string(drawing[found[1]:]))
	out, err := command.Output()
	require.NoError(t, err)
	return out
}

// inside is a rectangle less a pixel on every side, which it may share with its
// neighbour; what has only a few is left as it is.
func inside(r image.Rectangle) image.Rectangle {
	if r.Dx() < 4 || r.Dy() < 4 {
		return r
	}
	return r.Inset(1)
}

// part is a part of what is shown, as it would be by itself.
func (s shown) part(r image.Rectangle) shown {
	one := shown{w: r.Dx(), h: r.Dy(), lines: make([]int, r.Dy()),
		bands: map[[2]int][]palette.Linear{}}
	numbers := map[int]int{}
	for y := range one.lines {
		kind := s.lines[r.Min.Y+y]
		if _, ok := numbers[kind]; !ok {
			numbers[kind] = len(one.kinds)
			one.kinds = append(one.kinds, s.kinds[kind][r.Min.X:r.Max.X+1])
		}
		one.lines[y] = numbers[kind]
	}
	return one
}

// sidesOf are face and back of piece i on its sheet, without their hems, and the
// lower hem of each, as rendered.
func sidesOf(t testing.TB, p *plan.Plan, i int, perMM float64) (bodies, hems [2]shown) {
	var b bytes.Buffer
	require.NoError(t, Piece(&b, p, i))
	f := frames(t, b.Bytes())
	require.Len(t, f, 2)
	all := box4{f[0][0], f[0][1], f[1][0] + f[1][2] - f[0][0], f[0][3]}
	s := rendered(t, b.Bytes(), all, perMM)
	piece := &p.Pieces[i]
	hem := f[0][3] * piece.HemWovenMM / (piece.BodyWovenMM + 2*piece.HemWovenMM +
		2*piece.ShowWovenMM)
	px := func(v float64) int { return min(s.w, int(math.Round(v*perMM))) }
	for side := range bodies {
		left, right := px(f[side][0]-f[0][0]), px(f[side][0]-f[0][0]+f[side][2])
		bodies[side] = s.part(image.Rect(left, px(hem), right, s.h-px(hem)))
		hems[side] = s.part(image.Rect(left, s.h-px(hem), right, s.h))
	}
	return bodies, hems
}

// hemsIn are the hem of a piece over each warp run, in a picture of that hem alone.
func hemsIn(p *plan.Plan, w, h int, back bool) (all []crossed) {
	left := 0
	for _, run := range p.Warp.Runs {
		x0, x1 := left*w/p.Warp.Ends, (left+run.Ends)*w/p.Warp.Ends
		if back {
			x0, x1 = w-x1, w-x0
		}
		all = append(all, crossed{at: image.Rect(x0, 0, x1, h), warp: run, show: true})
		left += run.Ends
	}
	return all
}

// areas are the parts of a rectangle that pattern, warp and ground cover, where they
// are red, green and blue alone, each at a level of its own. A renderer mixes levels
// by area where edges cross a pixel.
func areas(img image.Image, r image.Rectangle, levels [3]uint8) look.Shares {
	var sum [3]float64
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			c := color.NRGBAModel.Convert(img.At(x, y)).(color.NRGBA)
			sum[0] += float64(c.R)
			sum[1] += float64(c.G)
			sum[2] += float64(c.B)
		}
	}
	for ch := range sum {
		sum[ch] /= float64(r.Dx()*r.Dy()) * float64(max(1, levels[ch]))
	}
	return look.Shares{Pattern: sum[0], Warp: sum[1], Ground: sum[2]}
}

// bare is one side of a piece drawn to the thread and nothing else, 2 mm from end to
// end and from ground pick to ground pick, so that the edges of blocks are on the
// grid of any whole number of pixels to a millimetre.
func bare(t testing.TB, p *plan.Plan, back bool) (drawing []byte, of sizes) {
	piece := &p.Pieces[0]
	c, err := clothOf(p, 0)
	require.NoError(t, err)
	unit := um(2*p.Weave.GroundPicks()) * mm
	of = sizes{width: um(2*p.Warp.Ends) * mm, body: um(piece.BodyUnits) * unit,
		hem: um(2*piece.HemPicks) * mm}
	var b bytes.Buffer
	pen := open(&b, of.width, of.whole(), "", "")
	threads := newThreads(pen, p, p.Warp.Ends, of.width)
	threads.draw(0, threads.stack(piece, c.spans, of.whole(), of, back), "")
	require.NoError(t, pen.finish())
	return b.Bytes(), of
}
