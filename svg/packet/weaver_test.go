package packet_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
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
	if len(w.pieces) != len(p.Pieces) || len(w.sizes) != len(p.Pieces) {
		return []string{fmt.Sprintf("%d pieces woven, %d planned", len(w.pieces), len(p.Pieces))}
	}
	for i, s := range w.pieces {
		if what := differs(w.face(s.picks, hexes(p)), crossings(t, p, i)); what != "" {
			all = append(all, fmt.Sprintf("piece %d: %s", i+1, what))
		}
		if !p.IsWoven(i) {
			all = append(all, pieceDifferences(s, w.sizes[i], p, i)...)
		}
	}
	if what := differs(w.face(w.samplePicks(), hexes(p)), sampleFace(p)); what != "" {
		all = append(all, "sample: "+what)
	}
	all = append(all, warpDifferences(w, p)...)
	all = append(all, cutDifferences(w, p)...)
	return append(all, yarnDifferences(w, p)...)
}

// pieceDifferences are those of the counts and lengths of a piece.
func pieceDifferences(s sheet, out size, p *plan.Plan, i int) (all []string) {
	piece, fringe := p.Pieces[i], p.Cloth.FringeMM
	check := func(same bool, what string, got, want any) {
		if !same {
			all = append(all, fmt.Sprintf("piece %d: %s %v, planned %v", i+1, what, got, want))
		}
	}
	check(s.name == visible(piece.Name), "name", s.name, piece.Name)
	check(len(s.picks) == piece.Picks, "picks", len(s.picks), piece.Picks)
	check(s.woven.agrees(piece.WovenMM), "woven", s.woven, piece.WovenMM)
	check(s.reckoned.within(piece.WovenMM, 0.001), "by its densities", s.reckoned, piece.WovenMM)
	check(out.woven.agrees(piece.WovenMM), "on the loom", out.woven, piece.WovenMM)
	check(out.hemmed.agrees(piece.FinishedMM), "hemmed", out.hemmed, piece.FinishedMM)
	washed := piece.WovenMM * (1 - p.Cloth.ShrinkLength)
	check(out.washed.within(washed, 0.001), "washed", out.washed, washed)
	for _, bare := range s.bare {
		check(bare.agrees(fringe) && (bare.v > 0) == (fringe > 0), "fringe", bare, fringe)
	}
	return all
}

func (w *weaver) samplePicks() []pick {
	if w.sample == nil {
		return nil
	}
	return w.sample.picks
}

// visible is a name as pages show it, which run blanks together.
func visible(name string) string { return strings.Join(strings.Fields(svg.Visible(name)), " ") }

// warpDifferences are those of what was wound, threaded and sleyed.
func warpDifferences(w *weaver, p *plan.Plan) (all []string) {
	threading, _ := planWarp(p)
	for i, e := range w.warp.ends {
		if i < len(threading) && e.shaft != threading[i] {
			all = append(all, fmt.Sprintf("end %d is on shaft %d, planned %d", i+1, e.shaft,
				threading[i]))
			break
		}
	}
	wound := w.warp.wound.v - p.Warp.WoundMM // or what the rest takes
	if wound < -1e-3 || wound > 2*w.warp.wound.half {
		all = append(all, fmt.Sprintf("%v mm wound, planned %v", w.warp.wound.v, p.Warp.WoundMM))
	}
	if len(w.warp.selvedges) != p.Warp.FloatingSelvedgeEnds {
		all = append(all, "floating selvedges")
	}
	for i, part := range p.Warp.MakeUp {
		if i >= len(w.warp.parts) ||
			!w.warp.parts[i].wound.within(part.WoundMM, w.warp.parts[i].wound.half) {
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
		at += p.Pieces[i].AsWovenMM() + p.Cloth.FringeMM + separator/2
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
	planned := 0
	for _, y := range p.Yarn {
		planned += one(y.NeededM() > 0) // of a warp that is wound none
	}
	if len(spent) != planned {
		all = append(all, fmt.Sprintf("%d colours used, %d planned", len(spent), planned))
	}
	for _, y := range p.Yarn {
		for letter, name := range w.names {
			if name == visible(y.Colour) {
				all = append(all, colourDifferences(name, spent[letter], y)...)
			}
		}
	}
	return all
}

func colourDifferences(name string, u used, y plan.Yarn) (all []string) {
	want := []float64{y.WarpM, y.GroundM, y.PatternM, y.SampleM, y.HemstitchM}
	for i, took := range []amount{u.warp, u.ground, u.pattern, u.sample, u.tails} {
		if !took.within(want[i], 0.01) {
			all = append(all, fmt.Sprintf("%q: %.1f m used, %.1f planned", name, took.v, want[i]))
		}
	}
	return all
}
