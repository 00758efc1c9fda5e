package main

import (
	"fmt"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
)

// chosen tells how a set that was chosen came out, and how much better any
// choice could have been.
func (p *printer) chosen() {
	set := p.Set
	if set.Candidates == 0 || len(set.Pair) != 2 {
		return
	}
	text := fmt.Sprintf("out of %s; the two most alike differ by %.1f, %q and %q (no set of them "+
		"by more than %.1f)",
		measure.Count(set.Candidates, "candidate"), set.LeastDifference, set.Pair[0], set.Pair[1],
		set.Bound)
	if family := inCommon[set.Kinship]; family != "" {
		text += fmt.Sprintf("; all have %s %s", family, set.Shared)
	}
	p.entry("chosen", screen.Visible(text))
}

// inCommon is what chosen pieces have in common, as a sentence goes on.
var inCommon = map[brief.Kinship]string{
	brief.OneColour: "the colour", brief.OneRhythm: "the rhythm",
	brief.OneProportions: "the widths"}
