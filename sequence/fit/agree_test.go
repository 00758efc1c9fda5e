package fit

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// agrees holds that the warp a plan winds, as exactly as the plan tells it, gives
// the plan's pieces, of the plan's lengths, and that a millimetre less does not.
func agrees(t *testing.T, name string, b *brief.Brief, p *plan.Plan) {
	t.Helper()
	wound, ok := new(big.Rat).SetString(fmt.Sprint(p.Warp.WoundMM))
	require.True(t, ok)
	a, err := Make(b, p, Question{WarpMM: wound})
	require.NoError(t, err, name)
	assert.Equal(t, len(p.Pieces), a.Fits, name)
	assert.InDelta(t, 0, a.LeftMM, 1e-3, name)
	ofAsked := 0
	for _, piece := range p.Pieces {
		if piece.WovenMM == a.AskedWovenMM {
			ofAsked++
			assert.InDelta(t, piece.FinishedMM, a.AskedFinishedMM, 1e-3, name)
		}
	}
	if a.Own == nil {
		assert.Equal(t, len(p.Pieces), ofAsked, name)
	} else {
		assert.Equal(t, len(p.Pieces), ofAsked+a.Own.Written, name)
	}
	less, err := Make(b, p, Question{WarpMM: new(big.Rat).Sub(wound, big.NewRat(1, 1))})
	if err == nil {
		assert.Less(t, less.Fits, len(p.Pieces), name)
	}
	for _, row := range a.TradeOff {
		if row.OfAsked < 1 {
			assert.Zero(t, row.LeftMM, "%s: %+v", name, row)
			assert.Less(t, row.WovenMM, a.AskedWovenMM+1e-3, "%s: %+v", name, row)
		}
	}
}

func TestExamplesAgree(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		beside := func(name string) ([]byte, error) {
			return os.ReadFile(filepath.Join(filepath.Dir(file), name))
		}
		b, err := brief.Parse(file, text, brief.Options{Shelf: beside})
		require.NoError(t, err)
		p, err := plan.Make(context.Background(), b)
		require.NoError(t, err)
		agrees(t, file, b, p)
	}
}

// TestMadeUpBriefsAgree: 500 briefs of all sizes, losses and structures, some
// with pieces written out to a size of their own.
func TestMadeUpBriefsAgree(t *testing.T) {
	chance := rand.New(rand.NewPCG(11, 3))
	planned := 0
	for planned < 500 {
		text := madeUp(chance)
		b, err := brief.Parse("made-up", []byte(text), brief.Options{})
		require.NoError(t, err, text)
		p, err := plan.Make(context.Background(), b)
		if err != nil {
			continue // a body that is all hem, a float too long
		}
		planned++
		agrees(t, text, b, p)
	}
}

// TestFitIsWhatThePlanWinds: of any warp, as many pieces are promised as a plan of so
// many winds at most, and a plan of one piece more winds more.
func TestFitIsWhatThePlanWinds(t *testing.T) {
	chance := rand.New(rand.NewPCG(11, 4))
	compared := 0
	for compared < 100 {
		text := madeUp(chance)
		b, err := brief.Parse("made-up", []byte(text), brief.Options{})
		require.NoError(t, err, text)
		p, err := plan.Make(context.Background(), b)
		if err != nil {
			continue
		}
		warp := big.NewRat(int64(1000+chance.IntN(12_000)), 1)
		a, err := Make(b, p, Question{WarpMM: warp})
		if err != nil || a.Fits == 0 || a.Own != nil && a.Fits < len(b.Pieces) {
			continue // pieces of their own size come first here, not in the plan
		}
		compared++
		mm, _ := warp.Float64()
		assert.LessOrEqual(t, winds(t, text, a.Fits), mm+1e-4, text)
		assert.Greater(t, winds(t, text, a.Fits+1), mm, text)
	}
}

// winds is the warp that a plan of so many pieces winds, of a brief whose tables may
// speak of more.
func winds(t *testing.T, text string, pieces int) float64 {
	t.Helper()
	set := []brief.Override{{Key: "set.pieces", Value: fmt.Sprint(pieces), Flag: "--pieces"}}
	b, err := brief.Parse("made-up", []byte(text), brief.Options{Set: set})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p.Warp.WoundMM
}

