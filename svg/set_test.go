package svg

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// counts is how many pieces a sheet is tried with.
var counts = []int{1, 2, 3, 6, 8, 12, 24, 60}

// standingPiece is a piece on the sheet of a set, in millimetres.
type standingPiece struct {
	box   [4]float64 // x, y, width and height
	reach float64    // of the corner that is turned over, along both edges
}

func (p standingPiece) foot() float64 { return p.box[1] + p.box[3] }

// onSheet finds the pieces on the sheet of a set: outlines of five corners.
func onSheet(t testing.TB, text []byte) (found []standingPiece) {
	tree(t, text).walk(func(n *node) {
		if strings.Count(n.Attr["d"], "L") != 4 || n.Attr["fill"] != "none" {
			return
		}
		var x, y, right, fold, foot, other float64
		_, err := fmt.Sscanf(n.Attr["d"], "M%f %fL%f %fL%f %fL%f %fL%f %fz",
			&x, &y, &right, &other, &right, &fold, &other, &foot, &x, &foot)
		require.NoError(t, err)
		require.InDelta(t, right-other, foot-fold, 0.0005, "a fold at half a right angle")
		found = append(found, standingPiece{[4]float64{x, y, right - x, foot - y}, foot - fold})
	})
	return found
}

// setOf is the sheet of a set and the pieces on it.
func setOf(t testing.TB, p *plan.Plan) ([]byte, []standingPiece) {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Set(&b, p))
	found := onSheet(t, b.Bytes())
	require.Len(t, found, len(p.Pieces))
	return b.Bytes(), found
}

// sets is the corners of the job, and sets of every size.
func sets(t testing.TB) map[string]*plan.Plan {
	all := corners(t)
	for _, n := range counts {
		all[fmt.Sprintf("many %d", n)] = many(t, n)
	}
	all["built in"] = planFrom(t, string(brief.Default()))
	return all
}

// All pieces of a set are at one true scale, none larger than life.
func TestSetIsAtOneTrueScale(t *testing.T) {
	for name, p := range sets(t) {
		_, all := setOf(t, p)
		for i, piece := range all {
			cloth := p.Pieces[i].FinishedMM / p.Warp.FinishedWidthMM
			assert.InDelta(t, cloth*piece.box[2], piece.box[3], 0.002, "%s piece %d", name, i+1)
			assert.InDelta(t, all[0].box[2], piece.box[2], 0.0005, "one width")
			assert.LessOrEqual(t, piece.box[2], p.Warp.FinishedWidthMM+0.001, name)
			assert.InDelta(t, all[0].reach, piece.reach, 0.0005, "one corner")
			assert.LessOrEqual(t, piece.reach, piece.box[2]/4+0.001, name)
		}
	}
}

// In reading order: every piece is to the right of the one before, on one line
// with it, or begins a new row below all of the row above.
func TestReadingOrder(t *testing.T) {
	for name, p := range sets(t) {
		text, all := setOf(t, p)
		lowest := 0.0
		for i, here := range all {
			switch {
			case i > 0 && here.box[0] > all[0].box[0]:
				assert.Greater(t, here.box[0], all[i-1].box[0]+all[i-1].box[2], name)
				assert.InDelta(t, all[i-1].foot(), here.foot(), 0.0005, "%s: on one line", name)
			default:
				assert.InDelta(t, all[0].box[0], here.box[0], 0.0005, name)
				assert.Greater(t, here.box[1], lowest, name)
			}
			lowest = max(lowest, here.foot())
			assert.True(t, under(boxes(t, text), here, fmt.Sprint(i+1)), "%s: number %d", name, i+1)
		}
	}
}

// under tells whether a text that begins so stands close under a piece.
func under(texts []box, piece standingPiece, begins string) bool {
	for _, b := range texts {
		near := b.x0 == piece.box[0] && b.y0 > piece.foot() && b.y0 < piece.foot()+3
		if near && strings.HasPrefix(b.text, begins+" ") {
			return true
		}
	}
	return false
}

// The stripes of the warp stand over every column, as wide as its pieces, each
// stripe over its own cloth.
func TestStripesStandOverTheCloth(t *testing.T) {
	for name, p := range sets(t) {
		text, all := setOf(t, p)
		columns := 0
		tree(t, text).walk(func(n *node) {
			if n.Attr["stroke-width"] != "0.101" {
				return
			}
			var x, y, w, h float64
			_, err := fmt.Sscanf(n.Attr["d"], "M%f %fh%fv%f", &x, &y, &w, &h)
			require.NoError(t, err)
			assert.InDelta(t, all[columns].box[0], x, 0.0005, name)
			assert.InDelta(t, all[columns].box[2], w, 0.0005, name)
			assert.Less(t, y+h, all[columns].box[1], name)
			columns++
		})
		inRow := 0
		for _, piece := range all {
			if piece.foot() == all[0].foot() {
				inRow++
			}
		}
		assert.Equal(t, inRow, columns, name)
	}
}

// The pieces of the built-in brief take at least 45 % of the sheet (a judgement).
func TestTheClothIsTheSheet(t *testing.T) {
	_, all := setOf(t, planFrom(t, string(brief.Default())))
	area := 0.0
	for _, piece := range all {
		area += piece.box[2]*piece.box[3] - piece.reach*piece.reach/2
	}
	assert.GreaterOrEqual(t, area, 0.45*267*200)
}

