package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestChangedPieces: other blocks, colours, grounds or hems are a change, and other
// widths; not the whole units that the same widths come to at another length.
func TestChangedPieces(t *testing.T) {
	run := func(block string, units int, pattern string) WeftRun {
		return WeftRun{Block: block, Units: units, Pattern: pattern, Ground: "oat"}
	}
	of := func(runs ...WeftRun) Piece { return Piece{Hem: "oat", Runs: runs} }
	was := of(run("A", 30, "plum"), run("B", 20, "plum"))
	hemmed := of(was.Runs...)
	hemmed.Hem = "plum"
	ground := of(run("A", 30, "plum"), run("B", 20, "plum"))
	ground.Runs[1].Ground = "plum"
	ruled := func(rhythm string, runs ...WeftRun) Piece {
		return Piece{Hem: "oat", Runs: runs, Origin: "rules", Rhythm: rhythm}
	}
	was.Origin, was.Rhythm = "rules", "even, 2 stripes"
	for _, c := range []struct {
		name string
		is   Piece
		want []int
	}{
		{"the same", was, nil},
		{"an edge moved by one unit", of(run("A", 31, "plum"), run("B", 19, "plum")), []int{0}},
		{"another colour", of(run("A", 30, "plum"), run("B", 20, "leaf")), []int{0}},
		{"another block", of(run("A", 30, "plum"), run("A", 20, "plum")), []int{0}},
		{"another ground", ground, []int{0}},
		{"another hem", hemmed, []int{0}},
		{"one run more", of(run("A", 30, "plum"), run("B", 20, "plum"), run("A", 1, "plum")),
			[]int{0}},
		{"shorter, in proportion", of(run("A", 21, "plum"), run("B", 14, "plum")), nil},
		{"shorter, as near as whole units come",
			of(run("A", 22, "plum"), run("B", 14, "plum")), nil},
		{"longer, as near as whole units come",
			of(run("A", 37, "plum"), run("B", 24, "plum")), nil},
		{"shorter, and otherwise divided", of(run("A", 14, "plum"), run("B", 21, "plum")),
			[]int{0}},
		{"shorter, as its rule divides it",
			ruled("even, 2 stripes", run("A", 14, "plum"), run("B", 21, "plum")), nil},
		{"shorter, by another rule", ruled("random", run("A", 14, "plum"), run("B", 21, "plum")),
			[]int{0}},
		{"as long, by the same rule",
			ruled("even, 2 stripes", run("A", 31, "plum"), run("B", 19, "plum")), []int{0}},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, after := &Plan{Pieces: []Piece{was}}, &Plan{Pieces: []Piece{c.is}}
			assert.Equal(t, c.want, ChangedPieces(before, after))
			assert.Equal(t, c.want, ChangedPieces(after, before), "and back")
		})
	}
	assert.Empty(t, ChangedPieces(&Plan{}, &Plan{Pieces: []Piece{was}}), "only one has it")
}
