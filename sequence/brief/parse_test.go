package brief

import (
	"errors"
	"fmt"
	"math/big"
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
	assert.Equal(t, "1", b.Cloth.Sett.PerMM.RatString())
	assert.Equal(t, "1/20", b.Cloth.DrawIn.Part.RatString())
	assert.Len(t, b.Colours, 7)
	assert.Len(t, b.Pieces, 6)
	assert.Equal(t, Run{Block: -1, Units: 4, Colour: -1}, b.Pieces[5].Weft.Runs[1])
	assert.Equal(t, "oat thread", b.Colours[b.Pieces[4].Weft.Hem].Name,
		"another ground leaves the hem as [weft] has it")
	assert.Empty(t, b.Assumed)
}

// parsed is the small brief with changes, read.
func parsed(t *testing.T, changes []Change) *Brief {
	t.Helper()
	b, err := Parse("b.toml", []byte(changed(t, changes)), Options{})
	require.NoError(t, err)
	return b
}

// graded is the graded rhythm of a brief's warp.
// laid is how the warp's blocks lie, without how that was written.
func laid(b *Brief) any {
	blocks := b.Warp.Rule.Blocks
	blocks.Laid = nil
	return blocks
}

func graded(b *Brief) *sequence.Graded { return b.Warp.Rule.Rhythm.Kind.(*sequence.Graded) }

