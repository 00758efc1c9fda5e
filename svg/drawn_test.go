package svg

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// smaller makes the cloth of a brief so small that its sheet is drawn to the thread.
func smaller(text string) string {
	text = regexp.MustCompile(`\[warp\]\nruns = .*`).ReplaceAllString(text,
		"[warp]\nruns = [\"A 2 chalk\", \"B 2 marigold\", \"A 1 ink\", \"B 1 chalk\"]")
	text = regexp.MustCompile(`name = "one"\nruns = .*`).ReplaceAllString(text,
		"name = \"one\"\nruns = [\"A 2 moss\", \"plain 1\", \"B 2 ink\", \"A 1 moss\"]")
	return regexp.MustCompile(`hem = "3 cm"`).ReplaceAllString(text, `hem = "1 cm"`)
}

// smallCloths are small pieces of every structure with few and many strands, in a
// medium and a close beat.
func smallCloths() map[string]string {
	all := map[string]string{}
	for name, structure := range map[string]string{
		"halvdrall": "halvdrall", "summer": "summer-and-winter", "belt": "monks-belt",
		"uneven": uneven, "doubled": doubled,
	} {
		if !everything() && (name == "doubled" || name == "summer") {
			continue
		}
		all[name+", two strands"] = smaller(clothBrief(structure, "6/cm", "6/cm", 2))
		all[name+", close"] = smaller(clothBrief(structure, "8/cm", "10/cm", 1))
	}
	return all
}

// painted is a brief with pattern weft in pure red, a pure green warp, and ground and
// hems in pure blue.
func painted(text string) string {
	for name, hex := range map[string]string{"moss": "#ff0000", "marigold": "#00ff00",
		"ink": "#0000ff"} {
		text = regexp.MustCompile(`name = "`+name+`"\nhex = "[^"]*"`).
			ReplaceAllString(text, `name = "`+name+`"`+"\n"+`hex = "`+hex+`"`)
	}
	text = regexp.MustCompile(`\[warp\]\nruns = .*`).ReplaceAllString(text,
		"[warp]\nruns = [\"A 2 marigold\", \"B 3 marigold\", \"A 1 marigold\"]")
	text = regexp.MustCompile(`ground = "chalk"`).ReplaceAllString(text, `ground = "ink"`)
	return regexp.MustCompile(`name = "one"\nruns = .*`).ReplaceAllString(text,
		"name = \"one\"\nruns = [\"A 2 moss\", \"plain 1\", \"B 3 moss\"]")
}

// TestThreadsCoverTheirShares: of a drawing to the thread, each yarn covers what the
// model says before any light is mixed, so that no wrong drawing passes by having its
// colours brought into line.
func TestThreadsCoverTheirShares(t *testing.T) {
	for name, text := range smallCloths() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			p := planFrom(t, painted(text))
			const perMM = 6
			for _, back := range []bool{false, true} {
				drawing, of := bare(t, p, back)
				whole := box4{0, 0, float64(of.width) / 1000, float64(of.whole()) / 1000}
				img, err := png.Decode(bytes.NewReader(renderedAs(t, drawing, whole, perMM)))
				require.NoError(t, err)
				w, hem, body := int(of.width)*perMM/1000, int(of.hem)*perMM/1000,
					int(of.body)*perMM/1000
				blocks := hemsIn(p, w, hem, back)
				for _, b := range blocksIn(p, 0, w, body, back) {
					b.at = b.at.Add(image.Pt(0, hem))
					blocks = append(blocks, b)
				}
				for _, b := range blocks {
					alikeAreas(t, sharesOf(p, b, back), areas(img, b.at, levels(p, b, back)),
						fmt.Sprint(sideName(back), b))
				}
			}
		})
	}
}

// levels are those of the red of the pattern, the green of the warp and the blue of
// the ground as a block is drawn.
func levels(p *plan.Plan, b crossed, back bool) (all [3]uint8) {
	drawn, ok := p.Shades().BodyDrawn(b.warp, b.weft, back)
	if b.show {
		drawn, ok = p.Shades().HemDrawn(b.warp.Colour, p.Pieces[0].Hem)
	}
	if ok {
		all[0] = drawn.Light[look.PatternYarn].RGB().R
		all[1] = drawn.Light[look.WarpYarn].RGB().G
		all[2] = drawn.Light[look.GroundYarn].RGB().B
	}
	return all
}

func alikeAreas(t *testing.T, want, got look.Shares, what string) {
	t.Helper()
	const off = 0.02
	assert.InDelta(t, want.Pattern, got.Pattern, off, "pattern, %s", what)
	assert.InDelta(t, want.Warp, got.Warp, off, "warp, %s", what)
	assert.InDelta(t, want.Ground, got.Ground, off, "ground, %s", what)
}

