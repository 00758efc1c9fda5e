package midway

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// four towels on round figures. A weft unit is 2 ground picks at 10 to the centimetre,
// 2 mm; a piece of 54 cm finished is 60 cm woven, 300 units. The warp is
// 4 x 60 / 0.9 + 60 = 326.7 cm, told as 3.27 m. A pick takes 40 cm x 1.1 = 44 cm.
const four = `title = "four"
[set]
pieces = 4
in_reed = "40 cm"       # no losses in width
length = "54 cm"
hem = "0 cm"
separator = 0
spare = "0%"
[cloth]
sett = "10/cm"
ground = "10/cm"
draw_in = "0%"
take_up = "10%"
shrink_width = "0%"
shrink_length = "10%"
weft_extra = "10%"
[loom]
waste = "60 cm"         # tied on and thrums
[yarn.cotton]
count = "16/2 cotton"
[[colour]]
name = "chalk"
hex = "#f2efe6"
on_hand = "5000 m"      # plenty
[[colour]]
name = "night"
hex = "#1d2a4a"
on_hand = "3000 m"
[[colour]]
name = "moss"
hex = "#24492f"
on_hand = "3000 m"
[[colour]]
name = "plum"
hex = "#4b1f3f"
on_hand = "3000 m"
[warp]
colours = ["chalk"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "chalk"
colours = ["night"]
rhythm = { kind = "even", stripes = 3 }
[[piece]]
name = "one"
[[piece]]
name = "two"
rhythm = { kind = "fibonacci", terms = 5 }
[[piece]]
name = "three"           # the third
rhythm = { kind = "even", stripes = 10 }
[[piece]]
name = "four"
colours = ["moss"]
rhythm = { kind = "graded", stripes = 6, ratio = 4 }
`

// source is a brief's text, as the command reads it.
func source(text string) remedy.Source {
	return remedy.Source{Name: "brief.toml", Text: []byte(text),
		Read: func(text []byte) (*brief.Brief, error) {
			return brief.Parse("brief.toml", text, brief.Options{})
		}}
}

