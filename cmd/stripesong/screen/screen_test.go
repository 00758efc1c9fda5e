package screen

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
)

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{
		"fog":              "fog",
		"märta 手織 e\u0301": "märta 手織 e\u0301",
		"a\x1b[31mb":       "a␛[31mb",
		"tab\tnl\ncr\r":    "tab␉nl␊cr␍",
		"\x7f":             "␡",
		"\u009b31m":        `\u009b31m`,
		"\u202egof":        `\u202egof`,
		"a\u2028b":         `a\u2028b`,
		"\ufefffog\u00ad":  `\ufefffog\u00ad`,
		"\U000e0041":       `\U000e0041`,
		"\xff":             "\ufffd",
		"👩\u200d🌾":         "👩\u200d🌾",
	} {
		assert.Equal(t, want, Visible(in), "%q", in)
		assert.Equal(t, want, Visible(Visible(in)), "twice is once: %q", in)
	}
}

// Wide characters take two cells (Unicode Standard Annex 11, classes W and F),
// marks none (general category Mn).
func TestWidth(t *testing.T) {
	for s, want := range map[string]int{"": 0, "fog": 3, "手織": 4, "e\u0301": 1, "ﾊ": 1, "Ａ": 2,
		"👩\u200d🌾": 2} {
		assert.Equal(t, want, Width(s), "%q", s)
	}
	assert.Equal(t, "手織  |", Pad("手織", 6)+"|")
	assert.Equal(t, "  e\u0301", PadLeft("e\u0301", 3))
	assert.Equal(t, "wider", Pad("wider", 2))
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		in    string
		width int
		want  string
	}{
		{"cloudberry", 10, "cloudberry"}, {"cloudberry", 6, "cloud…"}, {"手織手織", 6, "手織…"},
		{"手織手織", 5, "手織…"},
		{"手織手織", 4, "手…"}, {"e\u0301e\u0301e\u0301", 2, "e\u0301…"}, {"fog", 0, ""},
		{"fog", 1, "…"},
	} {
		got := Cut(c.in, c.width)
		assert.Equal(t, c.want, got)
		assert.LessOrEqual(t, Width(got), c.width)
	}
}

func TestWrap(t *testing.T) {
	assert.Equal(t, []string{"one two", "three", "fourteenlong", "x"},
		Wrap("one two  three fourteenlong x", 8))
	assert.Equal(t, []string{""}, Wrap("", 8))
}

func TestCaretStandsUnderItsCharacter(t *testing.T) {
	for _, line := range []string{"width = 46", "\twidth\t= 46", "name = \"手織\" # 46",
		"e\u0301 = 46", "\x1b = 46"} {
		col := 1 + len([]rune(line[:strings.Index(line, "46")]))
		text, under := Caret(line, col, 76)
		assert.Equal(t, Width(text[:strings.Index(text, "46")]), len(under)-1, "%q", line)
		assert.NotContains(t, text, "\t")
	}
}

func TestCaretOfALongLine(t *testing.T) {
	line := strings.Repeat("x", 500) + "46" + strings.Repeat("y", 500)
	text, under := Caret(line, 501, 76)
	assert.Equal(t, 76, Width(text))
	assert.Equal(t, strings.Index(text, "46"), strings.Index(under, "^")+len("…")-1)
	text, under = Caret("short", 99, 76)
	assert.Equal(t, []string{"short", "     ^"}, []string{text, under},
		"past the end it points at the end")
}

// TestCaretOfMarks: marks take no width (general category Mn), and a line may be
// nothing else.
func TestCaretOfMarks(t *testing.T) {
	marks := strings.Repeat("\u0301", 1000)
	text, under := Caret("a"+marks+"b"+marks, 1002, 10)
	assert.Equal(t, "…"+marks[:80]+"b"+marks[:78]+"…", text)
	assert.Equal(t, " ^", under)
}

func TestColoursAreOnlyForTerminals(t *testing.T) {
	env := func(string) string { return "truecolor" }
	assert.Equal(t, Plain, Detect(&bytes.Buffer{}, env))
	columns, rows := Size(&bytes.Buffer{})
	assert.Equal(t, []int{80, 24}, []int{columns, rows})
	assert.Empty(t, Plain.Swatch(palette.RGB{R: 1}, 4))
	assert.Equal(t, "x", Plain.Strong("x"))
}