// TestParse holds what is read against what the small brief, changed, says.
// Exact numbers are told as fractions.
func TestParse(t *testing.T) {
	seed := int64(12)
	for _, one := range []struct {
		name    string
		changes []Change
		read    func(*Brief) any
		want    any
	}{
		{"a title left out", set("title", ""), func(b *Brief) any { return b.Title }, "untitled"},
		{"pieces by their tables", set("set.pieces", ""),
			func(b *Brief) any { return b.Set.Pieces }, 2},
		{"pieces without tables", set("set.pieces", "3"),
			func(b *Brief) any { return []any{b.Pieces[2].Name, b.Pieces[2].Open} },
			[]any{"piece 3", true}},
		// common practice, no source
		{"losses left out", nil, func(b *Brief) any { return b.Assumed },
			[]string{"draw_in 5%", "take_up 8%", "shrink_width 10%", "shrink_length 10%",
				"weft_extra 10%"}},
		{"spread and scatter", set("cloth.spread", "1.25", "cloth.scatter", "0"),
			func(b *Brief) any { return fmt.Sprint(b.Cloth.Spread, b.Cloth.Scatter) }, "5/4 0/1"},
		{"tying on again, with a sample", set("loom.sample", `"20 cm"`, "loom.retie", `"25 cm"`),
			func(b *Brief) any { return b.Loom.RetieMM().RatString() }, "250"},
		{"tying on again, without", set("loom.retie", `"25 cm"`),
			func(b *Brief) any { return b.Loom.RetieMM().RatString() }, "0"},
		{"a loom where untied shafts sink, with levers",
			set("loom.shed", `"both"`, "loom.treadles", "0"),
			func(b *Brief) any { return []any{b.Loom.Shed, b.Loom.Treadles} }, []any{"both", 0}},
		{"one shaft to each treadle", set("loom.tie_up", `"direct"`),
			func(b *Brief) any { return b.Loom.TieUp }, "direct"},
		{"how it is dressed and how fast woven", set("loom.dress", `"front to back"`,
			"loom.thread_from", `"right"`, "loom.pace", "900"),
			func(b *Brief) any { return []any{b.Loom.Dress, b.Loom.ThreadFrom, b.Loom.Pace} },
			[]any{"front to back", "right", 900}},
		{"the same left out", nil,
			func(b *Brief) any {
				return []any{b.Loom.Dress, b.Loom.ThreadFrom, b.Loom.Pace,
					b.Loom.Shed}
			},
			[]any{"", "left", 0, "rising"}},
		{"heddles in all", set("loom.heddles", "0x1F4"),
			func(b *Brief) any { return []any{b.Loom.Heddles, b.Loom.HeddlesBy} },
			[]any{500, []int(nil)}},
		{"heddles by shaft", set("loom.heddles", "[120, 160, +120, 160]"),
			func(b *Brief) any { return []any{b.Loom.Heddles, b.Loom.HeddlesBy} },
			[]any{560, []int{120, 160, 120, 160}}},
		{"a run wins over tex and count", set("yarn.linen.run", `"10000 m/kg"`),
			func(b *Brief) any { return b.Yarns[1].Tex.RatString() }, "100"},
		{"a package by weight", set("yarn.linen.package", `"250 g"`),
			func(b *Brief) any { return b.Yarns[1].PackageM.RatString() }, "2500"},
		{"stock by length", nil,
			func(b *Brief) any { return b.Colours[1].OnHandM.RatString() }, "900"},
		{"stock by weight", set("colour[1].on_hand", `"1 kg"`),
			func(b *Brief) any { return b.Colours[1].OnHandM.RatString() }, "10000"},
		{"the only yarn", set("yarn.linen", "", "colour[0].yarn", "", "colour[1].yarn", ""),
			func(b *Brief) any { return []int{b.Colours[0].Yarn, b.Colours[1].Yarn} }, []int{0, 0}},
		{"rules beside runs", set("warp.runs", `["A 6 oat", "B 6 plum"]`),
			func(b *Brief) any { return []any{b.Warp.Runs, b.Warp.Beside} },
			[]any{[]Run{{0, 6, 0}, {1, 6, 1}}, []string{"warp.colours", "warp.rhythm"}}},
		{"a rhythm wins over inherited runs", set("weft.runs", `["A 6 plum"]`,
			"piece[0].rhythm", `{ kind = "even", stripes = 3 }`),
			func(b *Brief) any { return b.Pieces[0].Weft.Runs }, []Run(nil)},
		{"shares", set("warp.colours", `["oat", "plum"]`, "warp.order", `"shares"`,
			"warp.shares", "[1.5, 1]"),
			func(b *Brief) any { return b.Warp.Rule.Shares }, []int64{3, 2}},
		{"a first block and a seed", set("piece[0].first", `"B"`, "piece[0].seed", "12"),
			func(b *Brief) any { r := b.Pieces[0].Weft.Rule; return []any{r.Blocks.First, r.Seed} },
			[]any{1, &seed}},
		{"blocks that change with stripes", set("warp.blocks", `"stripes"`),
			laid, Blocks{}},
		{"blocks apart", set("warp.blocks",
			`{ letters = "A B A", weights = [1, 2, 1], mirror = true }`),
			laid,
			Blocks{Apart: true, Letters: []int{0, 1, 0}, Weights: []int64{1, 2, 1}, Mirror: true}},
		{"blocks apart, alike", set("warp.blocks", `{ letters = "BA" }`),
			laid,
			Blocks{Apart: true, Letters: []int{1, 0}, Weights: []int64{1, 1}}},
		{"a ratio", set("warp.rhythm", `{ kind = "graded", stripes = 3, ratio = "5:2" }`),
			func(b *Brief) any { return graded(b).Ratio.RatString() }, "5/2"},
		{"a ratio to one", set("warp.rhythm", `{ kind = "graded", stripes = 3, ratio = "5" }`),
			func(b *Brief) any { return graded(b).Ratio.RatString() }, "5"},
		{"nothing to choose", nil, func(b *Brief) any { return b.Vary }, (*Vary)(nil)},
		{"a choice with all left out", set("vary.candidates", "9"),
			func(b *Brief) any { return b.Vary },
			&Vary{Candidates: 9, Colours: []int{1}, PerPiece: [2]int{1, 1}, Kinship: "colour",
				Rhythms: []string{"even", "repeat", "fibonacci", "graded", "random", "euclid"}}},
		{"a choice with all given", set("vary.candidates", "9", "vary.at_least", "4",
			"vary.colours", `["oat", "plum"]`, "vary.per_piece", "[1, 2]",
			"vary.rhythms", `["even", "euclid"]`, "vary.within", `"on_hand"`,
			"vary.kinship", `"none"`),
			func(b *Brief) any { return b.Vary },
			&Vary{Candidates: 9, AtLeast: big.NewRat(4, 1), Colours: []int{0, 1},
				PerPiece: [2]int{1, 2}, Rhythms: []string{"even", "euclid"},
				OnHand: true, Kinship: "none"}},
		{"a structure's name as people write it", set("cloth.structure", `"Monk's belt"`),
			func(b *Brief) any { return b.Structure.Name }, "monks-belt"},
		{"a structure's name with dots", set("cloth.structure", `"Halvdräll"`),
			func(b *Brief) any { return b.Structure.Name }, "halvdrall"},
		{"a closing end", set("cloth.closing_end", "true"),
			func(b *Brief) any { return b.Structure.Closing }, true},
		{"no closing end", nil,
			func(b *Brief) any { return b.Structure.Closing }, false},
		{"a structure of the weaver's own", own(
			"structure.sheds", "{ A = [[1, 2], [1, 2]], B = [[3, 4], [3, 4]] }",
			"structure.order", `"P1 a P2 b"`),
			func(b *Brief) any {
				s := b.Structure
				return []any{s.Name, s.Letters(), len(s.Blocks[1].Sheds)}
			},
			[]any{"own", []string{"A", "B"}, 2}},
	} {
		t.Run(one.name, func(t *testing.T) {
			assert.Equal(t, one.want, one.read(parsed(t, one.changes)))
		})
	}
}

