package tomltext

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dropped are paths to drop.
var dropped = []struct{ name, text, path, want string }{
	{"what is not there", "a = 1\n", "b.c[3].d", "a = 1\n"},
	{"a key, comments kept", "# of a\na = 1 # one\nb = 2\n", "a", "# of a\n# one\nb = 2\n"},
	{"a list over lines, comments kept",
		"  a = [ # of all\n  1, # one\n  # and\n  # two\n  2 ] # end\n", "a",
		"  # of all\n  # one\n  # and\n  # two\n  # end\n"},
	{"what looks like comments", "a = '''#\n# no'''\nb = [\"#\",\n'#', 1]\n", "b",
		"a = '''#\n# no'''\n"},
	{"the last key, no line end", "a = 1\nb = 2", "b", "a = 1"},
	{"the only key, no line end", "a = 1", "a", ""},
	{"a dotted key", "a.b = 1\na.c = 2\n", "a.b", "a.c = 2\n"},
	{"a table by dotted keys", "a.b = 1\nx = 3\n# of c\na.c = 2\n", "a", "x = 3\n# of c\n"},
	{"a table", "a = 1\n\n# of b\n[b] # b\nx = 1\n\n# of y\ny = 1\n\n# of c\n[c]\n", "b",
		"a = 1\n\n# of c\n[c]\n"},
	{"a table and those below it", "[a]\nx = 1\n\n[a.b]\ny = 1\n\n[c]\n\n[a.d]\n", "a", "\n[c]\n"},
	{"the last table", "[a]\n\n[b]\nx = 1\n", "b", "[a]\n"},
	{"the last table, no line end", "[a]\n\n[b]\nx = 1", "b", "[a]"},
	{"the first table", "[a]\nx = 1\n\n[b]\n", "a", "\n[b]\n"},
	{"a table close to the next", "[a]\n\n[b]\n# of c\n[c]\n", "b", "[a]\n\n# of c\n[c]\n"},
	{"a table, CRLF", "a = 1\r\n\r\n# of b\r\n[b]\r\nx = 1\r\n", "b", "a = 1\r\n"},
	{"a table right after the mark", "\ufeff# of a\n[a]\nx = 1\n", "a", "\ufeff"},
	{"a table, a text above that looks like a comment", "x = '''\n# no comment'''\n[a]\n", "a",
		"x = '''\n# no comment'''\n"},
	{"one of a list of tables",
		"[[p]]\nn = 1\n\n# of 2\n[[p]]\nn = 2\n[p.r]\nk = 1\n\n[[p]]\nn = 3\n",
		"p[1]", "[[p]]\nn = 1\n\n[[p]]\nn = 3\n"},
	{"a list of tables", "[[p]]\nn = 1\n\n[v]\n\n[[p]]\nn = 2\n", "p", "\n[v]\n"},
	{"the first in braces", "a = { b = 1, c = 2 }\n", "a.b", "a = { c = 2 }\n"},
	{"one in the middle of braces", "a = {b = 1 , c = 2 , d = 3}\n", "a.c",
		"a = {b = 1 , d = 3}\n"},
	{"the last in braces", "a = { b = 1, c = 2 }\n", "a.c", "a = { b = 1 }\n"},
	{"the only in braces", "a = { b = 1 }\n", "a.b", "a = { }\n"},
	{"dotted keys in braces", "a = { b.c = 1, d = 2, b.e = 3 }\n", "a.b", "a = { d = 2 }\n"},
	{"the last two in braces", "a = { d = 2, b.c = 1, b.e = 3 }\n", "a.b", "a = { d = 2 }\n"},
	{"all in braces", "a = { b.c = 1, b.e = 3, }\n", "a.b", "a = { }\n"},
	{"a line in braces", "a = {\n  b = 1, # one\n  c = 2, # two\n  d = 3\n}\n", "a.c",
		"a = {\n  b = 1, # one\n  # two\n  d = 3\n}\n"},
	{"the last line in braces", "a = {\n  b = 1, # one\n  c = 2 # two\n}\n", "a.c",
		"a = {\n  b = 1, # one\n  # two\n}\n"},
	{"a list with a comment in braces", "a = { b = 1, c = [2, # two\n3], d = 4 }\n", "a.c",
		"# two\na = { b = 1, d = 4 }\n"},
	{"the end of a line in braces", "a = { b = 1, # one\n  c = 2 }\n", "a.c",
		"a = { b = 1, # one\n }\n"},
	{"a key of an item in brackets", "a = [{ b = 1, c = 2 }]\n", "a[0].b", "a = [{ c = 2 }]\n"},
}

