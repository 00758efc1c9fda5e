package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/plan"
)

// A warp of a few runs more than are named one by one is named whole, where
// that costs no more than a line; a warp of many is cut.
func TestWarpInWordsIsCutOnlyWhereItSaves(t *testing.T) {
	named := func(runs int) string {
		made := &plan.Plan{}
		for n := range runs {
			colour := "oat"
			if n == 0 { // no mirror image
				colour = "rye"
			}
			made.Warp.Runs = append(made.Warp.Runs,
				plan.WarpRun{Block: "A", Units: 10, Colour: colour})
		}
		p := &printer{Plan: made, columns: 80, paint: screen.Plain}
		return p.warpInWords()
	}
	assert.Equal(t, "A 10 rye, "+strings.Repeat("A 10 oat, ", mostRuns-1)+"A 10 oat",
		named(mostRuns+1))
	// seven of "A 10 oat, " fill the 72 columns beside the heading: 12 runs and
	// "and 9 more" take two lines, 21 runs three, 22 runs four
	assert.NotContains(t, named(21), "more")
	assert.True(t, strings.HasSuffix(named(22), "A 10 oat, and 10 more"), named(22))
}

// TestMirroredWarpInWords is told to its middle.
func TestMirroredWarpInWords(t *testing.T) {
	made := &plan.Plan{}
	for _, units := range []int{9, 4, 2, 4, 9} {
		made.Warp.Runs = append(made.Warp.Runs,
			plan.WarpRun{Block: "A", Units: units, Colour: "oat"})
	}
	p := &printer{Plan: made, columns: 80, paint: screen.Plain}
	assert.Equal(t, "A 9 oat, A 4 oat, A 2 oat, and back again", p.warpInWords())
	made.Warp.Runs[4].Units = 8
	assert.Equal(t, "A 9 oat, A 4 oat, A 2 oat, A 4 oat, A 8 oat", p.warpInWords())
	made.Warp.Runs = made.Warp.Runs[:1]
	assert.Equal(t, "A 9 oat", p.warpInWords())
}