// sharesOf is the model's shares of a block, from the widths in the plan.
func sharesOf(p *plan.Plan, b crossed, back bool) look.Shares {
	widths := map[string]plan.Widths{}
	for _, c := range p.Colours {
		widths[c.Name] = c.Widths
	}
	w := look.Widths{Warp: widths[b.warp.Colour].Warp}
	switch {
	case b.show:
		w.Ground = widths[p.Pieces[0].Hem].Hem
		return w.Plain()
	case b.weft.Block == "":
		w.Ground = widths[b.weft.Ground].Ground
		return w.Plain()
	}
	w.Ground, w.Pattern = widths[b.weft.Ground].Ground, widths[b.weft.Pattern].Pattern
	return w.Patch(look.Phi(p.Weave, b.weft.Block, b.warp.Block, back))
}

// TestSheetsHoldTheMixedColours: every block of every side on the sheet of a piece
// averages to the plan's mixed colour, filled with it or drawn to the thread.
func TestSheetsHoldTheMixedColours(t *testing.T) {
	threads := 0
	for name, c := range drawnPlans(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			bodies, hems := sidesOf(t, c.plan, 0, c.perMM)
			shades := c.plan.Shades()
			for side, back := range []bool{false, true} {
				for _, b := range blocksIn(c.plan, 0, bodies[side].w, bodies[side].h, back) {
					averages(t, bodies[side], inside(b.at), b.mix(shades, &c.plan.Pieces[0], back),
						2, fmt.Sprint(sideName(back), b))
				}
				for _, b := range hemsIn(c.plan, hems[side].w, hems[side].h, back) {
					averages(t, hems[side], inside(b.at), b.mix(shades, &c.plan.Pieces[0], back), 2,
						fmt.Sprint(sideName(back), " hem ", b))
				}
			}
		})
		if c.threads {
			threads++
		}
	}
	assert.GreaterOrEqual(t, threads, 3)
}

// averages: a rectangle of what is shown averages to a mixed colour.
func averages(t *testing.T, s shown, r image.Rectangle, mix *plan.Mix, most float64, what string) {
	t.Helper()
	require.NotNil(t, mix, what)
	require.False(t, r.Empty(), what)
	d := palette.DeltaE00(s.mean(r).Lab(), labOf(mix.Lab))
	assert.LessOrEqual(t, d, most, "%s: %s for %s", what, s.mean(r).RGB().Hex(), mix.RGB.Hex())
}

type drawnPlan struct {
	plan    *plan.Plan
	perMM   float64
	threads bool
}

// drawnPlans are large pieces, filled with mixed colours, and small ones, drawn to the
// thread.
func drawnPlans(t testing.TB) map[string]drawnPlan {
	all := map[string]drawnPlan{}
	for _, name := range []string{"worked", "orchard-kitchen", "mill-race", "in sight",
		"uneven[8/cm 8/cm]2"} {
		if p := cloths(t)[name]; p != nil {
			all[name] = drawnPlan{p, 8, false}
		}
	}
	for name, text := range smallCloths() {
		if strings.HasSuffix(name, "strands") {
			all[name] = drawnPlan{planFrom(t, text), 12, true}
		}
	}
	return all
}

// TestThreadsAreDrawnWhereTheyAreThickEnough: from four pixels of a screen on, 96 to
// the inch: 4 x 25.4/96 = 1.0583 mm. Below that blocks have one colour.
func TestThreadsAreDrawnWhereTheyAreThickEnough(t *testing.T) {
	p := coasters(t) // 48 ends; pattern and ground picks cover half of their room
	pen := open(&bytes.Buffer{}, mm, mm, "", "")
	threads := newThreads(pen, p, 48, 100*mm)
	piece := &p.Pieces[0]
	size := func(end um, unit um) sizes { return sizes{width: 48 * end, body: 30 * unit} }
	piece.HemPicks = 0
	assert.True(t, threads.shows(piece, size(1058, 4*1058)))
	assert.False(t, threads.shows(piece, size(1057, 4*1058)), "ends")
	assert.False(t, threads.shows(piece, size(1058, 4*1057)), "picks")
	for name, c := range drawnPlans(t) {
		var b bytes.Buffer
		require.NoError(t, Piece(&b, c.plan, 0))
		assert.Equal(t, c.threads, bytes.Contains(b.Bytes(), []byte("face, to the thread")), name)
	}
}

