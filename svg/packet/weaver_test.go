package packet_test

import (
	"bytes"
	"context"
	"fmt"
	"image"
	"image/color"
	"image/png"
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
	"stripesong/svg"
	"stripesong/svg/packet"
)

// TestWeaveTheExamples: a weaver who has nothing but the pages winds, threads, ties up
// and weaves every example, and has the cloth of the plan.
func TestWeaveTheExamples(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(filepath.Base(filepath.Dir(file)), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			weaveBrief(t, text)
		})
	}
}

// weaveBrief plans a brief, weaves its packet, and compares.
func weaveBrief(t *testing.T, text []byte) {
	t.Helper()
	p := planned(t, text)
	w := weaveFrom(pages(t, p))
	assert.Empty(t, w.doubts)
	assert.Empty(t, differences(t, w, p))
}

func planned(t testing.TB, text []byte) *plan.Plan {
	t.Helper()
	shelf := func(name string) ([]byte, error) {
		found, err := filepath.Glob("../../examples/*/" + name)
		require.NoError(t, err)
		require.NotEmpty(t, found)
		return os.ReadFile(found[0])
	}
	b, err := brief.Parse("test", text, brief.Options{Shelf: shelf})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

func pages(t testing.TB, p *plan.Plan) string {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, packet.Write(&b, p))
	return b.String()
}

// differences is where the cloth, its yarn or its lengths are not those of the plan.
func differences(t testing.TB, w *weaver, p *plan.Plan) (all []string) {
	t.Helper()
	differ := func(format string, of ...any) { all = append(all, fmt.Sprintf(format, of...)) }
	if len(w.pieces) != len(p.Pieces) {
		return append(all, fmt.Sprintf("%d pieces woven, %d planned", len(w.pieces), len(p.Pieces)))
	}
	for i, s := range w.pieces {
		piece := p.Pieces[i]
		if what := w.differs(w.face(s.picks, hexes(p)), crossings(t, p, i)); what != "" {
			differ("piece %d: %s", i+1, what)
		}
		if s.name != visible(piece.Name) || len(s.picks) != piece.Picks || !s.woven.agrees(piece.WovenMM) || !s.reckoned.within(piece.WovenMM, 0.001) {
			differ("piece %q has %d picks and is %v long, by its densities %v; planned %q, %d, %v", s.name, len(s.picks), s.woven, s.reckoned, piece.Name, piece.Picks, piece.WovenMM)
		}
		if !w.sizes[i].woven.agrees(piece.WovenMM) || !w.sizes[i].hemmed.agrees(piece.FinishedMM) {
			differ("piece %d comes out %v", i+1, w.sizes[i])
		}
		if s.bare[0].v > 0 != (p.Cloth.FringeMM > 0) || !s.bare[0].agrees(p.Cloth.FringeMM) || s.bare[0] != s.bare[1] {
			differ("piece %d has fringes of %v, planned %v", i+1, s.bare, p.Cloth.FringeMM)
		}
	}
	if what := w.differs(w.face(w.samplePicks(), hexes(p)), sampleFace(p)); what != "" {
		differ("sample: %s", what)
	}
	all = append(all, warpDifferences(w, p)...)
	all = append(all, cutDifferences(w, p)...)
	return append(all, yarnDifferences(w, p)...)
}

func (w *weaver) samplePicks() []pick {
	if w.sample == nil {
		return nil
	}
	return w.sample.picks
}

// visible is a name as pages show it, which run blanks together.
func visible(name string) string { return strings.Join(strings.Fields(svg.Visible(name)), " ") }

// hexes is the colour of every name, from the brief.
func hexes(p *plan.Plan) map[string]color.RGBA {
	all := map[string]color.RGBA{}
	for _, c := range p.Colours {
		all[visible(c.Name)] = rgbaOf(c.Hex)
	}
	return all
}

func rgbaOf(hex string) color.RGBA {
	var c color.RGBA
	rgb, err := palette.ParseHex(hex)
	if err == nil {
		_, err = fmt.Sscanf(rgb.Hex(), "#%02x%02x%02x", &c.R, &c.G, &c.B)
	}
	if err != nil {
		panic(err)
	}
	c.A = 255
	return c
}

// face is what was woven, thread by thread: the last pick in the first row.
func (w *weaver) face(picks []pick, colours map[string]color.RGBA) [][]color.RGBA {
	warp := make([]color.RGBA, len(w.warp.ends))
	for x, e := range w.warp.ends {
		warp[x] = colours[w.names[e.colour]]
	}
	rows := make([][]color.RGBA, len(picks))
	for i, p := range picks {
		row, up := slices.Clone(warp), w.loom.sheds[p.shed]
		for x, e := range w.warp.ends {
			if !up[e.shaft] {
				row[x] = colours[w.names[p.colour]]
			}
		}
		rows[len(picks)-1-i] = row
	}
	return rows
}

// crossings is the picture of a piece with a pixel for every crossing.
func crossings(t testing.TB, p *plan.Plan, i int) [][]color.RGBA {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, svg.Crossings(&b, p, i, false))
	img, err := png.Decode(&b)
	require.NoError(t, err)
	return pixels(img)
}

