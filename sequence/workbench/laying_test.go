package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestBlocksOnThePage: blocks are laid apart, given shares, a centre and stripe edges as
// typed, shown as typed, and change with every stripe again once nothing is; a piece says
// so where [weft] has blocks of its own.
func TestBlocksOnThePage(t *testing.T) {
	b := open(t, string(brief.Default()))
	before := words(pieceRuns(b.Plan(), 1))
	typed := map[string]string{"letters": "ABA", "weights": "1, 2, 1", "centre": "40%",
		"edges": "free", "shares": "", "mirror": "false"}
	do(t, b, Op{Do: "blocks", Strip: Weft, Blocks: typed})
	assert.Equal(t, typed, b.View().Pieces[1].Blocks, "inherited")
	assert.Contains(t, string(b.Text()),
		`blocks = { letters = "ABA", weights = [1, 2, 1], centre = "40%" }`)
	assert.NotEqual(t, before, words(pieceRuns(b.Plan(), 1)))
	agrees(t, b)

	do(t, b, Op{Do: "blocks", Strip: 1, Blocks: map[string]string{"weights": "1, 2",
		"edges": "stripes", "mirror": "true"}})
	assert.Equal(t, before, words(pieceRuns(b.Plan(), 1)), "without letters they say nothing")
	assert.Contains(t, string(b.Text()), `blocks = "stripes"`)
	agrees(t, b)

	do(t, b, Op{Do: "blocks", Strip: 1, Blocks: map[string]string{"shares": "1 2"}})
	assert.Equal(t, "1, 2", b.View().Pieces[1].Blocks["shares"])
	do(t, b, Op{Do: "blocks", Strip: 1, Blocks: map[string]string{"letters": "AB",
		"edges": "stripes", "mirror": "true"}})
	assert.Equal(t, "true", b.View().Pieces[1].Blocks["mirror"])
	assert.Equal(t, "stripes", b.View().Pieces[1].Blocks["edges"])
	agrees(t, b)

	for keys, says := range map[[2]string]string{
		{"letters", "ABX"}:    `there is no block "X"`,
		{"shares", "1, 2, 3"}: "has 3 numbers for the blocks A, B",
		{"shares", "a third"}: `"a" is not a number`,
	} {
		_, err := b.Do(t.Context(), Op{Do: "blocks", Strip: 1,
			Blocks: map[string]string{keys[0]: keys[1]}})
		require.ErrorContains(t, err, says)
	}
}

// TestEveryKeyOfBlocksCanBeTyped: what is offered as a field is taken as one.
func TestEveryKeyOfBlocksCanBeTyped(t *testing.T) {
	typed := map[string]string{"letters": "ABA", "weights": "1, 2, 1", "edges": "stripes",
		"shares": "1, 2", "centre": "40%"}
	for _, p := range AllLists().Blocks {
		b := open(t, string(brief.Default()))
		require.NotEmpty(t, typed[p.Key], p.Key)
		set := map[string]string{p.Key: typed[p.Key]}
		if p.Beside != "" {
			set[p.Beside] = typed[p.Beside]
		}
		do(t, b, Op{Do: "blocks", Strip: 1, Blocks: set})
		assert.Equal(t, typed[p.Key], b.View().Pieces[1].Blocks[p.Key])
		agrees(t, b)
	}
}
