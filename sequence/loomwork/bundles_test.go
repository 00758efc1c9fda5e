package loomwork

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestBundles of four ends, as they are hemstitched (common practice, no source): what is
// over has a bundle of its own, one end alone goes with the last four.
func TestBundles(t *testing.T) {
	for ends, want := range map[int][2]int{540: {135, 4}, 541: {135, 5}, 542: {136, 2},
		543: {136, 3}, 4: {1, 4}, 3: {1, 3}} {
		bundles, last := BundlesOf(ends)
		assert.Equal(t, want, [2]int{bundles, last}, "%d ends", ends)
	}
}

// TestTails: a fringed piece begins and ends with a tail of its ground yarn to hemstitch
// with, of four times the width in the reed (common practice, no source); others don't.
// Six pieces, two tails each of four times 54 cm, are 25.92 m.
func TestTails(t *testing.T) {
	for fringe, want := range map[string]int{"0 cm": 0, "6 cm": 2} {
		p := planOf(t, with(t, `fringe    = "0 cm"`, `fringe = "`+fringe+`"`))
		steps := StepsOf(p, 0)
		h := HandlingOf(steps)
		assert.Equal(t, want, h.Stitched, fringe)
		assert.Equal(t, 22, h.Tails+h.Stitched, fringe)
		for _, y := range p.Yarn {
			tails := 0.0
			if y.Colour == "oat thread" && want > 0 {
				tails = 25.92
			}
			assert.Equal(t, tails, y.HemstitchM, y.Colour)
			assert.InDelta(t, y.TotalM, y.WarpM+y.GroundM+y.PatternM, 0.001, "tails are beside it")
		}
	}
}