func TestProblemsAreReportedTogether(t *testing.T) {
	for _, one := range []struct {
		name    string
		changes []Change
		says    string
	}{
		{"in the order of the file", set("loom.shed", `"up"`, "cloth.sett", `"8 cm"`),
			"b.toml:10:10: cloth.sett: \"8 cm\" is a length, not a thread count: " +
				"write \"8/cm\"\n" +
				"b.toml:15:8: loom.shed: \"up\" is none of rising, sinking, both"},
		{"what every piece lacks, once", set("weft.ground", "", "weft.colours", ""),
			"b.toml:37:2: weft.ground: is missing\nb.toml:37:2: weft.colours: is missing"},
		{"a key in place of a missing one, once", set("cloth.sett", "", "cloth.set", `"8/cm"`),
			"b.toml:11:1: cloth.set: there is no such key"},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Parse("b.toml", []byte(changed(t, one.changes)), Options{})
			assert.EqualError(t, err, one.says)
		})
	}
	t.Run("twenty at most", func(t *testing.T) {
		text := small + "runes = 1\n" + strings.Repeat("[[colour]]\nrunes = 1\n", 30)
		_, err := Parse("b.toml", []byte(text), Options{})
		assert.Len(t, err, 20)
	})
}

// TestTextsThatAreNoBrief: what is no TOML, or too much of it, is refused before
// it is read.
func TestTextsThatAreNoBrief(t *testing.T) {
	const quotes = "texts stand in quotes, as in \"46 cm\"; numbers, true and false without"
	const brackets = "write [[piece]], in two pairs of brackets, above each of them"
	for _, one := range []struct{ name, text, says, hint string }{
		{"nothing", "", "b.toml:1:1: yarn: is missing",
			"describe at least one yarn: [yarn.cotton] with count = \"8/2 cotton\""},
		{"no value", "[set]\npieces = \n",
			"b.toml:2:10: there is no value here that could be read", quotes},
		{"a key twice", "seed = 1\nseed = 2\n",
			"b.toml:2:1: seed: stands here a second time", "keep one of the two"},
		{"a heading twice", "[set]\n[set]\n", "b.toml:2:2: set: [set] stands here a second time",
			"put its keys under one heading"},
		{"no quotes", "[set]\nwidth = 20 in # woven\n", "b.toml:2:12: a text is not in quotes",
			`put it in quotes: width = "20 in"`},
		{"curly quotes", "[set]\nwidth = “20 in”\n",
			"b.toml:2:9: the quotation marks are not straight ones",
			`write straight ones, as in "46 cm": a plain text editor types them`},
		{"yes", "[cloth]\nfloating_selvedge = yes\n",
			`b.toml:2:21: "yes" is neither true nor false`,
			"write floating_selvedge = true"},
		{"Off", "[cloth]\nfloating_selvedge = Off\n",
			`b.toml:2:21: "Off" is neither true nor false`,
			"write floating_selvedge = false"},
		{"no comma", "a = [\"x\" \"y\"]\n",
			"b.toml:1:10: a comma is missing in the list, or the ] at its end",
			`write a comma between the items, as in ["oat", "barley"]`},
		{"quotes within", "title = \"the \"big\" one\"\n",
			"b.toml:1:15: the line goes on where its value ends",
			"write one key on a line; a text that holds quotation marks stands in single ones"},
		{"an open text", "a = \"8%\nb = 1\n",
			"b.toml:1:8: the quotation mark at the end of the text is missing",
			`write a text as in "46 cm", on one line`},
		{"a blank in a key", "draw in = \"5%\"\n",
			"b.toml:1:6: there is no = between key and value",
			`write a line as in hem = "4 cm"; the name of a key has no blanks in it`},
		{"one bracket, twice", "[piece]\n[piece]\n",
			"b.toml:1:2: piece: one of the pieces stands under [piece], in one pair of brackets",
			brackets},
		{"one bracket, then two", "[piece]\n[[piece]]\n",
			"b.toml:1:2: piece: one of the pieces stands under [piece], in one pair of brackets",
			brackets},
		{"two brackets, then one", "[[piece]]\n[piece]\n",
			"b.toml:2:2: piece: one of the pieces stands under [piece], in one pair of brackets",
			brackets},
		{"Latin-1", "title = \"\xe5\"", "b.toml:1:10: this is not UTF-8 text",
			"save the file with the encoding UTF-8"},
		{"UTF-16", "\xff\xfet\x00", "b.toml:1:1: this is not UTF-8 text",
			"it is UTF-16, as PowerShell writes with >: open it in an editor and save it " +
				"with the encoding UTF-8"},
		{"a picture", strings.Repeat("x", MaxBytes+1),
			"b.toml: the file is larger than 1 MB, more than a brief may have",
			"a brief is a few pages of text: is this the right file?"},
		{"a table of another program", strings.Repeat("a=1\n", MaxKeys+1),
			"b.toml: the file has more than the 10000 keys and headings a brief may have",
			"a brief is a few pages of text: is this the right file?"},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Parse("b.toml", []byte(one.text), Options{})
			require.Error(t, err)
			assert.Equal(t, one.says, err.(Problems)[0].Error())
			assert.Equal(t, one.hint, err.(Problems)[0].Hint)
		})
	}
}

