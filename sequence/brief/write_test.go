package brief

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestShorten: tables of pieces go with their own tables and the comments right
// above them; all else stays.
func TestShorten(t *testing.T) {
	text := "a = 1\n\n[[piece]] # one\nname = \"x\"\n\n# of two\n[[piece]]\nname = \"y\"\n[piece.rhythm]\nkind = \"even\"\n\n# of vary\n[vary]\nseed = 1\n# [[piece]]\n[[piece]]\nname = \"[[piece]]\"\n"
	for n, want := range []string{
		"a = 1\n\n# of vary\n[vary]\nseed = 1\n",
		"a = 1\n\n[[piece]] # one\nname = \"x\"\n\n# of vary\n[vary]\nseed = 1\n",
		"a = 1\n\n[[piece]] # one\nname = \"x\"\n\n# of two\n[[piece]]\nname = \"y\"\n[piece.rhythm]\nkind = \"even\"\n\n# of vary\n[vary]\nseed = 1\n",
		text,
	} {
		got, err := Shorten("x", []byte(text), n)
		require.NoError(t, err)
		assert.Equal(t, want, string(got), "%d", n)
	}
}

// TestEditLines: a value of several lines takes the file's own line ends.
func TestEditLines(t *testing.T) {
	got, err := Edit("x", []byte("a = 1\r\n"), []Change{{"b", "[1,\n2]"}})
	require.NoError(t, err)
	assert.Equal(t, bytes.Count(got, []byte("\n")), bytes.Count(got, []byte("\r\n")))
}

// TestRuleKeys: the keys of a rule, written into a brief, are read as the rule.
func TestRuleKeys(t *testing.T) {
	for _, rhythm := range []string{
		`{ kind = "even", stripes = 5, mirror = true }`, `{ kind = "repeat", weights = [3, 1.5, 2], times = 2 }`,
		`{ kind = "fibonacci", terms = 5, from = 2, direction = "falling" }`, `{ kind = "graded", stripes = 7, ratio = 2.25, steps = "proportional" }`,
		`{ kind = "random", stripes = 7, narrowest = 2, widest = 9, seed = 41 }`, `{ kind = "euclid", accents = 5, of = 13 }`,
	} {
		text, err := Edit("x", Default(), []Change{{"piece[1].rhythm", rhythm}, {"piece[1].order", `"shuffle"`}, {"piece[1].seed", "12"}, {"piece[1].first", `"B"`}})
		require.NoError(t, err)
		b, err := Parse("x", text, Options{})
		require.NoError(t, err)
		want := b.Pieces[1].Weft.Rule
		assert.Equal(t, int64(12), *want.Seed)
		assert.Equal(t, 1, want.Blocks.First)
		var changes []Change
		for _, c := range b.RuleKeys(want) {
			changes = append(changes, Change{"piece[3]." + c.Key, c.Value})
		}
		again, err := Edit("x", text, changes)
		require.NoError(t, err)
		c, err := Parse("x", again, Options{})
		require.NoError(t, err)
		assert.Equal(t, want, c.Pieces[3].Weft.Rule, rhythm)
	}
}
