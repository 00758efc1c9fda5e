package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestMiddleOnThePage: a middle is typed in, follows a colour that gets another name, and
// is taken away again; a piece says that it has none where [weft] has one.
func TestMiddleOnThePage(t *testing.T) {
	b := open(t, string(brief.Default()))
	before := words(pieceRuns(b.Plan(), 1))
	do(t, b, Op{Do: "middle", Strip: 1, Value: "60% B damson"})
	assert.Equal(t, "60% B damson", b.View().Pieces[1].Middle)
	after := words(pieceRuns(b.Plan(), 1))
	assert.NotEqual(t, before, after)
	agrees(t, b)

	do(t, b, Op{Do: "colour.name", Colour: "damson", Value: "night plum"})
	assert.Equal(t, "60% B night plum", b.View().Pieces[1].Middle)
	agrees(t, b)
	_, err := b.Do(t.Context(), Op{Do: "colour.drop", Colour: "night plum"})
	assert.Error(t, err, "it is in use")

	do(t, b, Op{Do: "middle", Strip: 1})
	assert.Empty(t, b.View().Pieces[1].Middle)
	assert.NotContains(t, string(b.Text()), "\nmiddle")

	do(t, b, Op{Do: "middle", Strip: Weft, Value: "50% plain"})
	require.Equal(t, "50% plain", b.View().Pieces[1].Middle)
	do(t, b, Op{Do: "middle", Strip: 1})
	assert.Empty(t, b.View().Pieces[1].Middle)
	assert.Contains(t, string(b.Text()), `middle = "none"`)
	agrees(t, b)

	_, err = b.Do(t.Context(), Op{Do: "middle", Strip: Warp, Value: "60% plain"})
	assert.ErrorContains(t, err, "a warp has no plain stretch")
}
