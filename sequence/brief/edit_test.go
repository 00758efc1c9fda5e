package brief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const edited = `# top
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

func TestEdit(t *testing.T) {
	for _, one := range []struct{ what, key, value, old, new string }{
		{"a value", "set.pieces", "7", "pieces = 6   #", "pieces = 7   #"},
		{"a text", "title", `"b"`, `title = "a" #`, `title = "b" #`},
		{"inside an inline table", "warp.rhythm.stripes", "7", "stripes = 5", "stripes = 7"},
		{"an inline table", "warp.rhythm", `{ kind = "even", stripes = 9 }`, `{ kind = "even", stripes = 5 }`, `{ kind = "even", stripes = 9 }`},
		{"a key in an inline table", "warp.rhythm.mirror", "true", "stripes = 5 }", "stripes = 5, mirror = true }"},
		{"a list over lines", "warp.runs", `["A 1 x"]`, "[\n  \"A 12 x\", # first\n  \"B 3 y\",\n] # end", `["A 1 x"] # end`},
		{"a new key", "set.width", `"46 cm"`, "six\n", "six\nwidth = \"46 cm\"\n"},
		{"one of a list", "piece[1].name", `"2"`, `"two" #`, `"2" #`},
		{"a new key of one", "piece[0].runs", `["A 1 x"]`, "\"one\"\n", "\"one\"\nruns = [\"A 1 x\"]\n"},
		{"a key taken away", "set.pieces", "", "pieces = 6   # six\n", ""},
		{"a key of the root", "seed", "3", "after\n", "after\nseed = 3\n"},
		{"a table", "loom.waste", `"1 m"`, "# second\n", "# second\n\n[loom]\nwaste = \"1 m\"\n"},
		{"a piece", "piece[2].name", `"three"`, "# second\n", "# second\n\n[[piece]]\nname = \"three\"\n"},
	} {
		for _, ends := range []string{"\n", "\r\n"} {
			for _, mark := range []string{"", "\xef\xbb\xbf"} {
				with := func(s string) string { return strings.ReplaceAll(s, "\n", ends) }
				require.Contains(t, edited, one.old, one.what)
				got, err := Edit("b.toml", []byte(mark+with(edited)), []Change{{one.key, one.value}})
				require.NoError(t, err, one.what)
				assert.Equal(t, mark+with(strings.Replace(edited, one.old, one.new, 1)), string(got), one.what)
			}
		}
	}
}

func TestEditWithoutLastNewline(t *testing.T) {
	got, err := Edit("b.toml", []byte("[set]\npieces = 6"), []Change{{"set.width", `"1 m"`}})
	require.NoError(t, err)
	assert.Equal(t, "[set]\npieces = 6\nwidth = \"1 m\"", string(got))
}

func TestEditRefuses(t *testing.T) {
	_, err := Edit("b.toml", []byte(edited), []Change{{"set.pieces", "[["}})
	assert.ErrorContains(t, err, "is no value for set.pieces")
	_, err = Edit("b.toml", []byte(edited), []Change{{"set", "3"}})
	assert.ErrorContains(t, err, "heading of its own")
	_, err = Edit("b.toml", []byte(edited), []Change{{"piece[x].name", "3"}})
	assert.ErrorContains(t, err, "not a key")
	_, err = Edit("b.toml", []byte("= 3"), []Change{{"set.pieces", "3"}})
	assert.Error(t, err)
}

// TestEditOtherForms: tables may be written in other ways than with a heading,
// and what is no table is not made one. Found by fuzzing.
func TestEditOtherForms(t *testing.T) {
	for _, c := range []struct{ text, key, want string }{
		{"set.pieces = 6\n[warp]\n", "set.seed", "set.pieces = 6\nset.seed = 7\n[warp]\n"},
		{"[a]\nb.c = 1 # one\nd = 2\n", "a.b.e", "[a]\nb.c = 1 # one\nb.e = 7\nd = 2\n"},
		{"a = { b.c = 1 }\n", "a.b.d", "a = { b.c = 1, b.d = 7 }\n"},
		{"[yarn.cotton]\ntex = 1\n", "yarn.x", "[yarn.cotton]\ntex = 1\n\n[yarn]\nx = 7\n"},
		{"[[piece]]\nname = 1\n[[piece]]\nname = 2\n", "piece[0].rhythm.mirror", "[[piece]]\nname = 1\nrhythm.mirror = 7\n[[piece]]\nname = 2\n"},
		{"[[piece]]\nname = 1\n", "piece[1].rhythm.mirror", "[[piece]]\nname = 1\n\n[[piece]]\nrhythm.mirror = 7\n"},
		{"[[piece]]\nrhythm = { kind = 1 }\n", "piece[0].rhythm.x.y", "[[piece]]\nrhythm = { kind = 1, x.y = 7 }\n"},
		{"title = \"a\"\n", "title.x", ""},
		{"runs = [\"a\"]\n", "runs[0].x", ""},
		{"[[piece]]\n", "piece.name", ""},
	} {
		got, err := Edit("b.toml", []byte(c.text), []Change{{c.key, "7"}})
		if c.want == "" {
			assert.ErrorContains(t, err, "has no place", c.key)
			continue
		}
		require.NoError(t, err, c.key)
		assert.Equal(t, c.want, string(got))
	}
}
