package tomltext

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sample has one of each way to write a value.
const sample = `# top
title = "a" # after
[set]
pieces = 6   # six
[warp]
rhythm = { kind = "even", stripes = 5 }
runs = [
  "A 12 x", # first
  "B 3 y",
] # end

[[piece]]
name = "one"

[[piece]]
name = "two" # second
`

// TestSetSample sets one value of the sample, with each kind of line end, with
// and without a byte order mark. All but old stays as it is.
func TestSetSample(t *testing.T) {
	for _, one := range []struct{ name, path, value, old, new string }{
		{"a value", "set.pieces", "7", "pieces = 6   #", "pieces = 7   #"},
		{"a text", "title", `"b"`, `title = "a" #`, `title = "b" #`},
		{"a key of an inline table", "warp.rhythm.stripes", "7", "stripes = 5", "stripes = 7"},
		{"an inline table", "warp.rhythm", `{ kind = "euclid" }`,
			`{ kind = "even", stripes = 5 }`, `{ kind = "euclid" }`},
		{"a new key of an inline table", "warp.rhythm.mirror", "true",
			"stripes = 5 }", "stripes = 5, mirror = true }"},
		{"a list over lines", "warp.runs", `["A 1 x"]`,
			"runs = [\n  \"A 12 x\", # first\n  \"B 3 y\",\n] # end",
			"# first\nruns = [\"A 1 x\"] # end"},
		{"the same list", "warp.runs", `["A 12 x", 'B 3 y']`, "", ""},
		{"the end of a list over lines", "warp.runs", `["A 12 x", "A 1 x", "C 2"]`,
			"  \"B 3 y\",\n", "  \"A 1 x\",\n  \"C 2\",\n"},
		{"the beginning of a list over lines", "warp.runs", `["A 1 x", "C 2", "B 3 y"]`,
			"  \"A 12 x\", #", "  \"A 1 x\",\n  \"C 2\", #"},
		{"an item more in a list over lines", "warp.runs", `["A 12 x", "C 2", "B 3 y"]`,
			"  \"B 3 y\",\n", "  \"C 2\",\n  \"B 3 y\",\n"},
		{"an item more at the end of a list", "warp.runs", `["A 12 x", "B 3 y", "C 2"]`,
			"  \"B 3 y\",\n", "  \"B 3 y\",\n  \"C 2\",\n"},
		{"an item less in a list over lines", "warp.runs", `["B 3 y"]`,
			"runs = [\n  \"A 12 x\", # first\n  \"B 3 y\",\n]", "# first\nruns = [\"B 3 y\"]"},
		{"by a list over lines", "title", "[\n  1,\n]", `"a" #`, "[\n  1,\n] #"},
		{"a new key", "set.width", `"46 cm"`, "six\n", "six\nwidth = \"46 cm\"\n"},
		{"one of a list of tables", "piece[1].name", `"2"`, `"two" #`, `"2" #`},
		{"a new key of one of a list", "piece[0].runs", `["A 1 x"]`,
			"\"one\"\n", "\"one\"\nruns = [\"A 1 x\"]\n"},
		{"a key taken away", "set.pieces", "", "pieces = 6   # six\n", "# six\n"},
		{"a list over lines taken away", "warp.runs", "",
			"runs = [\n  \"A 12 x\", # first\n  \"B 3 y\",\n] # end\n", "# first\n# end\n"},
		{"a new key of the root", "seed", "3", "after\n", "after\nseed = 3\n"},
		{"a new table", "loom.waste", `"1 m"`,
			"# second\n", "# second\n\n[loom]\nwaste = \"1 m\"\n"},
		{"a new piece", "piece[2].name", `"three"`,
			"# second\n", "# second\n\n[[piece]]\nname = \"three\"\n"},
	} {
		t.Run(one.name, func(t *testing.T) {
			if one.old != "" {
				require.Equal(t, 1, strings.Count(sample, one.old))
			}
			for _, ends := range []string{"\n", "\r\n"} {
				for _, mark := range []string{"", "\ufeff"} {
					with := func(s string) string {
						return mark + strings.ReplaceAll(s, "\n", ends)
					}
					got, err := parse(t, with(sample)).Set(one.path, one.value)
					require.NoError(t, err)
					want := with(strings.Replace(sample, one.old, one.new, 1))
					assert.Equal(t, want, string(got.Bytes()))
				}
			}
		})
	}
}

func parse(t testing.TB, text string) *Document {
	t.Helper()
	d, err := Parse("b.toml", []byte(text))
	require.NoError(t, err)
	return d
}

