package workbench

import (
	"context"
	"os"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

func open(t testing.TB, text string) *Bench {
	t.Helper()
	b, err := Open(context.Background(), "b.toml", []byte(text), brief.Options{})
	require.NoError(t, err)
	return b
}

func do(t testing.TB, b *Bench, op Op) string {
	t.Helper()
	what, err := b.Do(context.Background(), op)
	require.NoError(t, err, "%+v", op)
	return what
}

// agrees checks that the bench's plan is the plan of its text, made anew.
func agrees(t testing.TB, b *Bench) {
	t.Helper()
	read, err := brief.Parse("b.toml", b.Text(), brief.Options{})
	require.NoError(t, err)
	made, err := plan.Make(context.Background(), read)
	require.NoError(t, err)
	want, err := plan.JSON(made)
	require.NoError(t, err)
	got, err := plan.JSON(b.Plan())
	require.NoError(t, err)
	require.Equal(t, string(want), string(got))
}

// comments are the lines of a text that hold a comment, in order.
func comments(text string) (all []string) {
	for _, line := range strings.Split(text, "\n") {
		if _, after, ok := strings.Cut(line, "# "); ok {
			all = append(all, after)
		}
	}
	return all
}

func TestUndoGoesBackByteForByte(t *testing.T) {
	start := strings.ReplaceAll(string(brief.Default()), "\n", "\r\n")
	b := open(t, start)
	steps := []Op{
		{Do: "colour.hex", Colour: "oat", Value: "#ffeecc"}, {Do: "keep", Strip: Warp},
		{Do: "piece.copy", Strip: 2},
		{Do: "edge", Strip: 5, Run: 0, To: 3}, {Do: "piece.drop", Strip: 0},
		{Do: "setting", Key: "set.width", Value: "50 cm"},
	}
	texts := []string{start}
	for _, op := range steps {
		do(t, b, op)
		agrees(t, b)
		texts = append(texts, string(b.Text()))
		assert.NotContains(t, strings.ReplaceAll(string(b.Text()), "\r\n", ""), "\n",
			"line ends stay as they were: %v", op)
	}
	t.Run("back to the beginning", func(t *testing.T) {
		for i := len(steps) - 1; i >= 0; i-- {
			what, err := b.Undo(context.Background())
			require.NoError(t, err)
			assert.NotEmpty(t, what)
			assert.Equal(t, texts[i], string(b.Text()))
		}
		assert.True(t, b.Saved())
	})
	t.Run("nothing before it", func(t *testing.T) {
		what, err := b.Undo(context.Background())
		assert.NoError(t, err)
		assert.Empty(t, what)
	})
	t.Run("and forward again", func(t *testing.T) {
		for i := range steps {
			_, err := b.Redo(context.Background())
			require.NoError(t, err)
			assert.Equal(t, texts[i+1], string(b.Text()))
		}
		assert.False(t, b.Saved())
	})
}

func TestARefusalChangesNothing(t *testing.T) {
	b := open(t, string(brief.Default()))
	for _, op := range []Op{
		{Do: "fly"}, {Do: "colour.hex", Colour: "oat", Value: "red"},
		{Do: "colour.hex", Colour: "nobody", Value: "#ffffff"},
		{Do: "colour.name", Colour: "oat", Value: " "},
		{Do: "colour.name", Colour: "oat", Value: "damson"},
		{Do: "colour.stock", Colour: "oat", Value: "plenty"},
		{Do: "setting", Key: "set.width", Value: "46"},
		{Do: "setting", Key: "shelf", Value: "../../etc/passwd"},
		{Do: "setting", Key: "set.pieces", Value: "0"},
		{Do: "edge", Strip: Warp, Run: 99, To: 1}, {Do: "edge", Strip: 77, To: 1},
		{Do: "units", Strip: 0, Run: 0, To: 0},
		{Do: "out", Strip: 4, Colour: "sloe"}, {Do: "part", Strip: 0, Key: "shelf", Colour: "oat"},
		{Do: "loose", Strip: 0},
		{Do: "rhythm", Strip: 0,
			Rhythm: map[string]string{"kind": "even", "stripes": "1]\nevil = 1"}},
		{Do: "in", Strip: 5, Colour: "barley"},
		{Do: "piece.move", Strip: 0, To: 6}, {Do: "colour.drop", Colour: "oat"},
		{Do: "rhythm", Strip: Warp, Rhythm: map[string]string{"kind": "even", "stripes": "500"}},
		{Do: "reblock", Strip: Warp, Run: 0, Value: "plain"},
		{Do: "reblock", Strip: 0, Run: 0, Value: "Z"}, {Do: "order", Strip: 0, Value: "chaos"},
	} {
		before := b.Edition()
		_, err := b.Do(context.Background(), op)
		var problems brief.Problems
		require.ErrorAs(t, err, &problems, "%+v", op)
		assert.NotEmpty(t, problems[0].What)
		assert.Equal(t, before, b.Edition())
		assert.Equal(t, string(brief.Default()), string(b.Text()), "%+v", op)
	}
}

func TestOneGestureIsOneStep(t *testing.T) {
	b := open(t, string(brief.Default()))
	for _, value := range []string{"#ffeecc", "#ffeedd", "#ffeeee"} {
		do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: value, Gesture: "g1"})
	}
	do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: "#aaeeee", Gesture: "g2"})
	undo, _ := b.Steps()
	assert.Equal(t, 2, undo)
	_, err := b.Undo(context.Background())
	require.NoError(t, err)
	assert.Contains(t, string(b.Text()), "#ffeeee")
	_, err = b.Undo(context.Background())
	require.NoError(t, err)
	assert.Equal(t, string(brief.Default()), string(b.Text()))
}

