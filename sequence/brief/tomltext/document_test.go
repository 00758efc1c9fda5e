package tomltext

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseRefuses(t *testing.T) {
	for _, one := range []struct {
		name, text string
		want       Error
	}{
		{"no value", "a = 1\nbc = \n", Error{Place{"b.toml", 2, 6, "bc = "}, "",
			"unexpected character U+000A at start of value"}},
		{"a key given twice", "[a]\nb = 1\nb = 2", Error{Place{"b.toml", 3, 1, "b = 2"}, "b",
			"key b is already defined"}},
		{"after a mark, CRLF, in characters", "\ufeffa = 1\r\n\"ü\" = x\r\n",
			Error{Place{"b.toml", 2, 7, "\"ü\" = x"}, "",
				"unexpected character U+0078 'x' at start of value"}},
		{"another encoding", "a = 1\nb = \"\xfc\"",
			Error{Place{"b.toml", 2, 6, "b = \"\xfc\""}, "", NotUTF8}},
	} {
		t.Run(one.name, func(t *testing.T) {
			_, err := Parse("b.toml", []byte(one.text))
			assert.Equal(t, &one.want, err)
		})
	}
	t.Run("in words", func(t *testing.T) {
		_, err := Parse("b.toml", []byte("a = 1\na = 2"))
		assert.EqualError(t, err, "b.toml:2:1: key a is already defined")
	})
	t.Run("a value by itself has no place", func(t *testing.T) {
		_, err := ParseValue("--width", "46 cm")
		want := Error{Place{"--width", 0, 0, ""}, "", "expected newline but got U+0063 'c'"}
		assert.Equal(t, &want, err)
	})
}

func TestFind(t *testing.T) {
	d := parse(t, `a = 0x1_0
[b]
c.d = +7 # seven
[[p]]
[[p]]
q = { r = ['x', "\u0041", 1.5, true] }
[p.s]
t = 2024-01-01
[p.s."u v"]
`)
	for _, one := range []struct {
		path, raw string
		kind      Kind
		text      string
	}{
		{"a", "0x1_0", Integer, "0x1_0"},
		{"b", "b", Table, ""},
		{"b.c", "c", Table, ""},
		{"b.c.d", "+7", Integer, "+7"},
		{"p", "p", Array, ""},
		{"p[1]", "p", Table, ""},
		{"p[1].q", "{ r = ['x', \"\\u0041\", 1.5, true] }", Table, ""},
		{"p[1].q.r", "['x', \"\\u0041\", 1.5, true]", Array, ""},
		{"p[1].q.r[0]", "'x'", String, "x"},
		{"p[1].q.r[1]", "\"\\u0041\"", String, "A"},
		{"p[1].q.r[2]", "1.5", Float, "1.5"},
		{"p[1].q.r[3]", "true", Bool, "true"},
		{"p[1].s.t", "2024-01-01", Other, "2024-01-01"},
		{"p[1].s.u v", "\"u v\"", Table, ""},
	} {
		t.Run(one.path, func(t *testing.T) {
			n := d.Root.Find(one.path)
			require.NotNil(t, n)
			assert.Equal(t, one.raw, n.Raw())
			assert.Equal(t, one.kind, n.Kind)
			assert.Equal(t, one.text, n.Text)
		})
	}
	nowhere := []string{"", "x", "b.x", "b.c.d.e", "a[0]", "p[2]", "p[0].q", "p[x]", "p[-1]"}
	for _, path := range nowhere {
		t.Run("nothing at "+path, func(t *testing.T) { assert.Nil(t, d.Root.Find(path)) })
	}
	for path, want := range map[string]int64{"a": 16, "b.c.d": 7} {
		t.Run("the number "+path, func(t *testing.T) {
			n, err := d.Root.Find(path).WholeNumber()
			require.NoError(t, err)
			assert.Equal(t, want, n)
		})
	}
	t.Run("places", func(t *testing.T) {
		seven := d.Root.Find("b.c.d").Value
		assert.Equal(t, Place{"b.toml", 3, 7, "c.d = +7 # seven"}, d.Place(seven.From))
		assert.Equal(t, Place{"b.toml", 10, 1, ""}, d.Place(1000))
	})
}

func TestWalk(t *testing.T) {
	d := parse(t, "a = 1\nb.c = [2, [3, { d = 4 }]]\n[[p]]\ne = 5\n[[p]]\ne = 6\n")
	var all []string
	d.Root.Walk("", func(key string, n *Node) { all = append(all, key+" "+n.Text) })
	assert.Equal(t, []string{"a 1", "c 2", "c 3", "d 4", "e 5", "e 6"}, all)
	d.Root.Find("x").Walk("x", func(string, *Node) { t.Error("nothing is there") })
}

// TestPut: what was read may be changed, and the text stays.
func TestPut(t *testing.T) {
	d := parse(t, "[set]\nwidth = 1\n")
	given, err := ParseValue("--waste", `"1 m"`)
	require.NoError(t, err)
	d.Root.Child("set").Put("width", given)
	d.Root.Child("loom").Put("waste", given)
	assert.Equal(t, []string{"set", "loom"}, d.Root.Keys)
	assert.Equal(t, "1 m", d.Root.Find("set.width").Text)
	assert.Equal(t, "1 m", d.Root.Find("loom.waste").Text)
	assert.True(t, d.Root.Find("loom.waste").Doc.Loose)
	assert.Equal(t, "[set]\nwidth = 1\n", string(d.Bytes()))
}

func TestQuote(t *testing.T) {
	for _, one := range []struct{ name, text, want string }{
		{"plain", "leaf shade", `"leaf shade"`},
		{"other letters", "Röd 織 👩‍🌾", `"Röd 織 👩‍🌾"`},
		{"quotes and backslashes", `a"b\c`, `"a\"b\\c"`},
		{"controls", "a\tb\nc\x7fd\u009be", `"a\u0009b\u000ac\u007fd\u009be"`},
		{"what turns text", "a\u202eb\u2066c\u200e\u200f\u061c",
			`"a\u202eb\u2066c\u200e\u200f\u061c"`},
		{"what breaks lines", "a\u2028b", `"a\u2028b"`},
		{"what is not seen", "a\u200bb\U000e0041", `"a\u200bb\U000e0041"`},
	} {
		t.Run(one.name, func(t *testing.T) {
			assert.Equal(t, one.want, Quote(one.text))
			n, err := ParseValue("", one.want)
			require.NoError(t, err)
			assert.Equal(t, one.text, n.Text)
		})
	}
	assert.Equal(t, `["a", "b \"c\""]`, List([]string{"a", `b "c"`}))
	assert.Equal(t, "[]", List(nil))
}
