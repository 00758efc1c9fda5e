package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// onLoom is three pieces of 100 units of 2 ground picks at 10/cm, 200 mm each, on 80 ends at
// 8/cm, 100 mm in the reed, so that a pick takes 11 cm.
const onLoom = `[set]
pieces = 3
hem = "0 cm"
separator = 4
spare = "0%"
[cloth]
sett = "8/cm"
ground = "10/cm"
draw_in = "0%"
take_up = "20%"
shrink_width = "0%"
shrink_length = "10%"
weft_extra = "10%"
floating_selvedge = true
[loom]
waste = "50 cm"
sample = "10 cm"
board = "1 m"
pace = 400
heddles = 10
width = "5 cm"
[yarn.a]
count = "Nm 10"
package = "100 m"
price = "2.00"
[[colour]]
name = "oat"
hex = "#eeeeee"
on_hand = "90 m"
[[colour]]
name = "plum"
hex = "#4b1f3f"
on_hand = "90 m"
[[colour]]
name = "moss"
hex = "#24492f"
on_hand = "0 m"
[warp]
runs = ["A 20 oat"]
[weft]
ground = "oat"
separator = "plum"
[[piece]]
name = "one"
runs = ["A 100 moss"]
[[piece]]
name = "two"
runs = ["A 100 moss"]
[[piece]]
name = "three"
runs = ["A 50 plum", "B 50 plum"]
`

func onLoomPlan(t *testing.T, midway string) *Plan {
	t.Helper()
	b, err := brief.Parse("b", []byte(onLoom+midway), brief.Options{})
	require.NoError(t, err)
	p, err := Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

// TestRestByHand: two pieces are woven. The third takes 200 mm of cloth, and the separator
// before it, which may not be woven yet, 4 mm; 204 / 0.8 = 255 mm of warp, and 500 of
// waste. Its weft is 200 ground picks and 200 pattern picks of 11 cm, 22 m each, and 4
// separator picks, 0.44 m. At 400 picks an hour it takes an hour.
func TestRestByHand(t *testing.T) {
	p := onLoomPlan(t, "[midway]\nwoven = [\"205 mm\", \"200 mm\"]\nwarp = \"80 cm\"\n")
	assert.InDelta(t, 755, p.Warp.WoundMM, 1e-9)
	assert.InDelta(t, 204, p.Warp.WovenMM, 1e-9)
	assert.Equal(t, &Midway{Woven: 2, WarpMM: 800, LeftMM: 45}, p.Midway)
	var parts []string
	for _, part := range p.Warp.MakeUp {
		parts = append(parts, part.What+part.Piece)
	}
	assert.Equal(t, []string{"piecethree", "separators", "waste"}, parts)
	yarn := map[string]Yarn{}
	for _, y := range p.Yarn {
		yarn[y.Colour] = y
	}
	assert.Zero(t, yarn["oat"].WarpM, "it is wound")
	assert.InDelta(t, 22, yarn["oat"].TotalM, 1e-9)
	assert.InDelta(t, 22.44, yarn["plum"].TotalM, 1e-9)
	assert.Equal(t, []float64{0, 0.44, 22}, yarn["plum"].ByPiece)
	assert.Zero(t, yarn["moss"].TotalM, "what is woven takes no more")
	assert.Zero(t, yarn["moss"].ShortM)
	assert.Nil(t, p.Sample)
	assert.InDelta(t, 1, p.Set.Hours, 1e-9)
	assert.Zero(t, p.Pieces[0].Hours)
	require.NotNil(t, p.Cost)
	// 44.44 m at 2.00 for 100 m, all of it for one piece
	assert.Equal(t, "0.89", *p.Cost.Used)
	assert.Equal(t, "0.89", *p.Cost.Piece)
	t.Run("woven pieces are what they were measured", func(t *testing.T) {
		assert.True(t, p.IsWoven(1))
		assert.False(t, p.IsWoven(2))
		assert.InDelta(t, 205, p.Pieces[0].AsWovenMM(), 1e-9)
		assert.InDelta(t, 184.5, p.AsFinishedMM(&p.Pieces[0]), 1e-9)
		assert.InDelta(t, 200, p.Pieces[2].AsWovenMM(), 1e-9)
		assert.InDelta(t, 180, p.AsFinishedMM(&p.Pieces[2]), 1e-9)
	})
	t.Run("they count in the set", func(t *testing.T) {
		whole := onLoomPlan(t, "")
		assert.Equal(t, whole.Set.Pairs, p.Set.Pairs)
		assert.Nil(t, whole.Midway)
		assert.Equal(t, 0, whole.Woven())
	})
	t.Run("notes are of what can still be done", func(t *testing.T) {
		var codes, before []string
		for _, n := range p.Notes {
			codes = append(codes, n.Code)
		}
		for _, n := range onLoomPlan(t, "").Notes {
			before = append(before, n.Code)
		}
		for _, gone := range []string{"board-short", "loom-narrow", "heddles", "pieces-alike",
			"yarn-short", "sample-first", "retie-none"} {
			assert.Contains(t, before, gone)
			assert.NotContains(t, codes, gone)
		}
		assert.Contains(t, codes, "midway")
	})
}

func TestWarpShort(t *testing.T) {
	p := onLoomPlan(t, "[midway]\nwoven = [\"200 mm\", \"200 mm\"]\nwarp = \"75.49 cm\"\n")
	require.NotEmpty(t, p.NotesOf(Warning))
	assert.Equal(t, "warp-short", p.NotesOf(Warning)[0].Code)
	assert.InDelta(t, -0.1, p.Midway.LeftMM, 1e-9)
	p = onLoomPlan(t, "[midway]\nwoven = [\"200 mm\", \"200 mm\"]\nwarp = \"75.5 cm\"\n")
	assert.Empty(t, p.NotesOf(Warning))
	t.Run("nothing is woven yet", func(t *testing.T) {
		// three pieces and two separators: (600 + 8) / 0.8 + 500
		p := onLoomPlan(t, "[midway]\nwoven = []\nwarp = \"2 m\"\n")
		assert.InDelta(t, 1260, p.Warp.WoundMM, 1e-9)
		assert.InDelta(t, 740, p.Midway.LeftMM, 1e-9)
	})
}

// TestUnitsWithin: by hand. 180 mm finished are 200 woven, 100 units of 2 mm; a hair less is
// 99.
func TestUnitsWithin(t *testing.T) {
	b, err := brief.Parse("b", []byte(onLoom), brief.Options{})
	require.NoError(t, err)
	assert.Equal(t, 100, UnitsWithin(b, 0, exact.Whole(180)))
	assert.Equal(t, 99, UnitsWithin(b, 0, exact.Over(exact.Whole(17999), exact.Whole(100))))
	assert.Equal(t, 0, UnitsWithin(b, 0, exact.Whole(1)))
	runs, err := Scaled(b, 2, 30)
	require.NoError(t, err)
	assert.Equal(t, []brief.Run{{Block: 0, Units: 15, Colour: 1}, {Block: 1, Units: 15, Colour: 1}},
		runs)
}