func TestPinnedVersions(t *testing.T) {
	b, ctx := open(t, string(brief.Default())), context.Background()
	assert.Empty(t, b.View().Pins)
	b.Pin(nil, "as it was")
	do(t, b, Op{Do: "swap", Strip: 5})
	do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: "#000000"})
	pins := b.View().Pins
	require.Len(t, pins, 1)
	assert.Equal(t, "as it was", pins[0].What)
	assert.Equal(t, "#efe6d2", pins[0].Sketch.Tables.Hex[0])
	assert.Nil(t, pins[0].Sketch.Pieces[0], "as it is now")
	assert.NotNil(t, pins[0].Sketch.Pieces[5])
	_, err := b.FromPin(ctx, pins[0].ID)
	require.NoError(t, err)
	assert.Equal(t, string(brief.Default()), string(b.Text()))
	_, err = b.Undo(ctx)
	require.NoError(t, err)
	assert.Contains(t, string(b.Text()), "#000000")
	b.Unpin(pins[0].ID)
	_, err = b.FromPin(ctx, pins[0].ID)
	assert.Error(t, err)
	for range 9 {
		b.Pin(nil, "")
	}
	assert.Len(t, b.View().Pins, mostPins)
}

// Every step can be seen and gone back to.
func TestTrail(t *testing.T) {
	b, ctx := open(t, string(brief.Default())), context.Background()
	texts := []string{string(b.Text())}
	for _, hex := range []string{"#ffeecc", "#ffeedd", "#ffeeee"} {
		do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: hex})
		texts = append(texts, string(b.Text()))
	}
	_, err := b.Undo(ctx)
	require.NoError(t, err)
	trail, err := b.Trail(ctx, 12)
	require.NoError(t, err)
	require.Len(t, trail, 4)
	for i, want := range []string{"#ffeeee", "", "#ffeecc", "#efe6d2"} {
		assert.Equal(t, i-1, trail[i].Back)
		if want == "" {
			assert.Nil(t, trail[i].Sketch.Tables, "the present one")
			continue
		}
		assert.Equal(t, want, trail[i].Sketch.Tables.Hex[0])
	}
	assert.Equal(t, "oat: #ffeeee", trail[0].What)
	assert.Empty(t, trail[3].What)
	for _, back := range []int{2, -3, 1} {
		_, err := b.Go(ctx, back)
		require.NoError(t, err)
	}
	assert.Equal(t, texts[2], string(b.Text()))
	trail, err = b.Trail(ctx, 2)
	require.NoError(t, err)
	assert.Len(t, trail, 2)
}

// A step keeps what it changed, not the text: a thousand of them stay small.
func TestMemoryStaysFlat(t *testing.T) {
	b := open(t, string(brief.Default()))
	values := []string{"#ffeecc", "#ffeedd"}
	for i := range 20 {
		do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: values[i%2]})
	}
	before, n := heap(), edits()
	for i := range n {
		do(t, b, Op{Do: "colour.hex", Colour: "oat", Value: values[i%2]})
	}
	grown := heap() - before
	assert.Less(t, grown, int64(n*400), "bytes kept, 400 for a step")
	undo, _ := b.Steps()
	assert.Equal(t, n+20, undo)
}

// edits is how many edits are made: a thousand with STRIPESONG_LONG=1, a quarter of
// that where all checks are run, and an eighth otherwise.
func edits() int {
	switch {
	case os.Getenv("STRIPESONG_LONG") == "1":
		return 1000
	case os.Getenv("STRIPESONG_CI") != "":
		return 250
	}
	return 125
}

func heap() int64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

func BenchmarkDo(b *testing.B) {
	w := open(b, string(brief.Default()))
	for i := 0; b.Loop(); i++ {
		do(b, w, Op{Do: "colour.hex", Colour: "oat", Value: []string{"#ffeecc", "#ffeedd"}[i%2]})
	}
}

func BenchmarkView(b *testing.B) {
	w := open(b, string(brief.Default()))
	for b.Loop() {
		w.View()
	}
}

// BenchmarkOthers is a row of whole sets of twelve where there are 10 000 candidates.
func BenchmarkOthers(b *testing.B) {
	w := open(b, strings.Replace(string(brief.Default()), "pieces    = 6", "pieces    = 12", 1)+
		"\n[vary]\ncandidates = 10_000\n")
	do(b, w, Op{Do: "edge", Strip: Warp, To: 1})
	for b.Loop() {
		_, err := w.Others(context.Background(), Asking{Strip: Weft, Unlike: true, Count: 6})
		require.NoError(b, err)
	}
}

func BenchmarkChosen(b *testing.B) {
	w := open(b, string(brief.Default()))
	do(b, w, Op{Do: "pieces.open"})
	for b.Loop() {
		do(b, w, Op{Do: "seed"})
	}
}
