package brief

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence"
)

// TestDefaultBrief reads the brief that comes with the program and holds a few
// of its values against the text.
func TestDefaultBrief(t *testing.T) {
	b, err := Parse("d.toml", Default(), Options{})
	require.NoError(t, err)
	assert.Equal(t, "Orchard kitchen towels", b.Title)
	assert.Equal(t, 6, b.Set.Pieces)
	assert.Equal(t, "460", b.Set.Width.MM.RatString())
	assert.Equal(t, "4/5", b.Cloth.Sett.PerMM.RatString())
	assert.Equal(t, "1/20", b.Cloth.DrawIn.Part.RatString())
	assert.Len(t, b.Colours, 6)
	assert.Len(t, b.Pieces, 6)
	assert.Equal(t, Run{Block: -1, Units: 4, Colour: -1}, b.Pieces[5].Weft.Runs[1])
	assert.Equal(t, b.Pieces[4].Weft.Ground, b.Pieces[4].Weft.Hem)
	assert.Empty(t, b.Assumed)
}

// change replaces one stretch of the default brief.
func change(t *testing.T, old, new string) []byte {
	t.Helper()
	text := string(Default())
	require.Contains(t, text, old)
	return []byte(strings.Replace(text, old, new, 1))
}

// TestProblems holds each kind of mistake against where it is reported and what
// is said. Places are counted in the brief's own text, not asserted by hand.
func TestProblems(t *testing.T) {
	for _, one := range []struct{ what, old, new, at, key, says, hint string }{
		{"unknown key", "pieces    = 6", "peices    = 6", "peices", "set.peices", "no such key", `did you mean "pieces"?`},
		{"unknown table", "[loom]", "[looms]", "looms", "looms", "no such key", `"loom"`},
		{"key of another case", "width     =", "Width     =", "Width", "set.Width", "no such key", `"width"`},
		{"bare number", `"46 cm"             #`, `46 #`, "46", "set.width", "no unit", "quotes"},
		{"unknown unit", `"46 cm"             #`, `"46 furlongs" #`, `"46 furlongs"`, "set.width", "furlongs", ""},
		{"share", `"5%"`, `"105%"`, `"105%"`, "cloth.draw_in", "", ""},
		{"loss of all", `"5%"`, `"95%"`, `"95%"`, "cloth.draw_in", "more than can be lost", ""},
		{"count", `"8/2 cotton"          #`, `"8/2 nettle" #`, `"8/2 nettle"`, "yarn.cotton.count", "nettle", ""},
		{"colour", `colours = ["oat", "barley"]`, `colours = ["oat", "barely"]`, `"barely"`, "warp.colours", `no colour "barely"`, `did you mean "barley"?`},
		{"structure", `"halvdrall"     #`, `"halvdral"     #`, `"halvdral"`, "cloth.structure", "no structure", `"halvdrall"`},
		{"run without colour", `"A 30 damson", "plain 4", "B 12`, `"A 30", "plain 4", "B 12`, `"A 30"`, "piece.runs", "has no colour", "BLOCK UNITS COLOUR"},
		{"run of no block", `"A 30 damson", "plain 4", "B 12`, `"C 30 damson", "plain 4", "B 12`, `"C 30`, "piece.runs", `no block "C"`, "A, B"},
		{"run of no units", `"A 30 damson", "plain 4", "B 12`, `"A x damson", "plain 4", "B 12`, `x damson", "plain`, "piece.runs", `"x" is not a number`, ""},
		{"plain misspelt", `"plain 4", "B 12`, `"plane 4", "B 12`, `"plane 4`, "piece.runs", `no block "plane"`, `did you mean "plain"`},
		{"no blank in a run", `"A 30 damson", "plain 4", "B 12`, `"A30 damson", "plain 4", "B 12`, `"A30`, "piece.runs", `no block "A30"`, `"A 30 ..."`},
		{"a heading lost", "[cloth]", "# [cloth]", "structure", "set.structure", "no such key", "stands under [cloth]"},
		{"a reed", `"40/10cm"            #`, `"50" #`, `"50"`, "loom.reed", "no unit", "50/10cm"},
		{"plain with colour", `"plain 4", "B 12`, `"plain 4 oat", "B 12`, `oat", "B 12`, "piece.runs", "no pattern colour", ""},
		{"hex", `"#efe6d2"`, `"#efe6d"`, `"#efe6d"`, "colour.hex", "not a colour", "six"},
		{"rhythm kind", `kind = "euclid"`, `kind = "euklid"`, `"euklid"`, "piece.rhythm.kind", "none of", `"euclid"`},
		{"key of another rhythm", `terms = 6, direction`, `stripes = 6, direction`, "stripes = 6", "piece.rhythm.stripes", "does not go with", ""},
		{"not from the series", "from = 2, direction", "from = 4, direction", "4, direction", "warp.rhythm", "nearest are 3 and 5", ""},
		{"list", `colours = ["night garden"]`, `colours = []`, "[]", "piece.colours", "is empty", ""},
		{"type", "floating_selvedge = true", `floating_selvedge = "yes"`, `"yes"`, "cloth.floating_selvedge", "should be true or false", ""},
		{"more tables than pieces", "pieces    = 6", "pieces    = 5", "", "piece", "6 [[piece]] tables for a set of 5", ""},
		{"twice", `name    = "barley"`, `name    = "oat"`, "", "colour.name", "two colours", ""},
		{"heddles", `# heddles = 500 `, `heddles = [1, 2] # `, "[1, 2]", "loom.heddles", "2 numbers for 4 shafts", "each shaft"},
		{"heddles of a shaft", `# heddles = 500 `, `heddles = [1, 2, -3, 4] # `, "-3", "loom.heddles", "whole numbers", ""},
		{"two widths", `# in_reed = "20 in"`, `in_reed = "20 in"`, `"20 in"`, "set.in_reed", "beside width", ""},
		{"not TOML", "pieces    = 6", "pieces    = ", "", "", "", "quotes"},
	} {
		text := change(t, one.old, one.new)
		_, err := Parse("b.toml", text, Options{})
		var problems Problems
		require.True(t, errors.As(err, &problems), one.what)
		p := problems[0]
		assert.Contains(t, p.What, one.says, one.what)
		assert.Contains(t, p.Hint, one.hint, one.what)
		assert.Equal(t, one.key, p.Key, one.what)
		lines := strings.Split(string(text), "\n")
		assert.Equal(t, lines[p.Line-1], p.LineText, one.what)
		if one.at != "" {
			assert.True(t, strings.HasPrefix(string([]rune(p.LineText)[p.Col-1:]), one.at), "%s: col %d of %q", one.what, p.Col, p.LineText)
		}
		assert.True(t, strings.HasPrefix(p.Error(), fmt.Sprintf("b.toml:%d:%d: ", p.Line, p.Col)), one.what)
	}
}

