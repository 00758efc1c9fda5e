package page_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
	"stripesong/sequence/workbench"
)

// woven is a brief of one piece on a wide warp of two blocks, in three colours.
func woven(structure, ground string, strands int, warp, weft string) []byte {
	return fmt.Appendf(nil, `title = "Primaries"
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
hex = "#b03028"
yarn = "cotton"
[[colour]]
name = "green"
hex = "#c8d8a0"
yarn = "cotton"
[[colour]]
name = "blue"
hex = "#28388c"
yarn = "cotton"
[warp]
runs = [%s]
[weft]
ground = "blue"
hem = "blue"
[[piece]]
name = "one"
runs = [%s]
`, structure, ground, strands, warp, weft)
}

// wide is blocks for structures that tie floats down or not.
const (
	blocks = `"A 12 green", "B 12 green"`
	narrow = `"A 3 green", "B 3 red", "A 3 green", "B 3 green", "A 3 blue", "B 3 green"`
	bands  = `"A 24 red", "plain 24", "B 24 red"`
)

// uneven is a structure whose blocks cover unlike parts of each other.
func uneven() []byte {
	text := string(woven("halvdrall", "6/cm", 1, `"A 12 green", "B 6 red"`, bands))
	return []byte(strings.Replace(text, "[cloth]\nstructure = \"halvdrall\"\n", `[structure]
name   = "uneven"
shafts = 4
order  = "P a P b"
units  = { A = [1, 2, 1, 2, 3, 2], B = [3, 4, 1, 4, 1, 4] }
sheds  = { A = [1, 2], B = [3, 4] }
tabby  = { a = [1, 3], b = [2, 4] }
[cloth]
`, 1))
}

// closed is a mirrored warp with a closing end.
func closed() []byte {
	text := string(woven("halvdrall", "6/cm", 1,
		`"A 6 green", "B 4 red", "A 3 blue", "B 4 red", "A 6 green"`, bands))
	return []byte(strings.Replace(text, "strands = 1\n", "strands = 1\nclosing_end = true\n", 1))
}

// cloth is a brief by its name.
type cloth struct {
	name string
	text []byte
}

// few are the first n, and all where all checks are run.
func few[T any](n int, all []T) []T {
	if allChecks() {
		return all
	}
	return all[:min(n, len(all))]
}

// allChecks is whether every case is tried, and not a few of each kind.
func allChecks() bool { return os.Getenv("STRIPESONG_CI") != "" && !testing.Short() }

// place is one of the patches of a piece: a stripe of the warp, a run of the weft or -1
// for a hem, and a place in it, 0 to 1 across and up; the plan's colour there.
type place struct {
	Piece, Stripe, Band int
	Across, Up          float64
	Back                bool
	Want                string
}

// somewhere is a place of a plan by chance.
func somewhere(p *plan.Plan, s *plan.Shades, chance *rand.Rand) place {
	at := place{Piece: chance.IntN(len(p.Pieces)), Back: chance.IntN(2) == 1,
		Across: 0.2 + 0.6*chance.Float64(), Up: 0.2 + 0.6*chance.Float64()}
	piece := p.Pieces[at.Piece]
	at.Stripe, at.Band = chance.IntN(len(p.Warp.Runs)), chance.IntN(len(piece.Runs)+1)-1
	warp := p.Warp.Runs[at.Stripe]
	if piece.EndPicks() == 0 {
		at.Band = max(0, at.Band)
	}
	if at.Band < 0 {
		at.Want = s.Hem(warp.Colour, piece.Hem).RGB.Hex()
		return at
	}
	at.Want = s.Body(warp, piece.Runs[at.Band], at.Back).RGB.Hex()
	return at
}

// TestCanvasShowsThePlansColours: over a thousand random places of pieces of several
// structures, of which colours and runs are changed by chance, the canvas shows the
// plan's mixed colour, on both sides, hems too.
func TestCanvasShowsThePlansColours(t *testing.T) { onBoth(t, canvasShowsThePlansColours) }

func canvasShowsThePlansColours(t *testing.T, on target) {
	chance, looked := rand.New(rand.NewPCG(5, 8)), 0
	b := newBrowser(t, 1280, 800)
	for _, set := range few(3, []cloth{
		{"the built-in brief", brief.Default()},
		{"summer and winter", woven("summer-and-winter", "10/cm", 1, blocks, bands)},
		{"uneven", uneven()},
		{"halvdräll", woven("halvdrall", "11/cm", 3, blocks, bands)},
		{"monk's belt", woven("monks-belt", "6/cm", 2, strings.Repeat(narrow+", ", 11)+narrow,
			bands)},
		{"a closing end", closed()},
	}) {
		t.Run(set.name, func(t *testing.T) {
			bench := on.work(t, set.text)
			bench.open(b)
			for range 4 {
				p := bench.Plan()
				shades := p.Shades()
				var places []place
				for range 90 {
					places = append(places, somewhere(p, shades, chance))
				}
				looked += len(places)
				assert.Empty(t, eval[[]string](b,
					`(`+lookAt+`)(`+string(must(json.Marshal(places)))+`)`))
				anyColours(b, bench.View(), chance)
			}
		})
	}
	assert.GreaterOrEqual(t, looked, 1000)
	b.quiet("422", "ERR_CONNECTION_REFUSED") // servers end with their subtests
}