// setTo7 are values to set to 7.
var setTo7 = []struct{ name, text, path, want string }{
	{"a table by dotted keys", "set.pieces = 6\n[warp]\n", "set.seed",
		"set.pieces = 6\nset.seed = 7\n[warp]\n"},
	{"a dotted key below a heading", "[a]\nb.c = 1 # one\nd = 2\n", "a.b.e",
		"[a]\nb.c = 1 # one\nb.e = 7\nd = 2\n"},
	{"dotted keys in braces", "a = { b.c = 1 }\n", "a.b.d", "a = { b.c = 1, b.d = 7 }\n"},
	{"an empty inline table", "a = {}\n", "a.b", "a = { b = 7}\n"},
	{"an inline table over lines", "a = {\n  b = 1, # one\n  c = 2 # two\n}\n", "a.d",
		"a = {\n  b = 1, # one\n  c = 2, d = 7 # two\n}\n"},
	{"a comma at the end", "a = {\n  b = 1, # one\n}\n", "a.c",
		"a = {\n  b = 1, c = 7, # one\n}\n"},
	{"an inline table in a list", "piece = [{ name = 1 }, { }]\n", "piece[1].name",
		"piece = [{ name = 1 }, { name = 7 }]\n"},
	{"a table known from another", "[yarn.cotton]\ntex = 1\n", "yarn.x",
		"[yarn.cotton]\ntex = 1\n\n[yarn]\nx = 7\n"},
	{"a table after one inside it", "[a.b]\nx = 1\n[a]\n", "a.c", "[a.b]\nx = 1\n[a]\nc = 7\n"},
	{"a table in one of a list", "[[piece]]\nname = 1\n[[piece]]\n", "piece[0].rhythm.mirror",
		"[[piece]]\nname = 1\nrhythm.mirror = 7\n[[piece]]\n"},
	{"a table in a new one of a list", "[[piece]]\n", "piece[1].rhythm.mirror",
		"[[piece]]\n\n[[piece]]\nrhythm.mirror = 7\n"},
	{"below an inline table", "[[piece]]\nrhythm = { kind = 1 }\n", "piece[0].rhythm.x.y",
		"[[piece]]\nrhythm = { kind = 1, x.y = 7 }\n"},
	{"a key in quotes", "", "yarn.8/2 cotton.tex", "\n[yarn.\"8/2 cotton\"]\ntex = 7\n"},
	{"a key that turns text", "[yarn]\n", "yarn.\u202ex", "[yarn]\n\"\\u202ex\" = 7\n"},
	{"no line end at the end", "[set]\npieces = 6", "set.width", "[set]\npieces = 6\nwidth = 7"},
	{"no line end, and a table", "a = 1", "set.width", "a = 1\n\n[set]\nwidth = 7"},
	{"a comment at the end", "a = 1\n# end", "set.width", "a = 1\n# end\n\n[set]\nwidth = 7"},
	{"in place of a table with a heading", "[a]\nx = 1\n# of b\n[a.b] # too\nc = 1\n# end\n", "a.b",
		"[a]\nx = 1\nb = 7\n# of b\n# too\n# end\n"},
	{"in place of a table by dotted keys", "[a]\nb.c = 1 # one\nd = 2\nb.e = 3\n", "a.b",
		"[a]\n# one\nd = 2\nb = 7\n"},
	{"in place of dotted keys in braces", "a = { b.c = 1, d = 2, b.e = 3 }\n", "a.b",
		"a = { d = 2, b = 7 }\n"},
	{"in place of a table known from another", "[a.b]\nx = 1\n", "a", "a = 7\n"},
}

func TestSet(t *testing.T) {
	for _, one := range setTo7 {
		t.Run(one.name, func(t *testing.T) {
			got, err := parse(t, one.text).Set(one.path, "7")
			require.NoError(t, err)
			assert.Equal(t, one.want, string(got.Bytes()))
			assert.Equal(t, "7", got.Root.Find(one.path).Text)
		})
	}
}

func TestSetRefuses(t *testing.T) {
	for _, one := range []struct{ name, text, path, value, says string }{
		{"no value", "", "a", "[[", `"[[" is no value for a: array is incomplete`},
		{"two values", "", "a", "1 # one",
			`"1 # one" is no value for a: "1 # one" is more than one value`},
		{"two keys", "", "a", "1\nb = 2", "is more than one value"},
		{"a value that is no text", "", "a", "\"\xff\"", "this is not UTF-8 text"},
		{"a path that is no text", "", "a\xff", "7", "is not a key"},
		{"a number that is none", "", "piece[x].name", "7", `"piece[x].name" is not a key`},
		{"a number with a sign", "", "piece[+1].name", "7", `"piece[+1].name" is not a key`},
		{"a whole table of a list", "[[piece]]\n", "piece[0]", "{}", `"piece[0]" is not a key`},
		{"below a text", "title = \"a\"\n", "title.x", "7",
			`"title.x" has no place: "title" is a text`},
		{"below an item", "runs = [\"a\"]\n", "runs[0].x", "7",
			`"runs[0].x" has no place: "runs" is a text`},
		{"a list without a number", "[[piece]]\n", "piece.name", "7",
			`"piece.name" has no place: "piece" is a list`},
		{"a list with headings", "[[piece]]\n", "piece", "7",
			`"piece" has no place: it is a list of tables with headings and can't be replaced`},
		{"a number past the next", "[[piece]]\n", "piece[2].name", "7",
			`"piece[2].name" has no place`},
		{"a number past the first", "", "piece[1].name", "7", `"piece[1].name" has no place`},
		{"a list in a table of a list", "[[a]]\n", "a[0].b[0].c", "7",
			`"a[0].b[0].c" has no place`},
		{"a table of a list known from another", "[[a]]\n[a.b.c]\n", "a[0].b.x", "7",
			`"a[0].b.x" has no place: its table has no heading of its own`},
		{"a table more of a list in brackets", "a = [{}]\n", "a[1].b", "7",
			`"a[1].b" has no place: `},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := parse(t, one.text).Set(one.path, one.value)
			assert.ErrorContains(t, err, one.says)
		})
	}
}

// TestSetTexts: values are replaced where they stand, comments between stay.
func TestSetTexts(t *testing.T) {
	d := parse(t, "runs = [\n  'A 1 x', # first\n  \"B 2 \\u202Ey\", \"\"\"C\n3\"\"\",\n]\n"+
		"name = \"x\"")
	runs := d.Root.Find("runs").Items
	at := []*Node{d.Root.Find("name"), runs[0], runs[1], runs[2]}
	got, err := d.SetTexts(at, []string{"ü", `A 1 "x"`, "B 3 \u202Ey", "C"})
	require.NoError(t, err)
	assert.Equal(t, "runs = [\n  \"A 1 \\\"x\\\"\", # first\n  \"B 3 \\u202ey\", \"C\",\n]\n"+
		"name = \"ü\"", string(got.Bytes()))
}