func TestMissing(t *testing.T) {
	for _, key := range []string{"sett", "ground", "rhythm", "colours", "hex", "count", "width", "length"} {
		var kept []string
		for _, line := range strings.Split(string(Default()), "\n") {
			if word, _, found := strings.Cut(line, "="); !found || strings.TrimSpace(word) != key {
				kept = append(kept, line)
			}
		}
		_, err := Parse("b.toml", []byte(strings.Join(kept, "\n")), Options{})
		var problems Problems
		require.True(t, errors.As(err, &problems), key)
		assert.True(t, strings.HasSuffix(problems[0].Key, key), problems[0].Error())
		assert.Equal(t, "is missing", problems[0].What)
		assert.NotEmpty(t, problems[0].Hint)
	}
}

func TestEveryProblemIsReportedTogether(t *testing.T) {
	text := strings.NewReplacer(`"8/cm"          # warp`, `"8 cm" # warp`, `shed     = "rising"`, `shed = "up"`).Replace(string(Default()))
	_, err := Parse("b.toml", []byte(text), Options{})
	var problems Problems
	require.True(t, errors.As(err, &problems))
	assert.Len(t, problems, 2)
	_, err = Parse("b.toml", []byte(strings.NewReplacer("[warp]", "[wrap]", `ground    = "oat"`, "").Replace(string(Default()))), Options{})
	require.True(t, errors.As(err, &problems))
	assert.Len(t, problems, 2, "what six pieces lack is told once, a misspelt heading as that: %v", err)
	_, err = Parse("b.toml", []byte(strings.NewReplacer(`sett          =`, `set =`, `width     =`, `widht =`).Replace(string(Default()))), Options{})
	require.True(t, errors.As(err, &problems))
	assert.Len(t, problems, 2, "%v", err)
}

func TestBytesThatAreNoBrief(t *testing.T) {
	_, err := Parse("b.toml", []byte("title = \"\xff\""), Options{})
	assert.ErrorContains(t, err, "b.toml:1:10: this is not UTF-8")
	_, err = Parse("b.toml", make([]byte, MaxBytes+1), Options{})
	assert.ErrorContains(t, err, "more than")
	_, err = Parse("b.toml", nil, Options{})
	assert.ErrorContains(t, err, "is missing")
}

