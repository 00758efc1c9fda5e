package brief

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestShorten: tables of pieces go with their own tables and the comments right
// above them; all else stays.
func TestShorten(t *testing.T) {
	const first = "a = 1\n\n[[piece]] # one\nname = \"x\"\n\n"
	const second = "# of two\n[[piece]]\nname = \"y\"\n[piece.rhythm]\nkind = \"even\"\n\n"
	const vary = "# of vary\n[vary]\nseed = 1\n"
	const third = "# [[piece]]\n[[piece]]\nname = \"[[piece]]\"\n"
	for _, one := range []struct {
		name string
		n    int
		want string
	}{
		{"none is left", 0, "a = 1\n\n" + vary},
		{"one is left", 1, first + vary},
		{"two are left", 2, first + second + vary},
		{"all are left", 3, first + second + vary + third},
		{"more than there are", 4, first + second + vary + third},
	} {
		t.Run(one.name, func(t *testing.T) {
			got, err := Shorten("b.toml", []byte(first+second+vary+third), one.n)
			require.NoError(t, err)
			assert.Equal(t, one.want, string(got))
		})
	}
	t.Run("no TOML is refused", func(t *testing.T) {
		_, err := Shorten("b.toml", []byte("= 3"), 1)
		assert.EqualError(t, err, "b.toml:1:1: invalid character at start of key: U+003D '='")
	})
}

// TestRuleKeys: the keys of a rule, written into a brief, are read as the rule.
func TestRuleKeys(t *testing.T) {
	for _, rhythm := range []string{
		`{ kind = "even", stripes = 5, mirror = true }`,
		`{ kind = "repeat", weights = [3, 1.5, 2], times = 2 }`,
		`{ kind = "fibonacci", terms = 5, from = 2, direction = "falling" }`,
		`{ kind = "graded", stripes = 7, ratio = 2.25, steps = "proportional" }`,
		`{ kind = "random", stripes = 7, narrowest = 2, widest = 9, seed = 41 }`,
		`{ kind = "euclid", accents = 5, of = 13 }`,
	} {
		t.Run(rhythm, func(t *testing.T) {
			b := parsed(t, set("piece[0].rhythm", rhythm, "piece[0].order", `"shuffle"`,
				"piece[0].seed", "12", "piece[0].first", `"B"`))
			rule := b.Pieces[0].Weft.Rule
			assert.Equal(t, int64(12), *rule.Seed)
			assert.Equal(t, 1, rule.Blocks.First)
			var changes []Change
			for _, c := range b.RuleKeys(rule) {
				changes = append(changes, Change{"piece[1]." + c.Key, c.Value})
			}
			assert.Equal(t, rule, parsed(t, changes).Pieces[1].Weft.Rule)
		})
	}
}

func TestRunTexts(t *testing.T) {
	b := parsed(t, nil)
	texts := b.RunTexts([]Run{{0, 12, 1}, {-1, 2, -1}, {1, 6, 0}})
	assert.Equal(t, []string{"A 12 plum", "plain 2", "B 6 oat"}, texts)
	t.Run("as a list", func(t *testing.T) {
		assert.Equal(t, `["A 12 plum", "plain 2", "B 6 oat"]`, RunList(texts))
	})
	t.Run("as a list over lines", func(t *testing.T) {
		assert.Equal(t, "[\"a\", \"b\", \"c\", \"d\", \"e\",\n        \"f\"]",
			RunList([]string{"a", "b", "c", "d", "e", "f"}))
	})
}
