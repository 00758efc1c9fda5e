package plan

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestMoreSidesAreReckonedThrough: what is promised of a change is what the plan of the
// changed brief says, to the digit.
func TestMoreSidesAreReckonedThrough(t *testing.T) {
	files, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	tested := map[string]int{}
	for _, file := range append(files, "a pale pattern") {
		text := []byte(pale)
		if file != "a pale pattern" {
			text, err = os.ReadFile(file)
			require.NoError(t, err)
		}
		shelf := func(name string) ([]byte, error) {
			return os.ReadFile(filepath.Join(filepath.Dir(file), name))
		}
		b, err := brief.Parse("b.toml", text, brief.Options{Shelf: shelf})
		require.NoError(t, err)
		p, err := Make(context.Background(), b)
		require.NoError(t, err)
		for i, piece := range p.Pieces {
			for _, more := range piece.MoreSides {
				tested[more.Change]++
				after := changedBy(t, b, p, i, more)
				assert.Equal(t, more.Lighter, after.Pieces[i].Lighter, "%s: %s: %s", file,
					piece.Name, more.Words())
				assert.Greater(t, more.Lighter.Grade, piece.Lighter.Grade)
			}
		}
	}
	assert.Positive(t, tested[blockWider], "%v", tested)
	assert.Positive(t, tested[patternColour], "%v", tested)
}

// pale has a pattern colour near its ground, woven mostly in one block, and a dark
// one beside it.
const pale = `
[set]
pieces = 1
width  = "40 cm"
hem    = "2 cm"
[cloth]
structure = "halvdrall"
sett = "8/cm"
ground = "6/cm"
strands = 2
[loom]
waste = "70 cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "chalk"
hex  = "#e4dfd2"
[[colour]]
name = "sand"
hex  = "#807050"
[[colour]]
name = "slate"
hex  = "#2b3036"
[warp]
colours = ["chalk"]
rhythm  = { kind = "repeat", weights = [3, 1], times = 3 }
[weft]
ground  = "chalk"
[[piece]]
name = "dunes"
runs = ["A 80 sand", "B 20 sand"]
`

// changedBy plans a brief with a change made to one piece, which is written out.
func changedBy(t *testing.T, b *brief.Brief, p *Plan, i int, more More) *Plan {
	t.Helper()
	number := func(name string) int {
		return slices.IndexFunc(b.Colours, func(c brief.Colour) bool { return c.Name == name })
	}
	var runs []brief.Run
	for _, r := range p.Pieces[i].Runs {
		run := brief.Run{Block: none, Units: r.Units, Colour: none}
		if r.Block != "" {
			run = brief.Run{Block: slices.Index(b.Structure.Letters(), r.Block), Units: r.Units,
				Colour: number(r.Pattern)}
		}
		runs = append(runs, run)
	}
	switch more.Change {
	case blocksExchanged:
		runs = exchanged(runs)
	case blockWider:
		runs = widened(runs, slices.Index(b.Structure.Letters(), more.To), int64(more.Times))
	case patternColour:
		runs = recoloured(runs, number(more.From), number(more.To))
	default:
		require.Fail(t, more.Change)
	}
	changed := *b
	changed.Pieces = slices.Clone(b.Pieces)
	changed.Pieces[i].Weft.Runs = runs
	after, err := Make(context.Background(), &changed)
	require.NoError(t, err)
	return after
}

// TestWidenedByHand: A 2 and B 2 with B three times as wide are weights of 2 and 6 on
// 4 units: 1 and 3.
func TestWidenedByHand(t *testing.T) {
	runs := []brief.Run{{Block: 0, Units: 2, Colour: 5}, {Block: 1, Units: 2, Colour: 5}}
	assert.Equal(t, []brief.Run{{Block: 0, Units: 1, Colour: 5}, {Block: 1, Units: 3, Colour: 5}},
		widened(runs, 1, 3))
	assert.Nil(t, widened([]brief.Run{{Block: 0, Units: 0}}, 0, 2), "no room for a unit each")
}

func TestMoreInWords(t *testing.T) {
	l := &Lighter{Words: "face lighter, clear 8.1"}
	for want, o := range map[string]More{
		"if blocks A and B changed places in its weft: face lighter, " +
			"clear 8.1": {Change: blocksExchanged, Lighter: l},
		"if its stripes of block B were 3 times as long and the others shorter, in the same " +
			"length: face lighter, " +
			"clear 8.1": {Change: blockWider, To: "B", Times: 3, Lighter: l},
		"if sloe took the place of plum: face lighter, " +
			"clear 8.1": {Change: patternColour, From: "plum", To: "sloe", Lighter: l},
	} {
		assert.Equal(t, want, o.Words())
	}
}
