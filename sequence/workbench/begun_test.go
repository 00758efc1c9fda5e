package workbench

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// A gesture that is given up has never been: text, rule, steps, what can be redone.
func TestAGestureGivenUp(t *testing.T) {
	b, ctx := open(t, string(brief.Default())), context.Background()
	do(t, b, Op{Do: "swap", Strip: 5})
	text := string(b.Text())
	do(t, b, Op{Do: "swap", Strip: 4})
	_, err := b.Undo(ctx)
	require.NoError(t, err)
	for range 2 {
		for _, to := range []int{1, 2, -1} {
			do(t, b, Op{Do: "edge", Strip: Warp, Run: 1, To: to, Gesture: "g"})
		}
		assert.NotEqual(t, text, string(b.Text()))
		assert.True(t, b.View().Warp.Kept)
		edition := b.Edition()
		assert.True(t, b.GiveUp("g"))
		assert.Greater(t, b.Edition(), edition, "whoever looks is told")
		assert.Equal(t, text, string(b.Text()))
		assert.False(t, b.View().Warp.Kept, "it has its rhythm still")
		assert.Equal(t, [2]int{1, 1}, b.View().Steps)
		assert.False(t, b.GiveUp("g"), "there is nothing left of it")
	}
	t.Run("not after something else", func(t *testing.T) {
		do(t, b, Op{Do: "edge", Strip: Warp, Run: 1, To: 1, Gesture: "h"})
		do(t, b, Op{Do: "swap", Strip: 4})
		text := string(b.Text())
		assert.False(t, b.GiveUp("h"))
		assert.False(t, b.GiveUp(""))
		assert.Equal(t, text, string(b.Text()))
	})
	t.Run("not after it was undone", func(t *testing.T) {
		do(t, b, Op{Do: "edge", Strip: Warp, Run: 1, To: 1, Gesture: "i"})
		_, err := b.Undo(ctx)
		require.NoError(t, err)
		assert.False(t, b.GiveUp("i"))
	})
}

// A drag is told as a whole; one that comes back to where it began is none.
func TestADragIsToldAsAWhole(t *testing.T) {
	b := open(t, string(brief.Default()))
	_, err := b.Undo(context.Background())
	require.NoError(t, err)
	said := func(op Op) string {
		t.Helper()
		what, err := b.Do(context.Background(), op)
		require.NoError(t, err)
		return what
	}
	edge := Op{Do: "edge", Strip: 5, Run: 1, To: 2, Gesture: "g"}
	assert.Equal(t, "last apples: edge 2 moved by +2 units", said(edge))
	assert.Equal(t, "last apples: edge 2 moved by +4 units", said(edge))
	assert.Equal(t, "last apples: edge 2 moved by +4 units", b.View().Undo)
	edge.To = -4
	assert.Equal(t, "last apples: edge 2 is where it was", said(edge))
	assert.Equal(t, string(brief.Default()), string(b.Text()))
	assert.Empty(t, b.View().Undo)
	edge.To = -1
	assert.Equal(t, "last apples: edge 2 moved by -1 unit", said(edge))
}

// A warp that loses its mirror says so, and what is the same from both ends already is
// neither turned nor mirrored.
func TestALostMirrorIsTold(t *testing.T) {
	b := open(t, string(brief.Default()))
	said := func(op Op) string {
		t.Helper()
		what, err := b.Do(context.Background(), op)
		require.NoError(t, err)
		return what
	}
	do(t, b, Op{Do: "mirror", Strip: Warp})
	require.True(t, palindrome(warpRuns(b.Plan())))
	do(t, b, Op{Do: "recolour", Strip: 5, Run: 0, Colour: "sloe"})
	text := string(b.Text())
	for _, op := range []string{"turn", "mirror"} {
		assert.Equal(t, "warp: it reads the same from both ends, so nothing has changed",
			said(Op{Do: op, Strip: Warp}))
		assert.Equal(t, text, string(b.Text()))
		assert.Equal(t, Warp, b.View().At, "and it is the warp that is spoken of")
	}
	lost := "; it no longer reads the same from both sides"
	assert.Equal(t, "warp: stripe 2 in sloe, in all pieces"+lost,
		said(Op{Do: "recolour", Strip: Warp, Run: 1, Colour: "sloe"}))
	assert.Equal(t, "warp: stripe 3 in sloe, in all pieces",
		said(Op{Do: "recolour", Strip: Warp, Run: 2, Colour: "sloe"}), "it had lost it")
	do(t, b, Op{Do: "mirror", Strip: Warp})
	for range 2 {
		assert.Contains(t, said(Op{Do: "edge", Strip: Warp, To: -1, Gesture: "g"}), lost,
			"all through a drag")
	}
	assert.Equal(t, "last apples: band 1 in oat", said(Op{Do: "recolour", Strip: 5, Colour: "oat"}))
}
