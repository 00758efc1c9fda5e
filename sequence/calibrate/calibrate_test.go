package calibrate

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

func planned(t *testing.T, text []byte) (*brief.Brief, *plan.Plan) {
	t.Helper()
	b, err := brief.Parse("brief.toml", text, brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return b, p
}

func answer(t *testing.T, measured string) (*Answer, error) {
	t.Helper()
	b, p := planned(t, brief.Default())
	m, err := brief.ParseMeasured("measured.toml", []byte(measured))
	require.NoError(t, err)
	return Make(b, p, m, nil)
}

func share(t *testing.T, a *Answer, key string) Share {
	t.Helper()
	for _, s := range a.Shares {
		if s.Key == "cloth."+key {
			return s
		}
	}
	require.Fail(t, "no share", key)
	return Share{}
}

// TestLossesByHand: 50 cm in the reed and 47.5 at the fell is 5 % drawn in. With
// 1 mm either way it is between 1 - 476/499 = 4.609 % and 1 - 474/501 = 5.389 %.
// 6 m wound less 80 cm is 520 cm, of which 478.4 woven is 8 % taken up.
func TestLossesByHand(t *testing.T) {
	a, err := answer(t, `
[width]
reed = "50 cm"
fell = "47.5 cm"
finished = "42.75 cm"
[length]
woven = "80 cm"
finished = "73.6 cm"
[warp]
wound = "6 m"
leftover = "80 cm"
woven = "478.4 cm"
to = "1 cm"
[[weft]]
colour = "oat"
picks = 1000
used = "555 m"
`)
	require.NoError(t, err)
	draw := share(t, a, "draw_in")
	assert.InDelta(t, 0.05, draw.Measured, 1e-9)
	assert.InDelta(t, 0.0461, draw.Least, 1e-9)
	assert.InDelta(t, 0.0539, draw.Most, 1e-9)
	assert.True(t, draw.Agrees)
	assert.InDelta(t, 0.1, share(t, a, "shrink_width").Measured, 1e-9)
	length := share(t, a, "shrink_length")
	assert.InDelta(t, 0.08, length.Measured, 1e-9)
	assert.False(t, length.Agrees, "the brief says 10%")
	up := share(t, a, "take_up")
	assert.InDelta(t, 0.08, up.Measured, 1e-9)
	// 1 - 479.4/518 = 7.452 % and 1 - 477.4/522 = 8.544 %
	assert.InDelta(t, 0.0745, up.Least, 1e-9)
	assert.InDelta(t, 0.0854, up.Most, 1e-9)
	// 55.5 cm to a pick of 50 cm
	assert.InDelta(t, 0.11, share(t, a, "weft_extra").Measured, 1e-9)
}

// TestByWeight: 16/2 cotton is 73.82 tex (ASTM D2260: 590.5412 / 8), so 40.6 g
// of it are 550.0 m; 1000 picks in a reed of 50 cm then take 10 % extra.
func TestByWeight(t *testing.T) {
	a, err := answer(t, "[width]\nreed = \"50 cm\"\n[[weft]]\ncolour = \"oat\"\npicks = 1000\n"+
		"used = \"40.6 g\"\nto = \"0.1 g\"\n")
	require.NoError(t, err)
	s := share(t, a, "weft_extra")
	assert.InDelta(t, 0.1, s.Measured, 2e-4)
	assert.Less(t, s.Least, 0.1)
	assert.Greater(t, s.Most, 0.1)
}

// TestPlanIsFound: sizes taken from a plan give its brief's shares back, within
// the bounds that the rounding of the sizes leaves.
func TestPlanIsFound(t *testing.T) {
	text := string(brief.Default())
	for _, c := range []struct{ draw, up, width, length string }{{"5%", "8%", "10%", "10%"},
		{"7.5%", "11%", "4%", "13.2%"}, {"0%", "0%", "0%", "0%"}} {
		for key, v := range map[string]string{"draw_in": c.draw, "take_up": c.up,
			"shrink_width": c.width, "shrink_length": c.length} {
			text = regexp.MustCompile(`(?m)^`+key+`( *)= "[^"]*"`).
				ReplaceAllString(text, key+`$1= "`+v+`"`)
		}
		b, p := planned(t, []byte(text))
		w, piece := p.Warp, p.Pieces[0]
		m, err := brief.ParseMeasured("m", fmt.Appendf(nil, `ruler = "0.1 mm"
[width]
reed = "%.1f mm"
fell = "%.1f mm"
finished = "%.1f mm"
[length]
woven = "%.1f mm"
finished = "%.1f mm"
[warp]
wound = "%.1f mm"
leftover = "%.1f mm"
woven = "%.1f mm"
[[weft]]
colour = "oat"
picks = 1000
used = "%.0f m"
`, w.ReedWidthMM, w.WovenWidthMM, w.FinishedWidthMM, piece.BodyWovenMM, piece.FinishedMM,
			w.WoundMM, p.Cloth.WasteMM+p.Cloth.RetieMM, w.WovenMM+p.Cloth.SampleMM,
			1000*p.Cloth.PickM))
		require.NoError(t, err)
		a, err := Make(b, p, m, nil)
		require.NoError(t, err)
		require.Len(t, a.Shares, 5)
		for _, s := range a.Shares {
			assert.True(t, s.Agrees, "%s: %v to %v, not %v", s.Key, s.Least, s.Most, s.Assumed)
			assert.LessOrEqual(t, s.Least, s.Measured)
			assert.LessOrEqual(t, s.Measured, s.Most)
		}
	}
}

func TestContradictions(t *testing.T) {
	for text, want := range map[string]string{
		"[warp]\nwound = \"5 m\"\nwoven = \"4.6 m\"\n" +
			"leftover = \"50 cm\"\n": "measured.toml:3:9: warp.woven: the cloth is longer " +
			"than its warp",
		"[warp]\nwound = \"5 m\"\nwoven = \"4.6 m\"\n" +
			"leftover = \"6 m\"\n": "measured.toml:4:12: warp.leftover: 6 m left of a warp of 5 m",
		"[width]\nreed = \"50 cm\"\n" +
			"fell = \"51 cm\"\n": "measured.toml:3:8: width.fell: the cloth is wider at the fell",
		"[width]\nfell = \"50 cm\"\n" +
			"finished = \"51 cm\"\n": "width.finished: the finished cloth is wider",
		"[length]\nwoven = \"50 cm\"\n" +
			"finished = \"51 cm\"\n": "length.finished: the finished cloth is longer",
		"[length]\nwoven = \"50 cm\"\n" +
			"finished = \"4 cm\"\n": "more than can be",
		"[width]\nreed = \"50 cm\"\n[[weft]]\ncolour=\"oat\"\npicks=1000\n" +
			"used=\"400 m\"\n": "less than the cloth is wide",
		"[[weft]]\ncolour=\"oats\"\npicks=1000\n" +
			"used=\"400 m\"\n": "no colour \"oats\"",
		"[width]\nreed = " +
			"\"50 cm\"\n": "nothing here gives a percentage",
	} {
		_, err := answer(t, text)
		var problems brief.Problems
		require.ErrorAs(t, err, &problems, text)
		assert.ErrorContains(t, err, want)
	}
}

// TestWithinTheRuler: a millimetre too wide is the ruler's doing, and no
// share is below nothing.
func TestWithinTheRuler(t *testing.T) {
	a, err := answer(t, "[width]\nreed = \"50 cm\"\nfell = \"50.1 cm\"\n")
	require.NoError(t, err)
	assert.Zero(t, share(t, a, "draw_in").Measured)
	assert.Equal(t, "0.0%", share(t, a, "draw_in").Text())
}

// TestChangesLeaveTheRest: the edited brief is read with the measured shares,
// and only those lines differ.
func TestChangesLeaveTheRest(t *testing.T) {
	a, err := answer(t, "[width]\nreed = \"50 cm\"\nfell = \"46 cm\"\n[length]\nwoven=\"1 m\"\n"+
		"finished=\"87.5 cm\"\n")
	require.NoError(t, err)
	before := brief.Default()
	after, err := brief.Edit("b", before, a.Changes())
	require.NoError(t, err)
	b, _ := planned(t, after)
	assert.Equal(t, "8.0%", b.Cloth.DrawIn.String())
	assert.Equal(t, "12.5%", b.Cloth.ShrinkLength.String())
	x, y := strings.Split(string(before), "\n"), strings.Split(string(after), "\n")
	require.Len(t, y, len(x))
	differ := 0
	for i := range x {
		if x[i] != y[i] {
			differ++
		}
	}
	assert.Equal(t, 2, differ)
}

// TestTemplate: the template is read as it is, and with every example written
// out gives every share.
func TestTemplate(t *testing.T) {
	for _, units := range []string{"cm", "in"} {
		t.Run(units, func(t *testing.T) { testTemplate(t, units) })
	}
}

func testTemplate(t *testing.T, units string) {
	template := brief.MeasuredTemplateIn(units)
	_, err := brief.ParseMeasured("t", template)
	require.NoError(t, err)
	whole := regexp.MustCompile(`(?m)^# (\w+ *= |\[)`).ReplaceAll(template, []byte("$1"))
	if units == "in" {
		assert.NotRegexp(t, `\d ?(mm|cm|m|g)"`, string(whole))
	}
	m, err := brief.ParseMeasured("t", whole)
	require.NoError(t, err)
	b, p := planned(t, brief.DefaultIn(units))
	colour := func(name string) int {
		return slices.IndexFunc(b.Colours, func(c brief.Colour) bool { return c.Name == name })
	}
	s := m.Sample
	trio := look.Trio{Warp: colour(s.Warp), Ground: colour(s.Ground), Pattern: colour(s.Pattern)}
	a, err := Make(b, p, m, evenStudio().clothOf(t, b, trio, 1.44, 0.02))
	require.NoError(t, err)
	assert.Len(t, a.Shares, 5)
	assert.Len(t, a.Sample.Values, 2)
}
