package brief

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onLoom is a brief of three pieces, all written out.
const onLoom = `[set]
pieces = 3
[cloth]
sett = "8/cm"
ground = "8/cm"
[loom]
waste = "75 cm"
sample = "15 cm"
retie = "25 cm"
board = "4 m"
[yarn.a]
count = "8/2 cotton"
[[colour]]
name = "oat"
hex = "#eeeeee"
[warp]
runs = ["A 9 oat"]
[weft]
ground = "oat"
[[piece]]
runs = ["A 9 oat"]
[[piece]]
runs = ["A 9 oat"]
[[piece]]
runs = ["B 9 oat"]
`

func TestMidwayTable(t *testing.T) {
	b, err := Parse("b",
		[]byte(onLoom+"[midway]\nwoven = [\"61 cm\", \"60.5 cm\"]\nwarp = \"1.2 m\"\n"+
			"waste = \"45 cm\"\n"), Options{})
	require.NoError(t, err)
	assert.Equal(t, 2, b.WovenPieces())
	assert.Equal(t, "60.5 cm", b.Midway.Woven[1].String())
	assert.Equal(t, "1.2 m", b.Midway.Warp.String())
	assert.Equal(t, "45 cm", b.Loom.Waste.String(), "what can't be woven of the rest")
	assert.Zero(t, b.Loom.Sample.MM.Sign(), "no sample again")
	assert.Zero(t, b.Loom.RetieMM().Sign())
	assert.Nil(t, b.Loom.Board, "nothing is wound again")
	b, err = Parse("b", []byte(onLoom+"[midway]\nwoven = []\nwarp = \"1.2 m\"\n"), Options{})
	require.NoError(t, err)
	assert.Equal(t, 0, b.WovenPieces())
	assert.Equal(t, "75 cm", b.Loom.Waste.String())
	b, err = Parse("b", []byte(onLoom), Options{})
	require.NoError(t, err)
	assert.Nil(t, b.Midway)
	assert.Equal(t, 0, b.WovenPieces())
}

func TestMidwayProblems(t *testing.T) {
	const woven = "[midway]\nwoven = [\"61 cm\", \"60 cm\"]\nwarp = \"1.2 m\"\n"
	for _, c := range []struct{ name, text, want string }{
		{"no warp", onLoom + "[midway]\nwoven = [\"61 cm\"]\n", "midway.warp: is missing"},
		{"all of them", onLoom +
			"[midway]\nwoven = [\"6 cm\", \"6 cm\", \"6 cm\"]\nwarp = \"1 m\"\n",
			"midway.woven: has 3 pieces, and the set has 3"},
		{"no unit", onLoom + "[midway]\nwoven = [\"61\"]\nwarp = \"1 m\"\n", "midway.woven: "},
		{"no length", onLoom + "[midway]\nwoven = [\"0 cm\"]\nwarp = \"1 m\"\n",
			"midway.woven: 0 cm is no length of a piece"},
		{"a misspelt key", onLoom + "[midway]\nwoven = []\nwarps = \"1 m\"\n",
			"midway.warps: there is no such key"},
		{"a warp by rules", strings.Replace(onLoom, "[warp]\nruns = [\"A 9 oat\"]",
			"[warp]\ncolours = [\"oat\"]\nrhythm = { kind = \"even\", stripes = 2 }", 1) + woven,
			"midway: the warp is on the loom, and its runs are not written out"},
		{"a piece by rules",
			strings.Replace(onLoom, "[[piece]]\nruns = [\"A 9 oat\"]\n",
				"[[piece]]\ncolours = [\"oat\"]\nrhythm = { kind = \"even\", stripes = 2 }\n", 1) +
				woven,
			"midway: piece 1 is woven, and its runs are not written out"},
		{"a held piece", strings.Replace(onLoom, "[[piece]]\nruns", "[[piece]]\nhold = true\nruns",
			1) + woven,
			"midway: piece 1 is woven, and its runs are not written out, without hold"},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := strings.Replace(c.text, "pieces = 3\n",
				"pieces = 3\nwidth = \"40 cm\"\nlength = \"20 cm\"\n", 1)
			_, err := Parse("b.toml", []byte(text), Options{})
			var problems Problems
			require.ErrorAs(t, err, &problems)
			assert.Contains(t, problems.Error(), c.want)
			assert.NotEmpty(t, problems[0].Hint)
		})
	}
	t.Run("fewer pieces by a flag", func(t *testing.T) {
		_, err := Parse("b", []byte(onLoom+woven),
			Options{Set: []Override{{Key: "set.pieces", Value: "2", Flag: "--pieces"}}})
		assert.ErrorContains(t, err, "has 2 pieces, and the set has 2")
	})
}

