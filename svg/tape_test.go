package svg

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/loomwork"
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
		s := &tapeStrip{Tape: &Tape{steps: []loomwork.Step{{Kind: loomwork.Body, Block: "A", Pattern: "deep water damson"}},
			letters: map[string]string{"deep water damson": "D"}}, pen: open(&out, stripWidth, 100*mm, "t", "d")}
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
