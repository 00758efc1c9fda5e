package workbench

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
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
func TestQuick(t *testing.T) {
	b := open(t, string(brief.Default()))
	for _, op := range []Op{{Do: "piece.copy", Strip: 0}, {Do: "piece.move", Strip: 0, To: 3}, {Do: "piece.drop", Strip: 5}, {Do: "edge", Strip: -1, Run: 0, To: 2},
		{Do: "colour.name", Colour: "oat", Value: "oats \"x\" <b>"}, {Do: "rhythm", Strip: 6 - 1, Rhythm: map[string]string{"kind": "even"}}} {
		t.Log(do(t, b, op))
	}
	t.Log(string(b.Text()))
}
func BenchmarkDo(b *testing.B) {
	w := open(b, string(brief.Default()))
	for i := 0; i < b.N; i++ {
		do(b, w, Op{Do: "colour.hex", Colour: "oat", Value: []string{"#ffeecc", "#ffeedd"}[i%2]})
	}
}
func BenchmarkView(b *testing.B) {
	w := open(b, string(brief.Default()))
	for i := 0; i < b.N; i++ {
		w.View()
	}
}
func BenchmarkSeen(b *testing.B) {
	w := open(b, string(brief.Default()))
	for i := 0; i < b.N; i++ {
		for _, c := range w.Cloths(false, []bool{false, true}, 0) {
			Seen(c, 2, 200)
		}
	}
}
