package page_test

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// primaries is a brief of one piece with two large blocks with pattern weft in pure red, a pure green
// warp and a ground in pure blue.
func primaries(structure, ground string, strands int) []byte {
	return []byte(fmt.Sprintf(`title = "Primaries"
[set]
pieces = 1
hem = "3 cm"
[cloth]
structure = %q
sett = "8/cm"
ground = %q
strands = %d
draw_in = "5%%"
take_up = "8%%"
shrink_width = "10%%"
shrink_length = "10%%"
weft_extra = "10%%"
[loom]
shafts = 8
treadles = 10
width = "100 cm"
waste = "70 cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "red"
hex = "#ff0000"
yarn = "cotton"
[[colour]]
name = "green"
hex = "#00ff00"
yarn = "cotton"
[[colour]]
name = "blue"
hex = "#0000ff"
yarn = "cotton"
[warp]
runs = [%s]
[weft]
ground = "blue"
hem = "blue"
[[piece]]
name = "one"
runs = ["A 24 red", "plain 24", "B 24 red"]
`, structure, ground, strands, warpOf(structure)))
}

// warpOf is two wide blocks; where floats are as wide as a block, many of its units.
func warpOf(structure string) string {
	if structure == "monks-belt" {
		return strings.TrimSuffix(strings.Repeat(`"A 3 green", "B 3 green", `, 12), ", ")
	}
	return `"A 12 green", "B 12 green"`
}

// measured is a part of what the magnifier shows, eight pixels to one of the page: the
// average light of its channels; and, along the middles of its ends, how many pixels of
// the page the red and the blue go on, and across them the green; the middle of many.
type measured struct {
	Light            [3]float64
	Red, Green, Blue float64
}

// magnify shows a crossing in the middle and measures a part of what is drawn, in
// pixels of the page: left, top, width, height, and from end to end.
func (b *browser) magnify(column, pick int, back bool, part [4]float64, pitch float64) (m measured) {
	b.t.Helper()
	eval[bool](b, fmt.Sprintf(`(async () => { look.sides = %q; look.end = %d; look.pick = %d; await drawLens(); return true; })()`,
		map[bool]string{false: "face", true: "back"}[back], column+1, pick+1))
	require.Contains(b.t, eval[string](b, `lensShown`), fmt.Sprintf("column=%d&pick=%d&", column, pick))
	return eval[measured](b, fmt.Sprintf(`(async () => {
		const per = 8, [left, top, wide, high] = %s.map(v => Math.round(v * per)), pitch = %g * per;
		const image = new Image(), canvas = document.createElement("canvas");
		image.src = lensShown; await image.decode();
		canvas.width = canvas.height = 300 * per;
		const pen = canvas.getContext("2d"); pen.drawImage(image, 0, 0, canvas.width, canvas.height);
		const data = pen.getImageData(left, top, wide, high).data, light = [0, 0, 0];
		const linear = [...Array(256).keys()].map(v => v / 255).map(v => v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4);
		for (let i = 0; i < data.length; i++) if (i %% 4 < 3) light[i %% 4] += linear[data[i]] / (wide * high);
		const most = (x, y) => { const at = 4 * (y * wide + x), of = [data[at], data[at + 1], data[at + 2]]; return of.indexOf(Math.max(...of)); };
		const runs = [[], [], []];
		const along = (n, at, ...keep) => {
			let from = 0;
			for (let k = 1; k <= n; k++) if (k === n || at(k) !== at(k - 1)) {
				if (from > 0 && k < n && keep.includes(at(from)) && k - from > per / 2) runs[at(from)].push((k - from) / per);
				from = k;
			}
		};
		for (let x = pitch / 2; x < wide; x += pitch) along(high, y => most(Math.floor(x), y), 0, 2);
		for (let y = 0; y < high; y++) along(wide, x => most(x, y), 1);
		const middle = all => all.length ? all.sort((a, b) => a - b)[Math.floor(all.length / 2)] : 1e6;
		return { Light: light, Red: middle(runs[0]), Green: middle(runs[1]), Blue: middle(runs[2]) }; })()`,
		must(json.Marshal(part)), pitch))
}

