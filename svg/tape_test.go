package svg

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/plan"
)

// TestTapeNamesUseTheRoom: a long name goes on in the free paper below, or else
// above; only where neither is, it is cut.
func TestTapeNamesUseTheRoom(t *testing.T) {
	mark := loomwork.Mark{What: loomwork.Change, Step: 0}
	for _, c := range []struct {
		above, below int
		want         []string
		last         um
	}{
		{0, 3, []string{"A · D deep", "water damson"}, 52900},
		{2, 1, []string{"A · D deep", "water damson"}, 50000},
		{0, 1, []string{"A · D deep…"}, 50000},
	} {
		var out bytes.Buffer
		s := &tapeStrip{Tape: &Tape{tape: loomwork.Tape{Strips: make([]loomwork.Strip, 5)},
			steps: []loomwork.Step{
				{Kind: loomwork.Body, Block: "A", Pattern: "deep water damson"}},
			letters: map[string]string{"deep water damson": "D"}},
			pen: open(&out, stripWidth, 100*mm, "t", "d")}
		assert.Equal(t, c.last, s.nameBeside(mark, 50*mm, c.above, c.below))
		require.NoError(t, s.pen.finish())
		if len(c.want) > 1 {
			for _, line := range c.want {
				assert.Contains(t, out.String(), ">"+line+"<")
			}
		} else {
			assert.Equal(t, 1, strings.Count(out.String(), "…<"))
		}
	}
}

// TestTapeShowsTheCloth: its bands have the plan's mixed colours, over the most of the
// warp: in this brief of the warp of a block one colour has the most ends.
func TestTapeShowsTheCloth(t *testing.T) {
	p := planFrom(t, clothBrief("halvdrall", "8/cm", "8/cm", 2))
	tape := NewTape(p, 0)
	shades, piece := p.Shades(), p.Pieces[0]
	most := map[string]plan.WarpRun{"A": p.Warp.Runs[0], "B": p.Warp.Runs[3], "": p.Warp.Runs[0]}
	require.Equal(t, "chalk", most["B"].Colour)
	want := []string{shades.Hem("chalk", "ink").RGB.Hex()}
	for _, run := range piece.Runs {
		want = append(want, shades.Body(most[run.Block], run, false).RGB.Hex())
	}
	want = append(want, want[0])
	var got []string
	for n := range tape.Strips() {
		var b bytes.Buffer
		require.NoError(t, tape.Strip(&b, n))
		tree(t, b.Bytes()).walk(func(n *node) {
			if n.Attr["stroke-width"] == "0.1" {
				got = append(got, n.Attr["fill"])
			}
		})
	}
	assert.Equal(t, want, slices.Compact(got))
}