// TestLimits: work is bounded before it is begun.
func TestLimits(t *testing.T) {
	many := func(n int, one string) string { return "[" + strings.Repeat(one+", ", n) + "]" }
	for _, one := range []struct {
		name    string
		changes []Change
		says    string
	}{
		{"colours", set("colour", "", "colour", many(MaxColours+1, "{}")),
			"b.toml:3:10: colour: there are 501 colours, more than 500"},
		{"runs", set("piece[1].runs", many(MaxRuns+1, `"A 1 oat"`)),
			"b.toml:47:8: piece.runs: are 2001 runs, more than 2000"},
		{"letters of blocks",
			set("warp.blocks", `{ letters = "`+strings.Repeat("AB", 1001)+`" }`),
			"b.toml:36:22: warp.blocks.letters: names 2002 blocks, more than 1000"},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Parse("b.toml", []byte(changed(t, one.changes)), Options{})
			require.Error(t, err)
			assert.Equal(t, one.says, err.(Problems)[0].Error())
		})
	}
}

// BenchmarkManyMistakes reads texts with a mistake in every run of one long line:
// ten times as many take about ten times as long.
func BenchmarkManyMistakes(b *testing.B) {
	for _, n := range []int{900, 9_000, 90_000} {
		runs := "[" + strings.Repeat(`"C 1 oat", `, n) + "]"
		text := []byte(changed(b, set("piece[1].runs", runs)))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				_, err := Parse("b.toml", text, Options{})
				assert.Len(b, err, 20)
			}
		})
	}
}