// pitchOf is from end to end in the magnifier: 15 pixels, or as many as give the
// thinnest thread four.
func pitchOf(p *plan.Plan) float64 {
	ends := p.Warp.FinishedWidthMM / float64(p.Warp.Ends)
	left, strands := 1-p.Cloth.ShrinkLength, float64(p.Cloth.Strands)
	unit := p.UnitMM(&p.Pieces[0]) * left / ends
	patterns, grounds := float64(p.Weave.PatternPicks()), float64(p.Weave.GroundPicks())
	hem := 10 / p.Cloth.HemGroundPerCM * left / ends
	of := map[string]plan.Widths{}
	for _, c := range p.Colours {
		of[c.Name] = c.Widths
	}
	plain := float64(len(p.Weave.UnitPicks("")))
	thinnest := min(of["green"].Warp, unit/patterns*of["red"].Pattern/strands,
		unit/max(patterns, grounds, plain)*of["blue"].Ground, hem*of["blue"].Hem)
	return max(15, 4/thinnest)
}

// blockOf is some ends of a warp block, to the left of a crossing as the side is seen,
// and a weft block they cross.
type blockOf struct {
	column, pick int
	ends         int
	warp         plan.WarpRun
	weft         plan.WeftRun
}

// blocksOf are the blocks in the middle of the warp, as many ends as there is room for,
// over each block of the weft.
func blocksOf(p *plan.Plan, back bool, pitch float64) (all []blockOf) {
	left, unit := 0, p.Weave.UnitEnds()
	for i, warp := range p.Warp.Runs {
		if i == len(p.Warp.Runs)/2-1 || i == len(p.Warp.Runs)/2 {
			past, at := left+warp.Ends, p.Pieces[0].EndPicks() // an edge of the block, as the side is seen
			if back {
				past = p.Warp.Ends - left
			}
			ends := min(warp.Ends, int(135/pitch)/unit*unit)
			if ends < warp.Ends {
				past -= unit // floats at the edge of a large block may be others
			}
			for _, weft := range p.Pieces[0].Runs {
				picks := weft.PatternPicks + weft.GroundPicks
				all = append(all, blockOf{past + 1, at + picks/2, ends, warp, weft})
				at += picks
			}
		}
		left += warp.Ends
	}
	return all
}

// sharesOf is the model's shares of a block, from the widths in the plan.
func sharesOf(p *plan.Plan, b blockOf, back bool) look.Shares {
	of := map[string]plan.Widths{}
	for _, c := range p.Colours {
		of[c.Name] = c.Widths
	}
	w := look.Widths{Warp: of["green"].Warp, Ground: of["blue"].Ground}
	if b.weft.Block == "" {
		return w.Plain()
	}
	w.Pattern = of["red"].Pattern
	return w.Patch(look.Phi(p.Weave, b.weft.Block, b.warp.Block, back))
}