func pixels(img image.Image) [][]color.RGBA {
	at := img.Bounds()
	rows := make([][]color.RGBA, at.Dy())
	for y := range rows {
		row := make([]color.RGBA, at.Dx())
		for x := range row {
			row[x] = color.RGBAModel.Convert(img.At(at.Min.X+x, at.Min.Y+y)).(color.RGBA)
		}
		rows[y] = row
	}
	return rows
}

// sampleFace is the planned sample; there is no picture of it.
func sampleFace(p *plan.Plan) (rows [][]color.RGBA) {
	if p.Sample == nil {
		return nil
	}
	threading, warp := planWarp(p)
	colours := map[string]color.RGBA{}
	for _, c := range p.Colours {
		colours[c.Name] = rgbaOf(c.Hex)
	}
	add := func(pick weave.Woven, weft string) {
		row := make([]color.RGBA, len(threading))
		for x, over := range weave.Face(threading, pick.Shed) {
			row[x] = colours[warp[x]]
			if over {
				row[x] = colours[weft]
			}
		}
		rows = append(rows, row)
	}
	for _, pick := range p.Weave.Picks(p.Sample.HemPicks, nil)[:p.Sample.HemPicks] {
		add(pick, p.Sample.Hem)
	}
	for _, run := range p.Sample.Runs {
		for range run.Units {
			for _, pick := range p.In(run.PickOrder).UnitPicks(run.Block) {
				weft := run.Ground
				if pick.Pattern {
					weft = run.Pattern
				}
				add(pick, weft)
			}
		}
	}
	slices.Reverse(rows)
	return rows
}

// planWarp is the shaft and the colour of each end of a plan.
func planWarp(p *plan.Plan) (threading []int, colours []string) {
	for _, r := range p.Warp.Runs {
		threading = append(threading, p.Weave.Threading([]weave.Strip{{Block: r.Block, Units: r.Units}})...)
		for range r.Ends {
			colours = append(colours, r.Colour)
		}
	}
	return threading, colours
}

// differs tells where two faces differ, from the first pick up; "" where they don't.
func (w *weaver) differs(got, want [][]color.RGBA) string {
	if len(got) != len(want) {
		return fmt.Sprintf("%d picks woven, %d planned", len(got), len(want))
	}
	for y := len(got) - 1; y >= 0; y-- {
		if len(got[y]) != len(want[y]) {
			return fmt.Sprintf("%d ends in the cloth, %d planned", len(got[y]), len(want[y]))
		}
		for x := range got[y] {
			if got[y][x] != want[y][x] {
				return fmt.Sprintf("pick %d, end %d is %v and should be %v", len(got)-y, x+1, got[y][x], want[y][x])
			}
		}
	}
	return ""
}

// warpDifferences are those of what was wound, threaded and sleyed.
func warpDifferences(w *weaver, p *plan.Plan) (all []string) {
	threading, _ := planWarp(p)
	for i, e := range w.warp.ends {
		if i < len(threading) && e.shaft != threading[i] {
			all = append(all, fmt.Sprintf("end %d is on shaft %d, planned %d", i+1, e.shaft, threading[i]))
			break
		}
	}
	wound := w.warp.wound.v - p.Warp.WoundMM
	if wound < -1e-3 || wound > 2*w.warp.wound.half {
		all = append(all, fmt.Sprintf("%v mm wound, planned %v", w.warp.wound.v, p.Warp.WoundMM))
	}
	if len(w.warp.selvedges) != p.Warp.FloatingSelvedgeEnds {
		all = append(all, "floating selvedges")
	}
	for i, part := range p.Warp.MakeUp {
		if i >= len(w.warp.parts) || !w.warp.parts[i].wound.agrees(part.WoundMM) {
			all = append(all, fmt.Sprintf("part %d of the warp", i+1))
		}
	}
	return all
}

// cutDifferences are those of the places where pieces are cut apart.
func cutDifferences(w *weaver, p *plan.Plan) (all []string) {
	at := 0.0
	for i, c := range w.cuts {
		separator := float64(p.Pieces[i].SeparatorPick) * 10 / p.Cloth.HemGroundPerCM
		at += p.Pieces[i].WovenMM + p.Cloth.FringeMM + separator/2
		if !c.at.agrees(at) || c.picks != p.Pieces[i].SeparatorPick {
			all = append(all, fmt.Sprintf("cut %d is at %v, planned %v", i+1, c.at.v, at))
		}
		at += separator/2 + p.Cloth.FringeMM
	}
	return all
}

// yarnDifferences are those of what was spent, by colour.
func yarnDifferences(w *weaver, p *plan.Plan) (all []string) {
	spent := w.spent()
	if len(spent) != len(p.Yarn) {
		all = append(all, fmt.Sprintf("%d colours used, %d planned", len(spent), len(p.Yarn)))
	}
	for _, y := range p.Yarn {
		for letter, name := range w.names {
			if u := spent[letter]; name == visible(y.Colour) {
				for i, took := range []amount{u.warp, u.ground, u.pattern, u.sample} {
					want := []float64{y.WarpM, y.GroundM, y.PatternM, y.SampleM}[i]
					if !took.within(want, 0.01) {
						all = append(all, fmt.Sprintf("%q: %.1f m used, %.1f planned", name, took.v, want))
					}
				}
			}
		}
	}
	return all
}