func TestPromisedColours(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want Paint
	}{
		{map[string]string{"TERM": "xterm"}, Plain},
		{map[string]string{}, Plain},
		{map[string]string{"TERM": "xterm-256color"}, Cube},
		{map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor"}, Direct},
		{map[string]string{"TERM": "screen-256color", "COLORTERM": "24bit"}, Direct},
		{map[string]string{"TERM": "xterm-direct"}, Direct},
		{map[string]string{"TERM": "dumb", "COLORTERM": "truecolor"}, Plain},
		{map[string]string{"TERM": "xterm-256color", "COLORTERM": "truecolor", "NO_COLOR": "1"},
			Plain},
	} {
		assert.Equal(t, c.want, promised(func(k string) string { return c.env[k] }), "%v", c.env)
	}
}

func TestStripSharesEscapes(t *testing.T) {
	a, b := palette.RGB{R: 36, G: 70, B: 60}, palette.RGB{R: 255, G: 255, B: 255}
	assert.Equal(t, "\x1b[48;2;36;70;60m  \x1b[0m\x1b[48;2;255;255;255m \x1b[0m",
		Direct.Strip([]palette.RGB{a, a, b}))
	assert.Equal(t, "\x1b[48;5;231m \x1b[0m", Cube.Strip([]palette.RGB{b}))
}

// table is every colour of xterm's table, by its published layout.
func table() (all []palette.RGB) {
	levels := []uint8{0, 95, 135, 175, 215, 255}
	for i := range 216 {
		all = append(all, palette.RGB{R: levels[i/36], G: levels[i/6%6], B: levels[i%6]})
	}
	for i := range 24 {
		v := uint8(8 + 10*i)
		all = append(all, palette.RGB{R: v, G: v, B: v})
	}
	return all
}

func TestCubeFindsTheNearestOfAll(t *testing.T) {
	all := table()
	for v := 0; v < 1<<12; v++ {
		c := palette.RGB{R: uint8(v >> 8 * 17), G: uint8(v >> 4 & 15 * 17), B: uint8(v & 15 * 17)}
		least := 1 << 30
		for _, a := range all {
			least = min(least, apart(c, int(a.R), int(a.G), int(a.B)))
		}
		got := all[cube(c)-16]
		require.Equal(t, least, apart(c, int(got.R), int(got.G), int(got.B)), "%v", c)
	}
}

func TestShort(t *testing.T) {
	word, words := strings.Repeat("ä", 500_000), strings.Repeat("word ", 100_000)
	for name, c := range map[string]struct{ text, want string }{
		"ordinary text stays": {"\"damson\" as pattern", "\"damson\" as pattern"},
		"a long word": {"a " + word + " b",
			"a " + strings.Repeat("ä", 60) + "… (500000 characters) b"},
		"a word just as long": {strings.Repeat("x", 120), strings.Repeat("x", 120)},
		"one longer": {strings.Repeat("x", 121),
			strings.Repeat("x", 60) + "… (121 characters)"},
		"a long message": {words, words[:800] + " … (498400 bytes left out) … " +
			words[len(words)-800:]},
		"nothing": {"", ""},
	} {
		t.Run(name, func(t *testing.T) { assert.Equal(t, c.want, Short(c.text)) })
	}
}

func TestTail(t *testing.T) {
	for _, c := range []struct {
		text  string
		width int
		want  string
	}{
		{"abcdef", 3, "def"}, {"abc", 5, "abc"}, {"abc", 0, ""},
		{"手織り", 4, "織り"}, {"手織り", 3, "り"}, {"ae\u0301", 1, "e\u0301"}, {"a手", 1, ""},
	} {
		assert.Equal(t, c.want, tail(c.text, c.width), "%q", c.text)
	}
}

// BenchmarkCaret lays out a line of an eighth of a MiB and of a whole one, in plain
// letters and in wide ones.
func BenchmarkCaret(b *testing.B) {
	for _, kib := range []int{128, 1024} {
		for name, letter := range map[string]string{"plain": "a", "wide": "織"} {
			line := strings.Repeat(letter, kib<<10/len(letter))
			b.Run(fmt.Sprintf("%s/%d KiB", name, kib), func(b *testing.B) {
				for b.Loop() {
					Caret(line, len(line), 72)
				}
			})
		}
	}
}
