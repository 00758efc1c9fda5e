package svg

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
)

// Pieces of one name have each its own row and column of differences.
func TestPiecesOfOneNameInTheMatrix(t *testing.T) {
	p := asymmetric(t)
	p.Pieces = append(p.Pieces, p.Pieces[0], p.Pieces[0])[:3]
	for i := range p.Pieces {
		p.Pieces[i].Name = "ladder"
	}
	p.Set.Pairs = nil
	for _, pair := range []struct {
		a, b int
		d    float64
	}{{1, 2, 31.1}, {1, 3, 32.2}, {2, 3, 33.3}} {
		p.Set.Pairs = append(p.Set.Pairs,
			plan.Pair{A: "ladder", B: "ladder", NumberA: pair.a, NumberB: pair.b,
				Difference: pair.d})
	}
	var drawn bytes.Buffer
	require.NoError(t, Set(&drawn, p))
	for _, d := range []string{">31.1<", ">32.2<", ">33.3<"} {
		assert.Equal(t, 1, bytes.Count(drawn.Bytes(), []byte(d)), d)
	}
}
