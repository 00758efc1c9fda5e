package main

import (
	"bufio"
	"bytes"
	"context"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/screen"
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// planned is the plan of a brief.
func planned(t *testing.T, text []byte, set ...brief.Override) *plan.Plan {
	t.Helper()
	b, err := brief.Parse("test.toml", text, brief.Options{Set: set})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

var escape = regexp.MustCompile(`\x1b\[[0-9;]*m`)

// onTerminal prints the summary of p as a terminal of 80 by 24 would get it.
func onTerminal(p *plan.Plan, paint screen.Paint) (lines []string) {
	return strings.Split(strings.TrimSuffix(printed(p, 80, 24, paint, planFolder{dir: "somewhere"}),
		"\n"), "\n")
}

// printed is the summary as a terminal gets it, or with no rows what a file would get.
func printed(p *plan.Plan, columns, rows int, paint screen.Paint, to planFolder) string {
	var out bytes.Buffer
	w := &world{out: bufio.NewWriter(&out), terminal: &out, env: func(string) string { return "" }}
	print := newPrinter(w, p)
	print.columns, print.rows, print.paint = columns, rows, paint
	print.summary(&source{origin: fromProgram, name: brief.DefaultName}, to)
	w.out.Flush()
	return escape.ReplaceAllString(out.String(), "")
}

func TestSummaryFitsAScreen(t *testing.T) {
	six := planned(t, brief.Default())
	many := planned(t, brief.Default(),
		brief.Override{Key: "set.pieces", Value: "60", Flag: "--pieces"},
		brief.Override{Key: "loom.board", Value: `"99 m"`})
	for _, paint := range []screen.Paint{screen.Plain, screen.Cube, screen.Direct} {
		for _, p := range []*plan.Plan{six, many} {
			lines := onTerminal(p, paint)
			if p == six {
				assert.LessOrEqual(t, len(lines), 23, "and the prompt below")
			}
			assert.LessOrEqual(t, len(lines), 40)
			for _, l := range lines {
				assert.LessOrEqual(t, screen.Width(l), 80, l)
			}
		}
	}
	assert.Contains(t, strings.Join(onTerminal(many, screen.Plain), "\n"),
		"\n  piece 7, 53 like it  ",
		"pieces that are alike are one line")
	inches := planned(t, brief.DefaultIn("in"))
	assert.LessOrEqual(t, len(onTerminal(inches, screen.Plain)), 23)
}

// TestNotesOnATerminalAreALineEach, warnings first, and the rest by number; elsewhere
// they are in full. What holds for every plan is told with the first one in a folder.
func TestNotesOnATerminalAreALineEach(t *testing.T) {
	short := planned(t, brief.Default(), brief.Override{Key: "loom.board", Value: `"1 m"`},
		brief.Override{Key: "set.separator", Value: "0"})
	lines := onTerminal(short, screen.Direct)
	assert.LessOrEqual(t, len(lines), 23)
	assert.Equal(t, "more    1 warning and 1 note: stripesong check", lines[len(lines)-2])
	one := planned(t, []byte(smallNote))
	lines = onTerminal(one, screen.Plain)
	assert.Regexp(t,
		`^warning the warp is .* long and the board holds 1 m: wind it in two parts, …$`,
		lines[len(lines)-5])
	assert.Regexp(t, `^note    no separator picks mark where to cut the pieces apart$`,
		lines[len(lines)-3])
	assert.Equal(t, "in full stripesong check", lines[len(lines)-2])
	for rows, in := range map[int]string{0: "", 24: " "} {
		text := strings.Join(
			strings.Fields(printed(one, 80, rows, screen.Plain, planFolder{"o", true})), " ")
		assert.Contains(t, text,
			"note colours here are not yarn, and dyes may bleed: sample and wash first")
		whole := "or make fewer or shorter pieces [board-short]"
		assert.Equal(t, in == "", strings.Contains(text, whole))
	}
}

// smallNote is a brief of two pieces with a warning and a note.
const smallNote = `title = "two"
[set]
pieces = 2
width = "40 cm"
length = "60 cm"
separator = 0
[cloth]
sett = "8/cm"
ground = "8/cm"
draw_in = "5%"
take_up = "8%"
shrink_width = "10%"
shrink_length = "10%"
weft_extra = "10%"
[loom]
board = "1 m"
[yarn.cotton]
count = "16/2 cotton"
[[colour]]
name = "fog"
hex = "#efe6d2"
on_hand = "9000 m"
[[colour]]
name = "slate"
hex = "#1d3447"
on_hand = "9000 m"
[warp]
colours = ["fog"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "fog"
colours = ["slate"]
rhythm = { kind = "even", stripes = 5 }
[[piece]]
name = "one"
[[piece]]
name = "other"
rhythm = { kind = "graded", stripes = 7, ratio = 5 }
`

// TestStripShowsWhatLiesAtEachCell: of shares 1, 2 and 1 over 8 cells the first
// two cells are the first, four the second, two the third; over 2 cells the
// middles, at 1 and 3 of 4 units, both lie in the second or on its edge.
func TestStripShowsWhatLiesAtEachCell(t *testing.T) {
	p := &printer{paint: screen.Direct,
		colour: map[string]palette.RGB{"a": {R: 1}, "b": {R: 2}, "c": {R: 3}}}
	shares := []share{{1, "a"}, {2, "b"}, {1, "c"}}
	cells := func(n int) (text string) {
		for _, s := range regexp.MustCompile(`48;2;(\d);0;0m( +)`).
			FindAllStringSubmatch(p.strip(shares, n), -1) {
			text += strings.Repeat(s[1], len(s[2]))
		}
		return text
	}
	assert.Equal(t, "11222233", cells(8))
	assert.Equal(t, "1223", cells(4))
	assert.Equal(t, "23", cells(2))
	assert.Equal(t, "2", cells(1))
}

// TestDiffersIsTheLeastOfAllPairs: pieces are known by number, so that two of one
// name do not get each other's differences.
func TestDiffersIsTheLeastOfAllPairs(t *testing.T) {
	p := &printer{Plan: &plan.Plan{Set: plan.Set{Pairs: []plan.Pair{
		{A: "x", NumberA: 1, B: "x", NumberB: 2, Difference: 5},
		{A: "z", NumberA: 3, B: "x", NumberB: 1, Difference: 3.25},
		{A: "x", NumberA: 2, B: "z", NumberB: 3, Difference: 1},
	}}}}
	assert.Equal(t, []string{"3.2", "1.0", "1.0", ""},
		[]string{p.differs(0), p.differs(1), p.differs(2), p.differs(3)})
}

func TestFaintestIsAtTwoMetres(t *testing.T) {
	seen := func(near, far float64) []plan.Seen {
		return []plan.Seen{{DistanceM: 0.4, DeltaL: near, Grade: palette.Bold},
			{DistanceM: 2, DeltaL: far, Grade: palette.Grade(far)}}
	}
	assert.Equal(t, "soft",
		faintest([]plan.Contrast{{Seen: seen(1, 5)}, {Seen: seen(8, 2)}, {Seen: seen(8, 4)}}))
	assert.Empty(t, faintest(nil))
}