func TestLineEndsAndMark(t *testing.T) {
	plain, err := Parse("b.toml", Default(), Options{})
	require.NoError(t, err)
	windows, err := Parse("b.toml", []byte("\xef\xbb\xbf"+strings.ReplaceAll(string(Default()), "\n", "\r\n")), Options{})
	require.NoError(t, err)
	plain.doc, windows.doc = nil, nil
	assert.Equal(t, plain, windows)
}

func TestShelf(t *testing.T) {
	shelf := func(name string) ([]byte, error) {
		if name != "shelf.toml" {
			return nil, errors.New("no such file")
		}
		return []byte("[yarn.wool]\ntex = 100\n[[colour]]\nname = \"moss\"\nhex = \"#556b2f\"\nyarn = \"wool\"\n" +
			"[[colour]]\nname = \"oat\"\nhex = \"#000000\"\nyarn = \"wool\"\n"), nil
	}
	text := change(t, `# shelf = "shelf.toml"`, `shelf = "shelf.toml"`)
	b, err := Parse("b.toml", text, Options{Shelf: shelf})
	require.NoError(t, err)
	require.Len(t, b.Colours, 7)
	assert.Equal(t, "moss", b.Colours[6].Name)
	assert.True(t, b.Colours[6].Shelf)
	assert.Equal(t, "#efe6d2", b.Colours[0].Hex, "the brief's own colour wins")
	_, err = Parse("b.toml", change(t, `# shelf = "shelf.toml"`, `shelf = "other.toml"`), Options{Shelf: shelf})
	assert.ErrorContains(t, err, `"other.toml" can't be read`)
	_, err = Parse("b.toml", text, Options{})
	assert.ErrorContains(t, err, "can't be read here")
}

func TestOverrides(t *testing.T) {
	b, err := Parse("b.toml", Default(), Options{Set: []Override{
		{"set.pieces", "4", "--pieces"}, {"warp.rhythm", `{ kind = "even", stripes = 3 }`, "--warp-rhythm"},
		{"weft.colours", `["rosehip"]`, "--weft-colours"}}})
	require.NoError(t, err)
	assert.Len(t, b.Pieces, 4)
	assert.Equal(t, &sequence.Even{Stripes: 3}, b.Warp.Rule.Rhythm.Kind)
	b, err = Parse("b.toml", Default(), Options{Set: []Override{{"set.in_reed", `"20 in"`, "--in-reed"}, {"set.woven", `"27 in"`, "--woven"}}})
	require.NoError(t, err)
	assert.Nil(t, b.Set.Width, "the other way to say it is put out of force")
	assert.Nil(t, b.Set.Length)
	_, err = Parse("b.toml", Default(), Options{Set: []Override{{"set.width", "46", "--width"}}})
	assert.ErrorContains(t, err, "--width: set.width: ")
	_, err = Parse("b.toml", Default(), Options{Set: []Override{{"set.width", "\"", "--width"}}})
	assert.ErrorContains(t, err, "--width: set.width: ")
}

// TestStructureNames: a name is taken as people write it.
func TestStructureNames(t *testing.T) {
	for _, name := range []string{"halvdräll", "Halvdrall", "summer and winter", "Monk's belt"} {
		_, err := Parse("b.toml", change(t, `"halvdrall"     #`, `"`+name+`" #`), Options{})
		assert.NoError(t, err, name)
	}
}

// TestLeftOut: a smaller set asked for by a flag says which pieces it lacks.
func TestLeftOut(t *testing.T) {
	b, err := Parse("b.toml", Default(), Options{Set: []Override{{"set.pieces", "4", "--pieces"}}})
	require.NoError(t, err)
	assert.Equal(t, []string{"lantern", "last apples"}, b.LeftOut)
}

// TestAssumedLosses: what is left out is assumed and told.
func TestAssumedLosses(t *testing.T) {
	b, err := Parse("b.toml", change(t, "draw_in       =", "# draw_in ="), Options{})
	require.NoError(t, err)
	assert.Equal(t, []string{"draw_in 5%"}, b.Assumed)
}

func TestNearest(t *testing.T) {
	assert.Equal(t, "shrink_width", Nearest("shrinkwidth", []string{"shrink_length", "shrink_width"}))
	assert.Equal(t, "fog", Nearest("fgo", []string{"spruce", "fog"}))
	assert.Empty(t, Nearest("zebra", []string{"spruce", "fog"}))
}