func TestParseProgress(t *testing.T) {
	at, err := ParseProgress("p", []byte(`woven = 2
lengths = ["58.2 cm", "97 cm"]
measured = "relaxed"
relaxes = "3%"
ruler = "2 mm"
longer = "1 cm"
gone = ["plum"]
[warp]
to_knots = "3 m"
tied = "20 cm"
[[yarn]]
colour = "oat"
left = "215 g"
cone = "32.5 g"
had = "400 g"
[[yarn]]
colour = "rust"
left = "120 m"
`))
	require.NoError(t, err)
	assert.Equal(t, 2, at.Woven)
	// 58.2 / 0.97 and 97 / 0.97, each off by 2 / 0.97
	assert.Equal(t, "600", at.Lengths[0].MM.RatString())
	assert.Equal(t, "1000", at.Lengths[1].MM.RatString())
	assert.Equal(t, "200/97", at.Lengths[1].OffMM.RatString())
	assert.Equal(t, "10", at.Beyond.MM.RatString())
	assert.Equal(t, "3000", at.Left.MM.RatString())
	assert.True(t, at.ToKnots)
	assert.Nil(t, at.Wound)
	assert.Equal(t, "200", at.Tied.MM.RatString())
	require.Len(t, at.Yarns, 3)
	assert.True(t, at.Yarns[0].Gone)
	assert.Equal(t, "plum", at.Yarns[0].Colour)
	assert.Equal(t, "365/2", at.Yarns[1].Left.Grams.RatString())
	assert.Equal(t, "400", at.Yarns[1].Had.Grams.RatString())
	assert.Equal(t, "120000", at.Yarns[2].Left.MM.RatString())
}

func TestProgressProblems(t *testing.T) {
	for text, want := range map[string]string{
		"":                                "woven: is missing",
		"woven = 201\n":                   "p.toml:1:9: woven: must be from 0 to 200",
		"woven = 1\nlenghts = []\n":       "p.toml:2:1: lenghts: there is no such key",
		"woven = 1\nlengths = [\"61\"]\n": "p.toml:2:12: lengths: ",
		"woven = 1\nlengths = [\"61 cm\", " +
			"\"60 cm\"]\n": "p.toml:2:11: lengths: has more lengths (2) than pieces are woven (1)",
		"woven = 1\nlengths = [\"61 cm\"]\n" +
			"measured = \"relaxed\"\n": "p.toml:3:12: measured: relaxed lengths alone don't say",
		"woven = 1\nmeasured = \"slack\"\n": "measured: " +
			"\"slack\" is none of under tension, relaxed",
		"woven = 1\nrelaxes = \"40%\"\n": "relaxes: " +
			"40% is more than cloth loses",
		"woven = 1\nlonger = \"1 cm\"\n" +
			"shorter = \"1 cm\"\n": "p.toml:3:11: shorter: stands beside longer",
		"woven = 1\n[warp]\nleft = \"1 m\"\n" +
			"to_knots = \"1 m\"\n": "p.toml:4:12: warp.to_knots: stands beside left",
		"woven = 1\n[[yarn]]\n" +
			"colour = \"oat\"\n": "yarn.left: is missing",
		"woven = 1\n[[yarn]]\ncolour = \"oat\"\nleft = \"20 g\"\n" +
			"cone = \"32 g\"\n": "yarn.left: 20 g is less than the empty cone, 32 g",
		"woven = 1\n[[yarn]]\ncolour = \"oat\"\nleft = \"20 m\"\n" +
			"cone = \"32 g\"\n": "yarn.cone: is taken off a weight",
		"woven = 1\ngone = [\"oat\"]\n[[yarn]]\ncolour = \"oat\"\n" +
			"left = \"20 m\"\n": `p.toml:4:10: yarn[0].colour: "oat" is there twice`,
		"woven = 1\n" +
			"yarn = [3]\n": "yarn: should hold tables",
	} {
		_, err := ParseProgress("p.toml", []byte(text))
		var problems Problems
		require.ErrorAs(t, err, &problems, text)
		assert.Contains(t, problems.Error(), want, text)
		assert.NotEmpty(t, problems[0].Hint, text)
	}
}

// TestProgressTemplate: in either system of units the template is read as it is, and with
// every example written out but those that stand beside others.
func TestProgressTemplate(t *testing.T) {
	for _, units := range []string{"cm", "in"} {
		text := ProgressTemplate(units)
		assert.NotContains(t, string(text), "|")
		at, err := ParseProgress("t", text)
		require.NoError(t, err)
		assert.Equal(t, 3, at.Woven)
		whole := regexp.MustCompile(`(?m)^# (\w+ *= |\[)`).ReplaceAllString(string(text), "$1")
		for _, beside := range []string{"shorter", "to_knots"} {
			whole = regexp.MustCompile(`(?m)^`+beside+` .*\n`).ReplaceAllString(whole, "")
		}
		at, err = ParseProgress("t", []byte(whole))
		require.NoError(t, err)
		assert.Len(t, at.Lengths, 3)
		assert.Len(t, at.Yarns, 2)
		assert.NotNil(t, at.Wound)
		inches := strings.Contains(whole, `"32 1/4 in"`)
		assert.Equal(t, units == "in", inches)
	}
}