// TestMagnifierDrawsTheShares: in the magnifier each yarn covers what the model says
// before any light is mixed, and no thread is thinner than four pixels.
func TestMagnifierDrawsTheShares(t *testing.T) {
	t.Parallel()
	for name, text := range map[string][]byte{
		"halvdrall, two strands":   primaries("halvdrall", "6/cm", 2),
		"halvdrall, close":         primaries("halvdrall", "11/cm", 3),
		"summer-and-winter, close": primaries("summer-and-winter", "10/cm", 1),
		"monks-belt":               primaries("monks-belt", "6/cm", 2),
	} {
		if name != "halvdrall, two strands" && os.Getenv("STRIPESONG_CI") == "" {
			continue // each takes seconds
		}
		t.Run(name, func(t *testing.T) {
			server, bench, _ := serve(t, text)
			p := bench.Plan()
			b := newBrowser(t, 1024, 768)
			b.open(server.Address())
			eval[bool](b, `(async () => { look.strip = 0; await magnify(true); return true; })()`)
			pitch := pitchOf(p)
			high := p.UnitMM(&p.Pieces[0]) * (1 - p.Cloth.ShrinkLength) * pitch * float64(p.Warp.Ends) / p.Warp.FinishedWidthMM
			for _, back := range []bool{false, true} {
				for _, block := range blocksOf(p, back, pitch) {
					wide := float64(block.ends) * pitch
					part := [4]float64{150 - pitch*3/2 - wide, 165, wide, math.Floor(135/high) * high}
					m := b.magnify(block.column, block.pick, back, part, pitch)
					what := fmt.Sprintf("%q over %s, back %v", block.weft.Block, block.warp.Block, back)
					drawn, ok := p.Shades().BodyDrawn(block.warp, block.weft, back)
					require.True(t, ok)
					light := func(y look.Yarn, channel int) float64 {
						if drawn.Light[y][channel] == 0 {
							return m.Light[channel] // there is no such yarn
						}
						return m.Light[channel] / drawn.Light[y][channel]
					}
					want := sharesOf(p, block, back)
					assert.InDelta(t, want.Pattern, light(look.PatternYarn, 0), 0.03, "pattern, %s", what)
					assert.InDelta(t, want.Warp, light(look.WarpYarn, 1), 0.03, "warp, %s", what)
					assert.InDelta(t, want.Ground, light(look.GroundYarn, 2), 0.03, "ground, %s", what)
					const least = 3.8 // four, less what a renderer may round
					assert.Greater(t, m.Red/float64(p.Cloth.Strands), least, "pattern, %s", what)
					assert.Greater(t, m.Green, least, "warp, %s", what)
					if block.weft.Block == "" { // elsewhere floats lie over it
						assert.Greater(t, m.Blue, least, "ground, %s", what)
					}
				}
			}
			b.quiet()
		})
	}
}

// TestMagnifierFollowsThePointer: the pick under the pointer is shown, though picks lie
// closer in hems, and of two sides the one it is over.
func TestMagnifierFollowsThePointer(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, primaries("halvdrall", "6/cm", 1))
	p := bench.Plan()
	b := newBrowser(t, 1280, 800)
	b.open(server.Address())
	b.enter("#sides", "both")
	eval[bool](b, `(async () => { choose(0); await magnify(true); return true; })()`)
	piece := &p.Pieces[0]
	end := piece.HemWovenMM + piece.ShowWovenMM
	whole := piece.BodyWovenMM + 2*end
	for _, over := range []struct {
		up       float64 // a part of the height
		pick     int
		side     string
		sideways float64
	}{
		{end / 2 / whole, 1 + piece.EndPicks()/2, "face", 0.1},
		{end / whole, 1 + piece.EndPicks(), "back", 0.7},
		{0.5, 1 + piece.Picks/2, "face", 0.5},
	} {
		eval[bool](b, fmt.Sprintf(`(async () => { const canvas = document.querySelectorAll(".piece canvas")[%d], box = canvas.getBoundingClientRect();
			canvas.dispatchEvent(new PointerEvent("pointermove", { bubbles: true, clientX: box.left + %g * box.width, clientY: box.bottom - %g * box.height }));
			await drawLens(); return true; })()`, map[string]int{"face": 0, "back": 1}[over.side], over.sideways, over.up+1e-4))
		assert.InDelta(t, over.pick, eval[int](b, `look.pick`), 1)
		assert.InDelta(t, 1+over.sideways*float64(p.Warp.Ends), eval[float64](b, `look.end`), 1)
		assert.Contains(t, eval[string](b, `lensShown`), "side="+over.side)
		assert.Contains(t, eval[string](b, `$("lens-says").textContent`), over.side)
	}
	b.quiet()
}