func planned(t *testing.T, text string) (*brief.Brief, *plan.Plan) {
	t.Helper()
	b, err := brief.Parse("brief.toml", []byte(text), brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return b, p
}

// ask answers for a brief and a progress.
func ask(t *testing.T, text, progress string) (*Answer, error) {
	t.Helper()
	b, p := planned(t, text)
	at, err := brief.ParseProgress("progress.toml", []byte(progress))
	require.NoError(t, err)
	return Make(context.Background(), source(text), b, p, at)
}

func answer(t *testing.T, text, progress string) *Answer {
	t.Helper()
	a, err := ask(t, text, progress)
	require.NoError(t, err)
	return a
}

// lengths are those of the pieces to come, woven and finished.
func lengths(w Way) (all []string) {
	for _, p := range w.Pieces {
		all = append(all, fmt.Sprintf("%d %s %.1f %.1f", p.Number, p.Name, p.WovenMM, p.FinishedMM))
	}
	return all
}

// TestByHand: two of four are woven, 150 cm of the warp are left, 45 of which can't be
// woven: 105 x 0.9 = 94.5 cm of cloth. One piece is 60; the rest of 34.5 cm is 172 units,
// 34.4 cm, 30.96 finished. Two alike are 47.25 at most, 42.525 finished: of 42 cm, which is
// 46.67 woven, 233 units, 46.6 cm, 41.94 finished. One alone takes 60 / 0.9 + 45 =
// 111.67 cm. By weights of 1 and 3 times 128 of 300 units lost, a piece for 4, and 25
// times 12 of 54 cm, they come in this order: 2.28, 4, 5.56.
func TestByHand(t *testing.T) {
	a := answer(t, four,
		"woven = 2\nlengths = [\"60 cm\", \"60 cm\"]\n[warp]\nleft = \"150 cm\"\n"+
			"thrums = \"45 cm\"\n")
	require.Len(t, a.Ways, 3)
	assert.Equal(t, []string{"3 three 600.0 540.0", "4 four 344.0 309.6"}, lengths(a.Ways[0]))
	assert.InDelta(t, 450+944/0.9, a.Ways[0].TakesMM, 1e-3)
	assert.InDelta(t, 1500-450-944/0.9, a.Ways[0].OverMM, 1e-3)
	assert.Equal(t, `as planned, but "four" 31.0 cm long instead of 54.0 cm`,
		a.Ways[0].What)
	assert.Equal(t, []string{"3 three 600.0 540.0"}, lengths(a.Ways[1]))
	assert.InDelta(t, 450+600/0.9, a.Ways[1].TakesMM, 1e-3)
	assert.Equal(t, `1 piece as planned, without "four"`, a.Ways[1].What)
	assert.Equal(t, []string{"3 three 466.0 419.4", "4 four 466.0 419.4"}, lengths(a.Ways[2]))
	assert.Equal(t, "2 pieces of 42 cm instead of 54.0 cm", a.Ways[2].What)
	assert.True(t, a.Beat.Agrees)
	require.NotNil(t, a.Fit)
	assert.Equal(t, 1, a.Fit.Fits)
	assert.InDelta(t, 1200/0.9+450, a.Warp.TakesMM, 1e-3)
}

// TestYarnByHand: each of the two pieces to come takes 600 ground picks of 44 cm, 264 m, so
// 528 m of chalk; of night "three" takes 600 pattern picks, 264 m, and "four" 264 m of
// moss. 16/2 cotton is 73.82 tex (ASTM D2260: 590.5412 / 8), so 38.98 g of chalk.
func TestYarnByHand(t *testing.T) {
	const at = "woven = 2\n[warp]\nleft = \"2 m\"\nthrums = \"45 cm\"\n[[yarn]]\n" +
		"colour = \"chalk\"\nleft = \"%s\"\ncone = \"20 g\"\n"
	yarn := func(a *Answer, colour string) Yarn {
		for _, y := range a.Yarn {
			if y.Colour == colour {
				return y
			}
		}
		t.Fatalf("no yarn %q", colour)
		return Yarn{}
	}
	t.Run("reaches by the weight of a few centimetres", func(t *testing.T) {
		a := answer(t, four, fmt.Sprintf(at, "59 g"))
		assert.InDelta(t, 528, yarn(a, "chalk").NeedsM, 1e-3)
		assert.InDelta(t, 39/73.82*1000, *yarn(a, "chalk").LeftM, 0.1)
		assert.True(t, yarn(a, "chalk").Reaches)
		assert.Equal(t, []string{"3 three 600.0 540.0", "4 four 600.0 540.0"}, lengths(a.Ways[0]))
		assert.Contains(t, string(a.Ways[0].Text()), `on_hand = "39 g"      # plenty`)
	})
	t.Run("a gram less does not", func(t *testing.T) {
		a := answer(t, four, fmt.Sprintf(at, "58 g"))
		assert.False(t, yarn(a, "chalk").Reaches)
		for _, w := range a.Ways {
			b, p := planned(t, string(w.Text()))
			assert.LessOrEqual(t, p.Yarn[0].NeededM(), 38/73.82*1000+0.05, w.What)
			assert.Equal(t, "chalk", b.Colours[0].Name)
		}
	})
	t.Run("what was not weighed is what was on hand less what the plan used", func(t *testing.T) {
		// night: 3000 m less the 600 pattern picks of each of the two woven pieces
		a := answer(t, four, fmt.Sprintf(at, "59 g"))
		assert.InDelta(t, 3000-2*264, *yarn(a, "night").LeftM, 1e-3)
		assert.False(t, yarn(a, "night").Measured)
	})
	t.Run("a colour that is gone has another in its place", func(t *testing.T) {
		a := answer(t, four,
			"woven = 2\ngone = [\"night\"]\n[warp]\nleft = \"2 m\"\nthrums = \"45 cm\"\n")
		require.NotEmpty(t, a.Ways)
		assert.Contains(t, a.Ways[0].What, `instead of "night" in "three"`)
		_, p := planned(t, string(a.Ways[0].Text()))
		for _, run := range p.Pieces[2].Runs {
			assert.NotEqual(t, "night", run.Pattern)
		}
		assert.Equal(t, "night", p.Pieces[0].Runs[0].Pattern, "what is woven stays")
	})
}

// TestNothingReaches: 75 cm of warp, 60 of which can't be woven, are 13.5 cm of cloth, and a
// third of a piece is 20, which takes 22.22 cm of warp, with those 60 82.22.
func TestNothingReaches(t *testing.T) {
	a := answer(t, four, "woven = 3\n[warp]\nleft = \"75 cm\"\n")
	assert.Empty(t, a.Ways)
	assert.Equal(t,
		`one piece more, 18.0 cm of "four", takes 7.2 cm more warp than there is`,
		a.Nearest)
	t.Run("all are woven", func(t *testing.T) {
		a := answer(t, four, "woven = 4\n[warp]\nleft = \"60 cm\"\n")
		assert.Empty(t, a.Ways)
		assert.Contains(t, a.Nearest, "all 4 pieces of the set are woven")
	})
	t.Run("yarn", func(t *testing.T) {
		a := answer(t, four,
			"woven = 3\ngone = [\"chalk\", \"night\", \"moss\", \"plum\"]\n[warp]\n"+
				"left = \"1.27 m\"\n")
		assert.Empty(t, a.Ways)
		assert.Contains(t, a.Nearest,
			`of "chalk", and no other colour of its yarn can take its place`)
	})
}

// TestLongerThanTheTape: 61.2 and 61.2 cm woven where 60 were planned is 2 % longer, so
// 10/cm are 9.803 (9.8039, rounded down). A piece of 300 units is then 612 mm and a little,
// and the length asked for is what such a piece comes out at: 55.1 cm.
func TestLongerThanTheTape(t *testing.T) {
	a := answer(t, four,
		"woven = 2\nlengths = [\"61.2 cm\", \"61.2 cm\"]\n[warp]\nleft = \"2 m\"\n"+
			"thrums = \"45 cm\"\n")
	require.NotNil(t, a.Beat)
	assert.InDelta(t, 0.02, a.Beat.Longer, 1e-9)
	assert.False(t, a.Beat.Agrees)
	assert.Equal(t, "9.803/cm", a.Beat.Ground)
	b, p := planned(t, string(a.Ways[0].Text()))
	assert.Equal(t, "9.803/cm", b.Cloth.Ground.String())
	assert.Equal(t, "55.1 cm", b.Set.Length.String())
	assert.Equal(t, 300, p.Pieces[2].BodyUnits)
	assert.InDelta(t, 612.05, p.Pieces[2].WovenMM, 0.01)
	assert.InDelta(t, 612, p.Pieces[0].MeasuredMM, 1e-9)
	t.Run("by the end of the tape", func(t *testing.T) {
		a := answer(t, four, "woven = 2\nlonger = \"12 mm\"\n")
		assert.Equal(t, "9.803/cm", a.Beat.Ground)
		assert.InDelta(t, 612, a.Woven[0].WovenMM, 1e-9,
			"a piece that was not measured is like the one that was")
		b := answer(t, four, "woven = 2\nshorter = \"12 mm\"\n")
		assert.InDelta(t, -0.02, b.Beat.Longer, 1e-9)
	})
	t.Run("within what the ruler may be off", func(t *testing.T) {
		a := answer(t, four, "woven = 2\nlengths = [\"60.4 cm\", \"60.4 cm\"]\n")
		assert.True(t, a.Beat.Agrees)
		b, _ := planned(t, string(a.Ways[0].Text()))
		assert.Equal(t, "10/cm", b.Cloth.Ground.String())
	})
	t.Run("relaxed", func(t *testing.T) {
		// 58.2 cm after 3 % were lost are 60 under tension
		a := answer(t, four,
			"woven = 1\nlengths = [\"58.2 cm\"]\nmeasured = \"relaxed\"\nrelaxes = \"3%\"\n")
		assert.InDelta(t, 600, a.Woven[0].WovenMM, 1e-6)
	})
}

// TestSharesByHand: of 3.27 m, 20 cm were tied on and 1.72 m are left, so 135 cm became two
// pieces of 60 cm: 11.1 % taken up, where the brief has 10. At 5 mm off each for the pieces
// and what is left and tied it is between 1 - 121/134 = 9.7 and 1 - 119/136 = 12.5 %, so the
// brief agrees; at 1 mm it is between 10.8 and 11.4 %, and does not.
func TestSharesByHand(t *testing.T) {
	at := "woven = 2\nruler = \"%s\"\nlengths = [\"60 cm\", \"60 cm\"]\n[warp]\n" +
		"left = \"1.72 m\"\ntied = \"20 cm\"\n"
	a := answer(t, four, fmt.Sprintf(at, "5 mm"))
	require.Len(t, a.Shares, 1)
	s := a.Shares[0]
	assert.Equal(t, "cloth.take_up", s.Key)
	assert.InDelta(t, 0.1111, s.Measured, 1e-4)
	assert.InDelta(t, 1-121.0/134, s.Least, 1e-4)
	assert.InDelta(t, 1-119.0/136, s.Most, 1e-4)
	assert.True(t, s.Agrees)
	b, _ := planned(t, string(a.Ways[0].Text()))
	assert.Equal(t, "10%", b.Cloth.TakeUp.String())
	// tied and thrums are the waste: 40 cm of it are left
	assert.InDelta(t, 400, a.Warp.WasteMM, 1e-9)
	a = answer(t, four, fmt.Sprintf(at, "1 mm"))
	assert.False(t, a.Shares[0].Agrees)
	b, _ = planned(t, string(a.Ways[0].Text()))
	assert.Equal(t, "11.1%", b.Cloth.TakeUp.String())
	t.Run("what a pick takes", func(t *testing.T) {
		// two pieces take 1200 ground picks: 576 m are 48 cm each, 20 % beyond 40
		a := answer(t, four,
			"woven = 2\n[[yarn]]\ncolour = \"chalk\"\nleft = \"1000 m\"\nhad = \"1576 m\"\n")
		require.Len(t, a.Shares, 1)
		assert.Equal(t, "cloth.weft_extra", a.Shares[0].Key)
		assert.InDelta(t, 0.2, a.Shares[0].Measured, 1e-9)
		assert.False(t, a.Shares[0].Agrees)
		b, _ := planned(t, string(a.Ways[0].Text()))
		assert.Equal(t, "20.0%", b.Cloth.Extra.String())
		for _, y := range a.Yarn { // night was not weighed: 1200 picks of 48 cm less
			if y.Colour == "night" {
				assert.InDelta(t, 3000-576, *y.LeftM, 1e-3)
			}
		}
	})
}

// TestContradictions are refused with their place.
func TestContradictions(t *testing.T) {
	for progress, want := range map[string]string{
		"woven = 5\n": "progress.toml:1:9: woven: 5 pieces are woven, and the set has 4",
		"woven = 2\nlengths = " +
			"[\"60 cm\"]\n": "lengths: has 1 length, and 2 pieces are woven",
		"woven = 1\nlengths = " +
			"[\"20 cm\"]\n": "lengths: 20.0 cm were woven where 60.0 cm were planned",
		"woven = 1\nlengths = [\"61 cm\"]\n" +
			"shorter = \"2 cm\"\n": "shorter: the last piece is 61.0 cm by its length, and 58.0 " +
			"cm by its tape",
		"woven = 0\nlonger = " +
			"\"2 cm\"\n": "longer: no piece of this brief",
		"woven = 1\n[warp]\n" +
			"left = \"4 m\"\n": "warp.left: 4 m left of a warp of 3.27 m",
		"woven = 2\nlengths = [\"60 cm\", \"60 cm\"]\n[warp]\n" +
			"to_knots = \"2.3 m\"\n": "warp.to_knots: the cloth is longer than its warp",
		"woven = 1\n[[yarn]]\ncolour = \"chlak\"\n" +
			"left = \"1 g\"\n": `yarn[0].colour: the brief has no colour "chlak"`,
		"woven = 1\ngone = " +
			"[\"chlak\"]\n": `gone[0]: the brief has no colour "chlak"`,
		"woven = 1\n[[yarn]]\ncolour = \"chalk\"\nleft = \"9 g\"\n" +
			"had = \"8 g\"\n": `of "chalk" as much is left as there was`,
		"woven = 1\n[[yarn]]\ncolour = \"chalk\"\nleft = \"100 m\"\n" +
			"had = \"200 m\"\n": "less than the cloth is wide",
	} {
		_, err := ask(t, four, progress)
		var problems brief.Problems
		require.ErrorAs(t, err, &problems, progress)
		assert.ErrorContains(t, err, want)
		assert.NotEmpty(t, problems[0].Hint)
	}
}

// TestCommentsStay: the brief for the rest has every comment, and what is woven is written
// out under its own name.
func TestCommentsStay(t *testing.T) {
	a := answer(t, four, "woven = 2\n[warp]\nleft = \"2 m\"\nthrums = \"45 cm\"\n")
	text := string(a.Ways[0].Text())
	for _, comment := range []string{"# no losses in width", "# tied on and thrums", "# plenty",
		"# the third"} {
		assert.Contains(t, text, comment)
	}
	b, p := planned(t, text)
	assert.Equal(t, 2, b.WovenPieces())
	assert.Equal(t, 2, p.Woven())
	assert.Equal(t, "three", p.Pieces[2].Name)
	_, before := planned(t, four)
	for i := range 2 {
		assert.Equal(t, before.Pieces[i].Runs, p.Pieces[i].Runs)
	}
	assert.Equal(t, before.Set.Pairs, p.Set.Pairs, "as planned, the set is the one it was")
}

// TestOnceMore: from the brief for the rest she goes on, and lengths of the pieces that were
// woven since are enough.
func TestOnceMore(t *testing.T) {
	first := answer(t, four,
		"woven = 1\nlengths = [\"60 cm\"]\n[warp]\nleft = \"2.5 m\"\nthrums = \"45 cm\"\n")
	text := string(first.Ways[0].Text())
	a := answer(t, text, "woven = 2\nlengths = [\"60.3 cm\"]\n")
	// 250 less 60.3 / 0.9
	assert.InDelta(t, 2500-603/0.9, a.Warp.LeftMM, 1e-3)
	assert.InDelta(t, 450, a.Warp.WasteMM, 1e-9)
	require.NotEmpty(t, a.Ways)
	b, _ := planned(t, string(a.Ways[0].Text()))
	require.Len(t, b.Midway.Woven, 2)
	assert.Equal(t, "60 cm", b.Midway.Woven[0].String())
	assert.Equal(t, "60.3 cm", b.Midway.Woven[1].String())
	_, err := ask(t, text, "woven = 0\n")
	assert.ErrorContains(t, err, "0 pieces are woven, but 1 piece is by the brief")
	assert.Equal(t, 1, strings.Count(string(a.Ways[0].Text()), "[midway]"))
}