// Under every piece of many stand its name, its size, its grade and which side is
// the lighter, where there is room for all of them.
func TestWhatIsSaidOfAPiece(t *testing.T) {
	text, _ := setOf(t, many(t, 6))
	for _, want := range []string{"1 end", "2 a long name end", "47.0 × 56.3 cm", "faint at 2 m",
		"back lighter, unseen to faint 2.4", "All together: back lighter,"} {
		assert.True(t, bytes.Contains(text, []byte(want)), want)
	}
	p := many(t, 6)
	for i := range p.Pieces {
		p.Pieces[i].Lighter = nil
	}
	p.Set.Lighter = nil
	text, _ = setOf(t, p)
	assert.False(t, bytes.Contains(text, []byte("back lighter")))
}

// pixelsOfSheet draws a sheet at a dozen pixels to the millimetre, and gives the colour
// at a place.
func pixelsOfSheet(t *testing.T, text []byte) func(x, y float64) string {
	t.Helper()
	renderer, err := exec.LookPath("rsvg-convert")
	if err != nil {
		if os.Getenv("STRIPESONG_CI") == "1" {
			t.Fatal("no rsvg-convert here")
		}
		t.Skip("no rsvg-convert here")
	}
	const perMM = 12
	command := exec.Command(renderer, "-w", fmt.Sprint(267*perMM), "-h", fmt.Sprint(200*perMM))
	command.Stdin = bytes.NewReader(text)
	out, err := command.Output()
	require.NoError(t, err)
	img, err := png.Decode(bytes.NewReader(out))
	require.NoError(t, err)
	require.Equal(t, image.Rect(0, 0, 267*perMM, 200*perMM), img.Bounds())
	return func(x, y float64) string {
		c := color.NRGBAModel.Convert(img.At(int(x*perMM), int(y*perMM))).(color.NRGBA)
		return palette.RGB{R: c.R, G: c.G, B: c.B}.Hex()
	}
}

// A corner turned over shows the back of the cloth that lies mirrored across the
// fold; what it lay on is bare, and the rest is the face.
func TestTurnedCorner(t *testing.T) {
	p := sample{title: "t", units: "cm", structure: "halvdrall", colours: shelf[:8], sett: 4,
		warp:  warpOf("A", 20, "chalk", "B", 4, "slate", "A", 3, "buoy", "B", 3, "moss"),
		names: []string{"one"},
		runs: [][]plan.WeftRun{
			weftOf("A", 3, "rowan", "B", 4, "deep water", "A", 5, "lichen", "B", 40, "cloudberry")},
		ground: []string{"chalk"}}.make(t)
	text, all := setOf(t, p)
	at := pixelsOfSheet(t, text)
	piece, shades := all[0], p.Shades()
	right, foot := piece.box[0]+piece.box[2], piece.foot()
	const step, clear = 0.73, 0.3 // no point so near to an edge of stripes or folds
	seen := map[string]bool{}
	for a := step / 2; a < piece.reach; a += step {
		for b := step / 2; b < piece.reach; b += step { // from the right edge, from the foot
			warp := warpAt(p, piece.box[2]-a, piece.box[2], clear)
			runs := weftAt(p, b, piece.box[3], clear)
			if warp == nil || runs == nil {
				continue
			}
			switch {
			case a+b < piece.reach-2*clear: // turned over: seen at its mirror image
				assert.Equal(t, "#ffffff", at(right-a, foot-b), "bare")
				want := shades.Body(*warp, *runs, true).RGB.Hex()
				seen[want] = true
				assert.Equal(t, want, at(right-piece.reach+b, foot-piece.reach+a), "%v %v", a, b)
			case a > piece.reach+clear || b > piece.reach+clear:
				assert.Equal(t, shades.Body(*warp, *runs, false).RGB.Hex(), at(right-a, foot-b))
			}
		}
	}
	assert.Greater(t, len(seen), 5)
}

// warpAt is the warp stripe some way from the left of a piece that is w wide; nil
// near an edge of it.
func warpAt(p *plan.Plan, x, w, clear float64) *plan.WarpRun {
	from := 0.0
	for i, run := range p.Warp.Runs {
		to := from + w*float64(run.Ends)/float64(p.Warp.Ends)
		if x > from+clear && x < to-clear {
			return &p.Warp.Runs[i]
		}
		from = to
	}
	return nil
}

// weftAt is the weft run some way up the first piece, h high; nil near an edge of it.
func weftAt(p *plan.Plan, y, h, clear float64) *plan.WeftRun {
	from := 0.0
	for i, run := range p.Pieces[0].Runs {
		to := from + h*float64(run.Units)/float64(p.Pieces[0].BodyUnits)
		if y > from+clear && y < to-clear {
			return &p.Pieces[0].Runs[i]
		}
		from = to
	}
	return nil
}

// Where a hem is turned under, its edge is seen at both ends of the face, and the
// hem itself on the corner of the back.
func TestHemsAreSeen(t *testing.T) {
	p := planFrom(t, string(brief.Default()))
	text, all := setOf(t, p)
	at := pixelsOfSheet(t, text)
	piece := all[0]
	hem := p.Shades().Hem("oat", "oat thread").RGB.Hex()
	x := piece.box[0] + piece.box[2]*0.1
	assert.Equal(t, hem, at(x, piece.box[1]+0.3))
	assert.Equal(t, hem, at(x, piece.foot()-0.3))
	assert.NotEqual(t, hem, at(x, piece.foot()-1))
	corner := piece.box[0] + piece.box[2] - piece.reach
	assert.Equal(t, hem, at(corner+0.4, piece.foot()-piece.reach+2))
	deep := p.Pieces[0].HemWovenMM * (1 - p.Cloth.ShrinkLength) * 0.6
	deep *= piece.box[2] / p.Warp.FinishedWidthMM
	assert.Equal(t, hem, at(corner+deep-0.2, piece.foot()-piece.reach+2))
	assert.NotEqual(t, hem, at(corner+deep+0.2, piece.foot()-piece.reach+2))
}