// TestEnlargedHoldsTheMixedColours: so does the enlarged part, edges and all, over hems
// and over each of its weft units.
func TestEnlargedHoldsTheMixedColours(t *testing.T) {
	plans := map[string]*plan.Plan{"white": oneColour(t), "worked": worked(t)}
	for name, text := range smallCloths() {
		plans[name] = planFrom(t, text)
	}
	for name, p := range plans {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			var b bytes.Buffer
			require.NoError(t, Piece(&b, p, 0))
			c, err := clothOf(p, 0)
			require.NoError(t, err)
			part := (&pieceSheet{pieceCloth: pieceCloth{p, &p.Pieces[0], c}}).enlarge()
			left := float64(pieceWidth-edge-sideColumn+detailLeft) / 1000
			height := um(0)
			for _, strip := range part.strips {
				height += strip.h
			}
			const perMM = 20
			s := rendered(t, b.Bytes(),
				box4{left, float64(detailTop) / 1000, float64(part.width()) / 1000,
					float64(height) / 1000}, perMM)
			foot := float64(s.h)
			for _, strip := range pairsOfHem(part.strips) {
				top := foot - float64(strip.h)*perMM/1000
				at := 0
				for _, run := range p.Warp.Runs {
					from, past := max(at, part.from), min(at+run.Ends, part.past)
					at += run.Ends
					if from >= past {
						continue
					}
					x0 := float64((from-part.from)*int(part.pitch)) * perMM / 1000
					x1 := float64((past-part.from)*int(part.pitch)) * perMM / 1000
					r := image.Rect(int(math.Round(x0)), int(math.Round(top)), int(math.Round(x1)),
						int(math.Round(foot)))
					mix := p.Shades().Body(run, strip.weft(), false)
					if strip.hem {
						mix = p.Shades().Hem(run.Colour, strip.ground)
					}
					averages(t, s, r, mix, 2, fmt.Sprint(strip, run))
				}
				foot = top
			}
		})
	}
}

// pairsOfHem joins every two picks of a hem, which only together are even.
func pairsOfHem(strips []weftStrip) (all []weftStrip) {
	for i := 0; i < len(strips); i++ {
		one := strips[i]
		if one.hem {
			if i+1 == len(strips) || !strips[i+1].hem {
				break
			}
			one.h += strips[i+1].h
			i++
		}
		all = append(all, one)
	}
	return all
}

// TestEnlargedIsWhereBlocksMeet: it has whole units of both blocks that meet first in the
// warp, 12 of A before end 49, and of both that meet first in the weft.
func TestEnlargedIsWhereBlocksMeet(t *testing.T) {
	p := planFrom(t, clothBrief("halvdrall", "8/cm", "8/cm", 2))
	c, err := clothOf(p, 0)
	require.NoError(t, err)
	s := &pieceSheet{pieceCloth: pieceCloth{p, &p.Pieces[0], c}}
	part := s.enlarge()
	assert.Equal(t, []int{40, 56}, []int{part.from, part.past})
	assert.Equal(t, []besides{{"A", 40, 48}, {"B", 48, 56}}, s.blocksOf(part))
	woven := map[string]bool{}
	for _, strip := range part.strips {
		woven[strip.block] = true
	}
	assert.True(t, woven["A"] && woven["B"], woven)
	one, err := clothOf(oneBlock(t), 0)
	require.NoError(t, err)
	edge := (&pieceSheet{pieceCloth: pieceCloth{oneBlock(t), &oneBlock(t).Pieces[0], one}}).
		enlarge()
	assert.Equal(t, []int{0, 16}, []int{edge.from, edge.past})
	assert.True(t, edge.strips[0].hem)
	assert.False(t, edge.strips[len(edge.strips)-1].hem)
}

// oneBlock is a plan of one block, in the warp and in the weft.
func oneBlock(t *testing.T) *plan.Plan {
	text := clothBrief("halvdrall", "8/cm", "8/cm", 2)
	for was, is := range map[string]string{
		`runs = ["A 12 chalk", "B 3 marigold", "A 1 ink", "B 9 chalk", "A 4 marigold"]`: `runs = ["A 12 chalk", "A 8 ink"]`,
		`runs = ["A 9 ink", "plain 3", "B 1 moss", "A 2 marigold", "B 12 ink"]`:         `runs = ["A 9 ink", "plain 3", "A 2 marigold"]`,
	} {
		require.Contains(t, text, was)
		text = strings.Replace(text, was, is, 1)
	}
	return planFrom(t, text)
}

// TestEnlargedCanBeCounted: where all threads are white their edges still show, clearly: by
// 6.8 in L*, the grey scale's grade 2.
func TestEnlargedCanBeCounted(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Piece(&b, oneColour(t), 0))
	left := float64(pieceWidth-edge-sideColumn+detailLeft) / 1000
	s := rendered(t, b.Bytes(), box4{left, float64(detailTop) / 1000, 40, 40}, 10)
	assert.Greater(t, len(s.kinds), 20)
	for hex, darker := range map[string]bool{"#ffffff": true, "#f1ede2": true, "#808080": true,
		"#17394d": false, "#000000": false} {
		rgb, err := palette.ParseHex(hex)
		require.NoError(t, err)
		d := edgeOf(rgb.Linear()).Lab().L - rgb.Lab().L
		assert.Equal(t, darker, d < 0, hex)
		assert.Greater(t, math.Abs(d), 6.8, hex)
	}
}
