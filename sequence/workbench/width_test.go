package workbench

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestWidthIsTold: a stripe that is wider makes every piece wider, and a warp that is written
// out follows no width that is asked for.
func TestWidthIsTold(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	before := b.wide()
	said, err := b.Do(t.Context(), Op{Do: "setting", Key: "set.width", Value: before})
	require.NoError(t, err)
	assert.NotContains(t, said, "written out")
	said, err = b.Do(t.Context(), Op{Do: "units", Strip: Warp, Run: 1, To: 30})
	require.NoError(t, err)
	assert.NotEqual(t, before, b.wide())
	assert.Contains(t, said, "; the cloth is "+b.wide()+" wide now, not "+before)
	said, err = b.Do(t.Context(), Op{Do: "setting", Key: "set.width", Value: "60 cm"})
	require.NoError(t, err)
	assert.Contains(t, said, "; the warp is written out and stays "+b.wide()+" wide")
	for _, s := range b.View().Settings {
		if s.Key == "set.width" {
			assert.Contains(t, s.But, "stays "+b.wide()+" wide", "at the field too")
		} else {
			assert.Empty(t, s.But, s.Key)
		}
	}
}

// TestWhoFollowsIsTold: what all pieces start from says which pieces go by its rhythm.
func TestWhoFollowsIsTold(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	assert.Equal(t, "Its rhythm is followed by first light.", b.View().Weft.Words)
	_, err = b.Do(t.Context(), Op{Do: "keep", Strip: 0})
	require.NoError(t, err)
	assert.Contains(t, b.View().Weft.Words, "No piece follows its rhythm")
}

// TestNotAskedIsTold: where bands are written out, the page says that the rule beside them
// does nothing, and for which piece.
func TestNotAskedIsTold(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	_, err = b.Do(t.Context(), Op{Do: "units", Strip: 1, Run: 0, To: 5})
	require.NoError(t, err)
	var notes []string
	for _, n := range b.View().Notes {
		notes = append(notes, n.Text)
	}
	assert.Contains(t, notes,
		"ladder: its bands are written out; its rhythm and colours are not asked")
}

// TestKeepingIsTold: an edit that writes a piece out says so, and once.
func TestKeepingIsTold(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	said, err := b.Do(t.Context(), Op{Do: "units", Strip: 0, Run: 0, To: 5})
	require.NoError(t, err)
	assert.Contains(t, said, "; kept as it is from now on: first light")
	said, err = b.Do(t.Context(), Op{Do: "units", Strip: 0, Run: 0, To: 6})
	require.NoError(t, err)
	assert.NotContains(t, said, "kept")
}

// TestWhatIsSoAlready: an edit that would change nothing makes no step, keeps no piece and
// says so.
func TestWhatIsSoAlready(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	band, name := b.plan.Pieces[0].Runs[1], b.plan.Pieces[0].Name
	for _, op := range []Op{
		{Do: "recolour", Strip: 0, Run: 1, Colour: band.Pattern},
		{Do: "units", Strip: 0, Run: 1, To: band.Units},
		{Do: "reblock", Strip: 0, Run: 1, Value: band.Block},
		{Do: "recolour", Strip: Warp, Run: 1, Colour: b.plan.Warp.Runs[1].Colour},
		{Do: "piece.name", Strip: 0, Value: name},
	} {
		said, err := b.Do(t.Context(), op)
		require.NoError(t, err)
		assert.Contains(t, said, "already, so nothing has changed", op.Do)
		undo, _ := b.Steps()
		assert.Zero(t, undo, op.Do)
		assert.Equal(t, string(brief.Default()), string(b.Text()), op.Do)
	}
	said, err := b.Do(t.Context(), Op{Do: "units", Strip: 0, Run: 1, To: band.Units + 1,
		Gesture: "g"})
	require.NoError(t, err)
	assert.NotContains(t, said, "already")
	_, err = b.Do(t.Context(), Op{Do: "units", Strip: 0, Run: 1, To: band.Units + 1, Gesture: "g"})
	require.NoError(t, err)
	assert.Equal(t, band.Units+1, b.plan.Pieces[0].Runs[1].Units, "said twice, done once")
}

// TestOtherSetsAreNumberedAsSeen: sets chosen anew have their numbers in the order shown.
func TestOtherSetsAreNumberedAsSeen(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	offers, err := b.Others(t.Context(), Asking{Strip: Weft, Unlike: true, Count: 6})
	require.NoError(t, err)
	require.NotEmpty(t, offers)
	for i, o := range offers {
		assert.Equal(t, fmt.Sprintf("another set, number %d", i+1), o.What)
	}
}
