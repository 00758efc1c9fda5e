package workbench

import (
	"context"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// byHand is a piece written out by hand, with a word on every block.
const byHand = `[[piece]]
name = "by hand"
runs = [ # from the hem up
  # the foot
  "A 10 damson", # wide
  "plain 4",     # a rest
  "B 12 rosehip",
  "A 30 leaf shade" # narrow
  # and the end
]
`

// byRule is a piece whose rule is written over lines.
const byRule = `[[piece]]
name = "by rule"
colours = [
  "damson", # dark
  "rosehip", # red
  # green comes last
  "leaf shade",
]
rhythm = { kind = "even", stripes = 5 } # as it is
`

// handWritten is the default brief with two pieces before the others.
func handWritten(t *testing.T) string {
	t.Helper()
	text := string(brief.Default())
	at := strings.Index(text, "[[piece]]")
	require.Positive(t, at)
	text = text[:at] + byHand + "\n" + byRule + "\n" + text[at:]
	return regexp.MustCompile(`(?m)^pieces +=  *6`).ReplaceAllString(text, "pieces = 8")
}

// A hand-written list that an operation changes keeps its comments: on the entry where
// the entry stays, else above the key.
func TestCommentsInListsStay(t *testing.T) {
	const runs = "name = \"by hand\"\nruns = [ # from the hem up\n"
	for _, one := range []struct {
		name string
		op   Op
		want string // of the table
	}{
		{"mirrored", Op{Do: "mirror"}, runs + `  # the foot
  "A 10 damson", # wide
  "plain 4",     # a rest
  "B 12 rosehip",
  "A 4 leaf shade",
  "B 12 rosehip",
  "plain 4",
  "A 10 damson" # narrow
  # and the end
]
`},
		{"turned end for end", Op{Do: "turn"}, runs + `  "A 30 leaf shade", # narrow
  "B 12 rosehip",
  "plain 4",     # a rest
  # the foot
  "A 10 damson", # wide
  # and the end
]
`},
		{"two swapped", Op{Do: "swap", Run: 2}, runs + `  # the foot
  "A 10 damson", # wide
  "plain 4",     # a rest
  "A 30 leaf shade", # narrow
  "B 12 rosehip",
  # and the end
]
`},
		{"an edge moved", Op{Do: "edge", Run: 0, To: 2}, runs + `  # the foot
  "A 12 damson", # wide
  "plain 2",     # a rest
  "B 12 rosehip",
  "A 30 leaf shade" # narrow
  # and the end
]
`},
		{"one divided", Op{Do: "split", Run: 3}, runs + `  # the foot
  "A 10 damson", # wide
  "plain 4",     # a rest
  "B 12 rosehip",
  "A 15 leaf shade",
  "A 15 leaf shade" # narrow
  # and the end
]
`},
		{"a colour taken in", Op{Do: "in", Strip: 1, Colour: "sloe"}, `name = "by rule"
colours = [
  "damson", # dark
  "rosehip", # red
  # green comes last
  "leaf shade",
  "sloe",
]
`},
		{"a colour taken out", Op{Do: "out", Strip: 1, Colour: "damson"}, `name = "by rule"
# dark
colours = [
  "rosehip", # red
  # green comes last
  "leaf shade",
]
`},
	} {
		t.Run(one.name, func(t *testing.T) {
			b := open(t, handWritten(t))
			do(t, b, one.op)
			text := string(b.Text())
			from := strings.Index(text,
				[]string{`name = "by hand"`, `name = "by rule"`}[one.op.Strip])
			assert.Equal(t, one.want, text[from:min(len(text), from+len(one.want))], "%s",
				text[from:from+300])
			_, err := b.Undo(context.Background())
			require.NoError(t, err)
			assert.Equal(t, handWritten(t), string(b.Text()))
		})
	}
}

// Whatever is done to a strip, no comment of the brief goes.
func TestNoOperationOnAStripLosesAComment(t *testing.T) {
	text := handWritten(t)
	all := regexp.MustCompile(`# .*`).FindAllString(text, -1)
	for _, op := range []Op{
		{Do: "turn"}, {Do: "mirror"}, {Do: "swap", Run: 0}, {Do: "swap", Run: 1},
		{Do: "split", Run: 1}, {Do: "split", Run: 2}, {Do: "drop", Run: 0}, {Do: "drop", Run: 1},
		{Do: "drop", Run: 2},
		{Do: "edge", Run: 0, To: -3}, {Do: "units", Run: 2, To: 5},
		{Do: "recolour", Run: 0, Colour: "sloe"}, {Do: "reblock", Run: 1, Value: "A"},
		{Do: "reblock", Run: 0, Value: "plain"},
		{Do: "keep"}, {Do: "loose"},
		{Do: "rhythm", Rhythm: map[string]string{"kind": "even", "stripes": "5"}},
		{Do: "blocks", Strip: 1, Blocks: map[string]string{"letters": "ABA"}},
		{Do: "part", Key: "ground", Colour: "barley"},
		{Do: "in", Strip: 1, Colour: "sloe"}, {Do: "out", Strip: 1, Colour: "damson"},
		{Do: "out", Strip: 1, Colour: "rosehip"}, {Do: "out", Strip: 1, Colour: "leaf shade"},
		{Do: "order", Strip: 1, Value: "shares"}, {Do: "keep", Strip: 1}, {Do: "turn", Strip: 1},
		{Do: "rhythm", Strip: 1, Rhythm: map[string]string{"kind": "even", "stripes": "7"}},
	} {
		b := open(t, text)
		do(t, b, op)
		agrees(t, b)
		for _, c := range all {
			assert.Contains(t, string(b.Text()), c, "%+v", op)
		}
		assert.Equal(t, len(all),
			len(regexp.MustCompile(`# .*`).FindAllString(string(b.Text()), -1)), "%+v", op)
	}
}