// TestCanvasShowsTheExamples: so it does for every example, as it is.
func TestCanvasShowsTheExamples(t *testing.T) { onBoth(t, canvasShowsTheExamples) }

func canvasShowsTheExamples(t *testing.T, on target) {
	names, err := filepath.Glob("../../../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	chance, b := rand.New(rand.NewPCG(1, 2)), newBrowser(t, 1280, 800)
	for _, name := range few(3, names) {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		if strings.Contains(string(text), "\nshelf") {
			continue // it needs another file
		}
		bench := on.work(t, text)
		bench.open(b)
		p := bench.Plan()
		shades := p.Shades()
		var places []place
		for range 60 {
			places = append(places, somewhere(p, shades, chance))
		}
		assert.Empty(t, eval[[]string](b, `(`+lookAt+`)(`+string(must(json.Marshal(places)))+`)`),
			name)
		b.shot("example-" + filepath.Base(filepath.Dir(name)))
	}
	b.quiet("ERR_CONNECTION_REFUSED")
}

// lookAt gives the places where the canvas shows another colour than is wanted.
const lookAt = `places => {
	const S = stripesong, canvas = document.getElementById("canvas"), wrong = [];
	for (const back of [false, true]) {
		S.state.back = back;
		S.draw();
		const copy = document.createElement("canvas"), pen = copy.getContext("2d", { willReadFrequently: true });
		copy.width = canvas.width; copy.height = canvas.height;
		pen.drawImage(canvas, 0, 0);
		for (const p of places.filter(p => p.Back === back)) {
			const c = S.cloth(), box = S.boxesOf(p.Piece)[0];
			const across = S.runBox(c, -1, p.Stripe, box, back);
			const band = p.Band < 0 ? { y: box.y + box.h * (1 - .4 * c.pieces[p.Piece].end_mm / (box.h / S.boxesOf(p.Piece)[0].h * height(c.pieces[p.Piece]))), h: 0 } : S.runBox(c, p.Piece, p.Band, box, back);
			const x = across.x + across.w * p.Across, y = band.y + band.h * (1 - p.Up);
			if (x > box.x + box.w * .78 && y < box.y + box.w * .22) continue; // the turned corner
			const [r, g, b] = pen.getImageData(Math.floor(x), Math.floor(y), 1, 1).data;
			const want = [1, 3, 5].map(i => parseInt(p.Want.slice(i, i + 2), 16));
			if (Math.max(Math.abs(r - want[0]), Math.abs(g - want[1]), Math.abs(b - want[2])) > 1) wrong.push(JSON.stringify(p) + ": " + [r, g, b] + " not " + want);
		}
	}
	S.state.back = false;
	return wrong;
	function height(p) { return p.unit_mm * p.runs.reduce((n, r) => n + r[1], 0) + 2 * p.end_mm; }
}`

// anyColours gives a few colours and runs others, by chance; what is refused changes
// nothing.
func anyColours(b *browser, at told, chance *rand.Rand) {
	b.t.Helper()
	colour := func() string { return at.Colours[chance.IntN(len(at.Colours))].Name }
	of := chance.IntN(len(at.Pieces)+1) - 1
	runs := at.Warp.runs()
	if of >= 0 {
		runs = at.Pieces[of].runs()
	}
	for _, op := range []workbench.Op{
		{Do: "colour.hex", Colour: colour(), Value: fmt.Sprintf("#%06x", chance.IntN(1<<24))},
		{Do: "colour.hex", Colour: colour(), Value: fmt.Sprintf("#%06x", chance.IntN(1<<24))},
		{Do: "recolour", Strip: of, Run: chance.IntN(runs), Colour: colour()},
		{Do: "part", Strip: chance.IntN(len(at.Pieces)), Key: "ground", Colour: colour()},
	} {
		body := string(must(json.Marshal(map[string]workbench.Op{"op": op})))
		eval[bool](b, `(stripesong.send("do", `+body+`), true)`)
		b.settle()
	}
}

// TestThreadsAverageToTheMixture: as near as its threads are seen singly, a patch sends
// the eye as much light as the plan's mixture, on both sides.
func TestThreadsAverageToTheMixture(t *testing.T) { onBoth(t, threadsAverageToTheMixture) }

func threadsAverageToTheMixture(t *testing.T, on target) {
	b := newBrowser(t, 1280, 800)
	for _, set := range few(3, []cloth{
		{"halvdräll, two strands", woven("halvdrall", "6/cm", 2, blocks, bands)},
		{"uneven", uneven()},
		{"a closing end", closed()},
		{"halvdräll, close", woven("halvdrall", "11/cm", 3, blocks, bands)},
		{"summer and winter", woven("summer-and-winter", "10/cm", 1, blocks, bands)},
	}) {
		t.Run(set.name, func(t *testing.T) {
			bench := on.work(t, set.text)
			bench.open(b)
			p := bench.Plan()
			shades := p.Shades()
			for stripe, warp := range p.Warp.Runs {
				for band, weft := range p.Pieces[0].Runs {
					for _, back := range []bool{false, true} {
						want := shades.Body(warp, weft, back).RGB.Linear()
						got := eval[[3]float64](b,
							fmt.Sprintf(`(`+average+`)(%d, %d, %v)`, stripe, band, back))
						for c := range want {
							assert.InDelta(t, want[c], got[c], 0.025, "stripe %d, band %d, back %v",
								stripe, band, back)
						}
					}
				}
			}
			b.shot("threads-" + strings.ReplaceAll(set.name, " ", "-"))
		})
	}
	b.quiet("ERR_CONNECTION_REFUSED") // servers end with their subtests
}

// average is the mean light of whole units about the middle of a patch, 32 pixels to an
// end.
const average = `(stripe, band, back) => {
	const S = stripesong, canvas = document.getElementById("canvas");
	S.state.back = back;
	Object.assign(S.sight, { zoom: 1, x: 0, y: 0 });
	S.choose(null);
	S.draw();
	const c = S.cloth(), t = c.tables, end = t.width_mm / t.ends, piece = c.pieces[0];
	const middle = () => {
		const box = S.boxesOf(0)[0], x = S.runBox(c, -1, stripe, box, back), y = S.runBox(c, 0, band, box, back);
		return [x.x + x.w / 2, y.y + y.h / 2];
	};
	S.sight.zoom = 32 / (end * S.laid().scale);
	const [x0, y0] = middle();
	S.sight.x += 640 - x0 - 80; S.sight.y += 380 - y0;
	S.draw();
	const [x, y] = middle(), unit = t.threading[c.warp.runs[stripe][0]].length;
	const w = Math.floor(300 / (unit * 32)) * unit * 32 || unit * 32, px = S.boxesOf(0)[0].h / height(piece);
	const h = Math.max(1, Math.floor(300 / (piece.unit_mm * px))) * piece.unit_mm * px;
	const copy = document.createElement("canvas"), pen = copy.getContext("2d", { willReadFrequently: true });
	copy.width = canvas.width; copy.height = canvas.height; pen.drawImage(canvas, 0, 0);
	const d = pen.getImageData(Math.round(x - w / 2), Math.round(y - h / 2), Math.round(w), Math.round(h)).data;
	const sum = [0, 0, 0];
	for (let i = 0; i < d.length; i++) if ((i & 3) < 3) { const v = d[i] / 255; sum[i & 3] += v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4; }
	S.state.back = false;
	return sum.map(v => v / (d.length / 4));
	function height(p) { return p.unit_mm * p.runs.reduce((n, r) => n + r[1], 0) + 2 * p.end_mm; }
}`

// TestFromADistance: in the middle of many stripes of one width the canvas shows what
// the closed form of the eye's filters gives for endless ones.
func TestFromADistance(t *testing.T) { onBoth(t, fromADistance) }

func fromADistance(t *testing.T, on target) {
	b := newBrowser(t, 1280, 800)
	for _, units := range []int{1, 3} {
		var warp []string
		for i := range 150 / units {
			warp = append(warp, fmt.Sprintf("%q",
				fmt.Sprintf("A %d %s", units, []string{"green", "blue"}[i%2])))
		}
		text := woven("halvdrall", "6/cm", 1, strings.Join(warp, ", "), `"plain 200"`)
		bench := on.work(t, text)
		bench.open(b)
		p := bench.Plan()
		shades := p.Shades()
		at := len(p.Warp.Runs) / 2
		of := func(run int) palette.Linear {
			return shades.Body(p.Warp.Runs[run], p.Pieces[0].Runs[0], false).RGB.Linear()
		}
		wide := float64(p.Warp.Runs[at].Ends) * p.Warp.FinishedWidthMM / float64(p.Warp.Ends)
		for _, metres := range []float64{1, 2, 5} {
			want, _ := palette.BlurOf(wide, metres).Stripes(of(at).XYZ(), of(at+1).XYZ())
			rgb := want.Linear().RGB()
			got := eval[[3]int](b, fmt.Sprintf(`((stripe, metres) => { const S = stripesong; S.state.metres = metres;
				Object.assign(S.sight, { zoom: 4, x: -1900, y: -900 }); S.draw();
				const box = S.boxesOf(0)[0], x = S.runBox(S.cloth(), -1, stripe, box, false), d = document.createElement("canvas").getContext("2d", { willReadFrequently: true });
				d.canvas.width = 1280; d.canvas.height = 800; d.drawImage(document.getElementById("canvas"), 0, 0);
				return [...d.getImageData(Math.round(x.x + x.w / 2), 300, 1, 1).data].slice(0, 3); })(%d, %g)`, at, metres))
			for c, v := range []uint8{rgb.R, rgb.G, rgb.B} {
				assert.LessOrEqual(t, math.Abs(float64(v)-float64(got[c])), 3.0,
					"%d units, %g m: %v, not %v", units, metres, got, rgb)
			}
		}
	}
	b.quiet()
}

// TestEndsAreThePlans: every end of the warp is of the stripe and on the shaft that the
// plan threads it on, whatever closes the warp.
func TestEndsAreThePlans(t *testing.T) { onBoth(t, endsAreThePlans) }

func endsAreThePlans(t *testing.T, on target) {
	b := newBrowser(t, 1280, 800)
	texts := [][]byte{brief.Default(), uneven(), closed(),
		[]byte(strings.Replace(string(closed()), `"A 6 green", "B 4 red", "A 3`,
			`"A 5 green", "B 4 red", "A 3`, 1))}
	for _, text := range texts {
		bench := on.work(t, text)
		bench.open(b)
		p := bench.Plan()
		var strips []weave.Strip
		for _, r := range p.Warp.Runs {
			strips = append(strips, weave.Strip{Block: r.Block, Units: r.Units})
		}
		got := eval[[][]int](b,
			`stripesong.shaftsOf(stripesong.cloth())`)
		require.Len(t, got, len(p.Warp.Runs))
		for i, ends := range got {
			assert.Len(t, ends, p.Warp.Runs[i].Ends)
		}
		assert.Equal(t, p.Weave.Threading(strips), slices.Concat(got...))
	}
	b.quiet("ERR_CONNECTION_REFUSED") // servers end with their subtests
}

// Eyes see what the program says they do.
func TestEyes(t *testing.T) { onBoth(t, throughEyes) }

func throughEyes(t *testing.T, on target) {
	bench := on.work(t, brief.Default())
	b := newBrowser(t, 1280, 800)
	bench.open(b)
	red, err := palette.ParseHex(bench.View().Colours[4].Hex)
	require.NoError(t, err)
	colour := red.Linear()
	for eyes, want := range []palette.Linear{colour, grey(colour), palette.Protan.See(colour),
		palette.Deutan.See(colour)} {
		b.enter("#eyes", fmt.Sprint(eyes))
		got := eval[string](b,
			`stripesong.css(stripesong.looksOf(stripesong.cloth()).ink(4))`)
		assert.Equal(t, want.RGB().Hex(), got)
	}
	b.quiet()
}

func grey(c palette.Linear) palette.Linear {
	y := c.XYZ()[1]
	return palette.Linear{y, y, y}
}

// The sights of a page that a weaver puts it in, for looking at: STRIPESONG_SHOTS names a
// folder for the pictures.
func TestSights(t *testing.T) {
	if os.Getenv("STRIPESONG_SHOTS") == "" {
		t.Skip("STRIPESONG_SHOTS names no folder for the pictures")
	}
	b := newBrowser(t, 1440, 900)
	for _, set := range sets(t) {
		server, _, _ := serve(t, set.text)
		for _, size := range sizes {
			b.size(size)
			for _, dark := range []bool{false, true} {
				at := func(what string) {
					b.shot(fmt.Sprintf("%s-%d-%v-%s", set.name, size[0], dark, what))
				}
				b.open(server.Address())
				eval[bool](b,
					fmt.Sprintf(
						`(stripesong.state.dark = %v, stripesong.state.metres = 0, stripesong.choose(null), true)`, dark))
				b.settle()
				at("rest")
				b.choose(0, -1)
				at("piece")
				b.choose(0, 0)
				b.click("#edges")
				at("edges")
				eval[bool](b, `(stripesong.choose(null), true)`)
				b.click("#others")
				at("others")
				b.click("#tray-close")
			}
		}
	}
	require.False(t, t.Failed())
}
