package workbench

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// heldSet is a brief of two pieces, the second of which is held: of 40 units at the
// length its runs were written for, and here of as many as length asks for.
func heldSet(t testing.TB, length string) *Bench {
	t.Helper()
	return open(t, `title = "held"
[set]
pieces = 2
width = "30 cm"
length = "`+length+`"
[cloth]
sett = "8/cm"
ground = "8/cm"
draw_in = "0%"
take_up = "0%"
shrink_width = "0%"
shrink_length = "0%"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "fog"
hex = "#cfd3d2"
[[colour]]
name = "slate"
hex = "#4a5560"
[warp]
colours = ["fog"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "fog"
colours = ["slate"]
rhythm = { kind = "even", stripes = 4 }
[[piece]]
name = "first"
[[piece]]
name = "second"
runs = ["A 10 slate", "B 20 slate", "A 10 slate"]
hold = true
`)
}

// What is done to a held piece is what it looks like afterwards, whatever length it
// was written for.
func TestEditsOfAHeldPiece(t *testing.T) {
	for _, c := range []struct {
		name string
		op   Op
		want string // at 10 cm, 40 units
		half string // at 5 cm, 20 units
	}{
		{"edge", Op{Do: "edge", Run: 0, To: 2}, "A 12 slate, B 18 slate, A 10 slate",
			"A 7 slate, B 8 slate, A 5 slate"},
		{"split", Op{Do: "split", Run: 1}, "A 10 slate, B 10 slate, B 10 slate, A 10 slate",
			"A 5 slate, B 5 slate, B 5 slate, A 5 slate"},
		{"drop", Op{Do: "drop", Run: 2}, "A 10 slate, B 30 slate", "A 5 slate, B 15 slate"},
		{"reblock", Op{Do: "reblock", Run: 0, Value: "plain"}, "plain 10, B 20 slate, A 10 slate",
			"plain 5, B 10 slate, A 5 slate"},
		{"units", Op{Do: "units", Run: 0, To: 14}, "A 14 slate, B 20 slate, A 10 slate",
			"A 14 slate, B 10 slate, A 5 slate"},
		{"keep", Op{Do: "keep"}, "A 10 slate, B 20 slate, A 10 slate",
			"A 5 slate, B 10 slate, A 5 slate"},
	} {
		for length, want := range map[string]string{"10 cm": c.want, "5 cm": c.half} {
			t.Run(c.name+" "+length, func(t *testing.T) {
				b := heldSet(t, length)
				c.op.Strip = 1
				do(t, b, c.op)
				assert.Equal(t, want, strings.Join(words(pieceRuns(b.plan, 1)), ", "))
				agrees(t, b)
			})
		}
	}
}
