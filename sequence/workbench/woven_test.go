package workbench

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// TestWovenPiecesStay: on a warp that is on the loom neither it nor the pieces that are
// woven can be changed; those to come can.
func TestWovenPiecesStay(t *testing.T) {
	text := brief.Default()
	b, err := brief.Parse("b", text, brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	rest, err := brief.Edit("b", text, append(plan.RunsOf(b, p),
		brief.Change{Key: "midway.woven", Value: `["82 cm", "82 cm"]`},
		brief.Text("midway.warp", "5 m")))
	require.NoError(t, err)
	bench, err := Open(context.Background(), "b", rest, brief.Options{})
	require.NoError(t, err)
	for _, op := range []Op{
		{Do: "order", Strip: Warp, Value: "graded"},
		{Do: "piece.name", Strip: 1, Value: "another"},
		{Do: "piece.drop", Strip: 0},
		{Do: "piece.open", Strip: 1},
		{Do: "piece.move", Strip: 4, To: 1},
		{Do: "part", Strip: 0, Key: "ground", Colour: "barley"},
	} {
		_, err := bench.Do(context.Background(), op)
		var problems brief.Problems
		require.ErrorAs(t, err, &problems, op.Do)
		assert.NotEmpty(t, problems[0].Hint, op.Do)
		assert.Equal(t, rest, bench.Text(), op.Do)
	}
	_, err = bench.Do(context.Background(), Op{Do: "piece.move", Strip: 4, To: 2})
	require.NoError(t, err)
	_, err = bench.Do(context.Background(), Op{Do: "pieces.open"})
	require.NoError(t, err, "what is woven is not left to the program")
	assert.Equal(t, p.Pieces[0].Runs, bench.Plan().Pieces[0].Runs)
	assert.Equal(t, p.Pieces[1].Runs, bench.Plan().Pieces[1].Runs)
	facts := bench.View().Facts
	assert.Contains(t, facts[0].Says, "of 5.00 m left")
}