func TestLineEndsAndMark(t *testing.T) {
	plain, err := Parse("b.toml", Default(), Options{})
	require.NoError(t, err)
	crlf := "\ufeff" + strings.ReplaceAll(string(Default()), "\n", "\r\n")
	windows, err := Parse("b.toml", []byte(crlf), Options{})
	require.NoError(t, err)
	plain.doc, windows.doc = nil, nil
	assert.Equal(t, plain, windows)
}

// TestOverrides: values of flags stand in place of the brief's.
func TestOverrides(t *testing.T) {
	with := func(key, value string) Options {
		return Options{Set: []Override{{key, value, "--flag"}}}
	}
	t.Run("a value", func(t *testing.T) {
		rhythm := `{ kind = "even", stripes = 3 }`
		b, err := Parse("b.toml", []byte(small), with("warp.rhythm", rhythm))
		require.NoError(t, err)
		assert.Equal(t, &sequence.Even{Stripes: 3}, b.Warp.Rule.Rhythm.Kind)
	})
	t.Run("a table that is not there", func(t *testing.T) {
		b, err := Parse("b.toml", []byte(small), with("vary.candidates", "9"))
		require.NoError(t, err)
		assert.Equal(t, 9, b.Vary.Candidates)
	})
	t.Run("the other way to say it", func(t *testing.T) {
		b, err := Parse("b.toml", []byte(small), with("set.in_reed", `"20 in"`))
		require.NoError(t, err)
		assert.Nil(t, b.Set.Width)
		assert.Equal(t, "508", b.Set.InReed.MM.RatString())
	})
	t.Run("a rule in place of runs", func(t *testing.T) {
		runs := set("weft.runs", `["A 6 plum"]`, "piece[1].runs", "")
		b, err := Parse("b.toml", []byte(changed(t, runs)), with("weft.colours", `["oat"]`))
		require.NoError(t, err)
		assert.Nil(t, b.Pieces[0].Weft.Runs)
		assert.Equal(t, []int{0}, b.Pieces[0].Weft.Rule.Colours)
	})
	t.Run("fewer pieces", func(t *testing.T) {
		text := changed(t, set("set.pieces", "3", "piece[2].runs", `["A 6 oat"]`))
		b, err := Parse("b.toml", []byte(text), with("set.pieces", "1"))
		require.NoError(t, err)
		assert.Len(t, b.Pieces, 1)
		assert.Equal(t, []string{"second", "piece 3"}, b.LeftOut)
	})
	for _, one := range []struct{ name, value, says string }{
		{"a bare number", "46", `--flag: set.width: 46 has no unit: write "46 cm" or "46 in"`},
		{"no TOML", `"`, "--flag: set.width: unterminated basic string"},
		{"two values", "\"46 cm\"\npieces = 1",
			`--flag: set.width: "\"46 cm\"\npieces = 1" is more than one value`},
		{"too much", strings.Repeat(" ", MaxBytes+1),
			"--flag: the file is larger than 1 MB, more than a brief may have"},
	} {
		t.Run(one.name+" is refused", func(t *testing.T) {
			_, err := Parse("b.toml", []byte(small), with("set.width", one.value))
			assert.EqualError(t, err, one.says)
		})
	}
}

func TestNearest(t *testing.T) {
	for _, one := range []struct {
		name  string
		known []string
		want  string
	}{
		{"shrinkwidth", []string{"shrink_length", "shrink_width"}, "shrink_width"},
		{"fgo", []string{"spruce", "fog"}, "fog"},
		{"zebra", []string{"spruce", "fog"}, ""},
		{strings.Repeat("x", 101), []string{strings.Repeat("x", 102)}, ""},
	} {
		t.Run(one.name, func(t *testing.T) {
			assert.Equal(t, one.want, Nearest(one.name, one.known))
		})
	}
}

