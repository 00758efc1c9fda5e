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
		for range runs {
			made.Warp.Runs = append(made.Warp.Runs, plan.WarpRun{Block: "A", Units: 10, Colour: "oat"})
		}
		p := &printer{Plan: made, columns: 80, paint: screen.Plain}
		return p.warpInWords()
	}
	assert.Equal(t, strings.Repeat("A 10 oat, ", mostRuns)+"A 10 oat", named(mostRuns+1))
	// seven of "A 10 oat, " fill the 72 columns beside the heading: 12 runs and
	// "and 9 more" take two lines, 21 runs three, 22 runs four
	assert.NotContains(t, named(21), "more")
	assert.True(t, strings.HasSuffix(named(22), "A 10 oat, and 10 more"), named(22))
}
