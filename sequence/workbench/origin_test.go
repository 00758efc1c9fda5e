package workbench

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// The origin goes with the text, by whatever way the text comes back.
func TestOriginGoesWithTheText(t *testing.T) {
	begin := string(brief.Default())
	later := []byte(begin + "# by hand\n")
	ctx := context.Background()
	walk := func(t *testing.T, b *Bench, by func(context.Context) (string, error)) int {
		t.Helper()
		_, err := by(ctx)
		require.NoError(t, err)
		return b.Origin()
	}
	// worked has the steps: one at the text it was opened with, one that loads another,
	// and one at that.
	worked := func(t *testing.T) *Bench {
		b := open(t, begin)
		do(t, b, Op{Do: "setting", Key: "title", Value: "Before"})
		b.Pin(nil, "it")
		require.NoError(t, b.Load(ctx, later, 3, "the file"))
		do(t, b, Op{Do: "setting", Key: "title", Value: "After"})
		return b
	}
	t.Run("with undo and redo", func(t *testing.T) {
		b := worked(t)
		assert.Equal(t, 3, b.Origin())
		assert.Equal(t, 3, walk(t, b, b.Undo))
		assert.Equal(t, 0, walk(t, b, b.Undo))
		assert.Equal(t, 0, walk(t, b, b.Undo))
		assert.Equal(t, 0, walk(t, b, b.Redo))
		assert.Equal(t, 3, walk(t, b, b.Redo))
		assert.Equal(t, 3, walk(t, b, b.Redo))
	})
	t.Run("with an edit after an undo", func(t *testing.T) {
		b := worked(t)
		walk(t, b, b.Undo)
		walk(t, b, b.Undo)
		do(t, b, Op{Do: "setting", Key: "title", Value: "Elsewhere"})
		assert.Equal(t, 0, b.Origin())
	})
	t.Run("with the version put beside", func(t *testing.T) {
		b := worked(t)
		_, err := b.FromPin(ctx, 1)
		require.NoError(t, err)
		assert.Equal(t, 0, b.Origin())
		assert.Equal(t, 3, walk(t, b, b.Undo))
		assert.Equal(t, 0, walk(t, b, b.Redo))
	})
	t.Run("with one gesture over several edits", func(t *testing.T) {
		b := worked(t)
		for _, value := range []string{"#ffeecc", "#ffeedd"} {
			do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: value, Gesture: "g"})
		}
		assert.Equal(t, 3, walk(t, b, b.Undo))
		assert.Equal(t, "After", b.View().Title)
	})
	t.Run("where the text loaded is the one that is there", func(t *testing.T) {
		b := open(t, begin)
		do(t, b, Op{Do: "setting", Key: "title", Value: "Alike"})
		do(t, b, Op{Do: "setting", Key: "title", Value: "And on"})
		walk(t, b, b.Undo)
		require.NoError(t, b.Load(ctx, b.Text(), 1, "the file"))
		assert.Equal(t, 1, b.Origin())
		assert.Equal(t, 0, walk(t, b, b.Undo))
		assert.Equal(t, 1, walk(t, b, b.Redo))
		undo, redo := b.Steps()
		assert.Equal(t, [2]int{1, 1}, [2]int{undo, redo}, "it is no step")
	})
	t.Run("not with a text that can't be loaded", func(t *testing.T) {
		b := open(t, begin)
		assert.Error(t, b.Load(ctx, []byte("titel = ["), 1, "the file"))
		assert.Equal(t, 0, b.Origin())
	})
}

func TestLost(t *testing.T) {
	lost := func(from, in string) []string { return Lost([]byte(from), []byte(in)) }
	assert.Empty(t, lost("a = 1\nb = 2\n", "b = 2\n\n  a = 1  \r\nc = 3"),
		"order and blanks do not count")
	assert.Equal(t, []string{"b = 2", "# said"},
		lost("a = 1\n\tb = 2\r\n\n# said", "a = 1\nb = 3\n"))
	assert.Equal(t, []string{"a = 1"}, lost("a = 1\na = 1\na = 1\n", "a = 1\na = 1\n"),
		"as often as it is missing")
	assert.Equal(t, []string{"a = 1"}, lost("a = 1\n", ""))
	assert.Empty(t, lost("", "a = 1\n"))
}
