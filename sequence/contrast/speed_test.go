package contrast

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// shelfOfSixty is a brief with a shelf of sixty yarns and a warp of six colours.
func shelfOfSixty(t testing.TB) *brief.Brief {
	text, err := brief.Edit("poor.toml", poor(t), []brief.Change{
		{Key: "warp.colours",
			Value: tomltext.List([]string{"mist", "shell", "pond", "ink", "bark", "clay \"old\""})},
		{Key: "weft.colours", Value: tomltext.List([]string{"pond", "shelf 7", "shelf 20"})}})
	require.NoError(t, err)
	return parsed(t, text, sixty())
}

// BenchmarkShelfOfSixty reckons every pair of sixty-six colours over six warp
// colours, three sights, three distances, with advice; the plan is made before.
func BenchmarkShelfOfSixty(b *testing.B) {
	read := shelfOfSixty(b)
	p := planned(b, read)
	for b.Loop() {
		_, err := Make(context.Background(), read, p, Question{})
		require.NoError(b, err)
	}
}

// BenchmarkOneTry is the cost of bearing out one option.
func BenchmarkOneTry(b *testing.B) {
	read := shelfOfSixty(b)
	for b.Loop() {
		planned(b, read)
	}
}

// BenchmarkDefault is the report on the brief that comes with the program.
func BenchmarkDefault(b *testing.B) {
	read := parsed(b, brief.Default())
	p := planned(b, read)
	for b.Loop() {
		_, err := Make(context.Background(), read, p, Question{})
		require.NoError(b, err)
	}
}