func madeUp(chance *rand.Rand) string {
	one := func(words ...string) string { return words[chance.IntN(len(words))] }
	percent := func(most int) string {
		return fmt.Sprintf("%d.%d%%", chance.IntN(most), chance.IntN(10))
	}
	length := func(low, high int) string {
		mm := low + chance.IntN(high-low)
		if chance.IntN(2) == 0 {
			return fmt.Sprintf("%d mm", mm)
		}
		return fmt.Sprintf("%.2f in", float64(mm)/25.4)
	}
	pieces := 1 + chance.IntN(7)
	var b strings.Builder
	line := func(format string, values ...any) { fmt.Fprintf(&b, format+"\n", values...) }
	line("[set]\npieces = %d\nwidth = %q\n%s = %q", pieces, length(200, 500),
		one("length", "woven"), length(300, 900))
	line("hem_show = %q", one("0 cm", length(0, 40)))
	line("hem = %q\nseparator = %d\nfringe = %q", length(0, 50), chance.IntN(5),
		one("0 cm", length(10, 90)))
	structure := one("halvdrall", "summer-and-winter")
	line("[cloth]\nstructure = %q", structure)
	line("sett = %q\nground = %q\nhem_ground = %q", one("6/cm", "8/cm", "20/in"),
		one("7/cm", "18/in", "80/10cm"), one("9/cm", "22/in"))
	line("draw_in = %q\ntake_up = %q\nshrink_width = %q\nshrink_length = %q\nweft_extra = \"10%%\"",
		percent(9), percent(15), percent(15), percent(15))
	line("[loom]\nwaste = %q\nsample = %q\nretie = %q", length(400, 900),
		one("0 cm", length(50, 200)), one("0 cm", "25 cm"))
	line("[yarn.cotton]\ncount = \"8/2 cotton\"\n[[colour]]\nname = \"light\"\n" +
		"hex = \"#eeeeee\"\n[[colour]]\nname = \"dark\"\nhex = \"#222222\"")
	line("[warp]\ncolours = [\"light\"]\nrhythm = { kind = \"even\", stripes = 3 }")
	line("[weft]\nground = \"light\"\ncolours = [\"dark\"]\nrhythm = { kind = \"even\", " +
		"stripes = 5 }")
	for range chance.IntN(pieces + 1) {
		line("[[piece]]")
		if structure == "summer-and-winter" && chance.IntN(3) == 0 {
			line("pick_order = \"P1 a P1 b P2 a P2 b\"") // units twice as long
		}
		if chance.IntN(2) == 0 {
			line("runs = [\"A %d dark\", \"B %d dark\"]", 10+chance.IntN(300), 10+chance.IntN(300))
		}
	}
	return b.String()
}

// TestOwnSizesComeFirst: by hand. Units are 2.54 mm, there is no take-up and no
// hem, and two separator picks are 2.54 mm. Of 1500 mm, 500 are waste; a piece of 60
// units takes 152.4, and each of 100 units 254 and its separator: 847.6/256.54 is
// 3.3, so three follow.
func TestOwnSizesComeFirst(t *testing.T) {
	text := fmt.Sprintf(towels, `length = "9 in"`, `take_up = "0%"`, `waste = "500 mm"`)
	text = strings.Replace(text, "pieces = 6", "pieces = 3", 1)
	b, err := brief.Parse("own", []byte(text+"\n[[piece]]\nruns = [\"A 60 blue\"]\n"),
		brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	require.Equal(t, []int{60, 100, 100},
		[]int{p.Pieces[0].BodyUnits, p.Pieces[1].BodyUnits, p.Pieces[2].BodyUnits})
	a, err := Make(b, p, Question{WarpMM: big.NewRat(1500, 1)})
	require.NoError(t, err)
	assert.Equal(t, 4, a.Fits)
	require.NotNil(t, a.Own)
	assert.Equal(t, Own{Pieces: 1, Written: 1, WovenMM: 152.4, LeftMM: 847.6}, *a.Own)
	assert.InDelta(t, 1500-500-152.4-3*256.54, a.LeftMM, 1e-3)
	short, err := Make(b, p, Question{WarpMM: big.NewRat(600, 1)})
	require.NoError(t, err)
	assert.Zero(t, short.Fits, "not even the first piece, of its own size")
	assert.Equal(t, &Own{Written: 1, LeftMM: 600, NextMM: 152.4}, short.Own)
}