// TestAProblemStandsAtItsKey: a problem found later stands at the first of its keys that the brief
// has: in the piece's own table, in [weft] or [warp], or anywhere.
func TestAProblemStandsAtItsKey(t *testing.T) {
	b := parsed(t, set("piece[0].order", `"hue"`))
	for _, one := range []struct {
		name  string
		piece int
		keys  []string
		says  string
	}{
		{"a piece's own key", 0, []string{"order", "rhythm"}, "b.toml:44:9: piece.order: is wrong"},
		{"a key of [weft]", 1, []string{"order", "rhythm.kind"},
			"b.toml:40:20: weft.rhythm.kind: is wrong"},
		{"a key of [warp]", -1, []string{"rhythm"}, "b.toml:35:11: warp.rhythm: is wrong"},
		{"a key of the brief", -1, []string{"loom.waste", "loom.reed"},
			"b.toml:14:8: loom.reed: is wrong"},
		{"none of the keys", -1, []string{"loom.waste"}, "b.toml: is wrong"},
	} {
		t.Run(one.name, func(t *testing.T) {
			assert.EqualError(t, b.Wrong(one.piece, "is wrong", "mend it", one.keys...), one.says)
		})
	}
}

// TestEdit: a change that is none, and one that leaves too much, is refused.
func TestEdit(t *testing.T) {
	for _, one := range []struct {
		name, text string
		change     Change
		says       string
	}{
		{"a text that is no TOML", "= 3", Change{"seed", "1"},
			"b.toml:1:1: invalid character at start of key: U+003D '='"},
		{"a value that is none", small, Change{"seed", "[["},
			`"[[" is no value for seed: array is incomplete`},
		{"too much", small, Change{"title", `"` + strings.Repeat("x", MaxBytes) + `"`},
			"b.toml: the file is larger than 1 MB, more than a brief may have"},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Edit("b.toml", []byte(one.text), []Change{one.change})
			assert.EqualError(t, err, one.says)
		})
	}
}

// TestShelfThatCannotBeRead: what is wrong with a shelf is told of the shelf.
func TestShelfThatCannotBeRead(t *testing.T) {
	b := []byte("shelf = \"s.toml\"\n" + small)
	for _, one := range []struct {
		name string
		read func(string) ([]byte, error)
		says string
	}{
		{"none can", nil, "b.toml:1:9: shelf: a shelf file can't be read here"},
		{"no such file", func(string) ([]byte, error) { return nil, errors.New("no such file") },
			`b.toml:1:9: shelf: "s.toml" can't be read: no such file`},
		{"no TOML", func(string) ([]byte, error) { return []byte("= 3"), nil },
			"s.toml:1:1: invalid character at start of key: U+003D '='"},
		{"no shelf", func(string) ([]byte, error) { return []byte("[set]\npieces = 1\n"), nil },
			"s.toml:1:2: set: there is no such key"},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Parse("b.toml", b, Options{Shelf: one.read})
			assert.EqualError(t, err, one.says)
		})
	}
}

// TestRhythmsBeyondTheMostProblems: where as many problems as are reported have been
// found, a rhythm of no kind is still no rhythm.
func TestRhythmsBeyondTheMostProblems(t *testing.T) {
	text := ""
	for i := range 30 {
		text += fmt.Sprintf("wrong%d = 1\n", i)
	}
	for _, rhythm := range []string{`{ kind = "nothing" }`, `{ kind = "graded" }`,
		`{ kind = "repeat" }`, `{}`, `1`} {
		_, err := Parse("b",
			[]byte(text+"[warp]\nrhythm = "+rhythm+"\n[weft]\nrhythm = "+rhythm+"\n"), Options{})
		require.Error(t, err, rhythm)
	}
}