func TestDrop(t *testing.T) {
	for _, one := range dropped {
		t.Run(one.name, func(t *testing.T) {
			got, err := parse(t, one.text).Drop(one.path)
			require.NoError(t, err)
			assert.Equal(t, one.want, string(got.Bytes()))
		})
	}
	t.Run("an item in brackets is refused", func(t *testing.T) {
		_, err := parse(t, "a = [{}, {}]\n").Drop("a[1]")
		assert.EqualError(t, err, `"a[1]" stands inside another value and can't be taken away`)
	})
	t.Run("a path that is none is refused", func(t *testing.T) {
		_, err := parse(t, "").Drop("a[")
		assert.EqualError(t, err, `"a[" is not a key`)
	})
}

const pieces = `# a set

# of one
[[piece]] # the first
name = "one"
[piece.rhythm]
kind = "even"

[[piece]]
name = "two"

# between

[[piece]]
name = "three"

[vary]
seed = 1
`

func TestArrange(t *testing.T) {
	for _, one := range []struct {
		name  string
		text  string
		order []int
		want  string
	}{
		{"as they are", pieces, []int{0, 1, 2}, pieces},
		{"turned", pieces, []int{2, 1, 0}, `# a set

[[piece]]
name = "three"

[[piece]]
name = "two"

# between

# of one
[[piece]] # the first
name = "one"
[piece.rhythm]
kind = "even"

[vary]
seed = 1
`},
		{"without the second", pieces, []int{0, 2}, `# a set

# of one
[[piece]] # the first
name = "one"
[piece.rhythm]
kind = "even"

[[piece]]
name = "three"

# between

[vary]
seed = 1
`},
		{"none", pieces, nil, "# a set\n\n# between\n\n[vary]\nseed = 1\n"},
		{"one twice", "[[piece]]\nname = 1\n\n[[piece]]\nname = 2", []int{0, 0, 1},
			"[[piece]]\nname = 1\n\n[[piece]]\nname = 1\n\n[[piece]]\nname = 2"},
		{"close together", "[[piece]]\nname = 1\n[[piece]]\nname = 2\n[vary]\n", []int{1},
			"[[piece]]\nname = 2\n[vary]\n"},
		{"the last first, no line end", "[[piece]]\r\nname = 1\r\n\r\n[[piece]]\r\nname = 2",
			[]int{1, 0}, "[[piece]]\r\nname = 2\r\n\r\n[[piece]]\r\nname = 1"},
		{"no list", "a = 1\n", nil, "a = 1\n"},
	} {
		t.Run(one.name, func(t *testing.T) {
			got, err := parse(t, one.text).Arrange("piece", one.order)
			require.NoError(t, err)
			assert.Equal(t, one.want, string(got.Bytes()))
		})
	}
	for _, one := range []struct{ name, text string }{
		{"in brackets", "piece = [{ name = 1 }, { name = 2 }]\n"},
		{"in several places", "[[piece]]\n[vary]\n[piece.rhythm]\n[[piece]]\n"},
	} {
		t.Run(one.name+" is refused", func(t *testing.T) {
			_, err := parse(t, one.text).Arrange("piece", []int{1, 0})
			assert.EqualError(t, err, `a table of "piece" is not written in one place`)
		})
	}
}
