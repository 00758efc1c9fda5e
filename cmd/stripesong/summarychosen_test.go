package main

import (
	"bufio"
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/plan"
)

func TestChosenTellsTheLeastAndTheBound(t *testing.T) {
	var out bytes.Buffer
	w := &world{out: bufio.NewWriter(&out)}
	p := &printer{w: w, columns: 100,
		Plan: &plan.Plan{Set: plan.Set{Candidates: 40, LeastDifference: 5.25, Bound: 7,
			Pair: []string{"one", "t\x1bwo"}, Kinship: "colour", Shared: "moss"}}}
	p.chosen()
	p.Set.Candidates = 0
	p.chosen()
	assert.NoError(t, w.out.Flush())
	assert.Equal(t, "chosen  out of 40 candidates; the two most alike differ by 5.2, \"one\" and "+
		"\"t\\x1bwo\" (no set of them\n"+
		"        by more than 7.0); all have the colour moss\n", out.String())
}
