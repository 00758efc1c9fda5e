package plan

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// doubled is halvdräll with two pattern picks between ground picks, as a structure.
const doubled = `
[structure]
name = "doubled"
pick_order = "P P a P P b"
units = { A = [1, 2, 3, 2], B = [3, 4, 1, 4] }
sheds = { A = [1, 2], B = [3, 4] }
tabby = { a = [1, 3], b = [2, 4] }
`

// TestPickOrderOfAPiece: a piece in an order of its own is what it is where the whole
// structure has that order, to the last decimal, its neighbour as it was.
func TestPickOrderOfAPiece(t *testing.T) {
	own := "\n[[piece]]\nname = \"own\"\npick_order = \"P P a P P b\"\n"
	plain := makePlan(t, "shows", []byte(shows))
	piece := makePlan(t, "shows", []byte(shows+own))
	whole := makePlan(t, "shows", []byte(shows+doubled))
	weft := makePlan(t, "shows", with(t, shows, "[weft]", "[weft]\npick_order = \"P P a P P b\""))
	all := makePlan(t, "shows", []byte(shows+own+own))

	t.Run("by hand", func(t *testing.T) {
		one := piece.Pieces[0]
		assert.Equal(t, "P P a P P b", one.PickOrder)
		assert.Equal(t, 2.5, one.WeftUnitMM, "2 ground picks at 8/cm")
		assert.Equal(t, []int{304, 152}, []int{one.Runs[0].PatternPicks, one.Runs[0].GroundPicks},
			"76 units of 4 and 2")
		assert.Equal(t, 152*6+2*(32+8), one.Picks)
		// 0.55 m a pick: 608 of the first piece and 304 of the second
		assert.InDelta(t, 0.55*(608+304+2), yarnOf(t, piece, "dark").TotalM, 1e-9)
	})
	t.Run("as the structure's", func(t *testing.T) {
		assert.Equal(t, apart(whole.Pieces[0]), apart(piece.Pieces[0]))
		assert.Equal(t, apart(plain.Pieces[1]), apart(piece.Pieces[1]))
		assert.Equal(t, whole.GramsPerM2, all.GramsPerM2)
		assert.Equal(t, whole.Yarn, all.Yarn)
		assert.Equal(t, whole.Cloth.Beat, all.Cloth.Beat)
		assert.Equal(t, whole.Cloth.FloatWarpMM, all.Cloth.FloatWarpMM)
		assert.Equal(t, whole.Set.Lighter, all.Set.Lighter)
	})
	t.Run("what is seen", func(t *testing.T) {
		run := piece.Pieces[0].Runs[0]
		wider := piece.Shades().Body(piece.Warp.Runs[0], run, false)
		require.NotNil(t, wider)
		assert.Equal(t, whole.Shades().Body(whole.Warp.Runs[0], whole.Pieces[0].Runs[0], false).RGB,
			wider.RGB)
		assert.NotEqual(t, piece.Shades().Body(piece.Warp.Runs[0], piece.Pieces[1].Runs[0], false).
			RGB, wider.RGB)
		assert.Greater(t, piece.Set.LeastDifference, 1.0, "the two towels are no longer alike")
		assert.Zero(t, plain.Set.LeastDifference)
	})
	t.Run("in [weft] it is every piece's", func(t *testing.T) {
		whole.Structure, weft.Structure = "", ""
		whole.Weave, weft.Weave = nil, nil
		assert.Equal(t, whole, weft)
	})
}

// apart is a piece without what its own order of picks adds, and its place.
func apart(p Piece) Piece {
	p.Name, p.PickOrder, p.WeftUnitMM, p.SeparatorPick = "", "", 0, 0
	runs := make([]WeftRun, len(p.Runs))
	for i, r := range p.Runs {
		runs[i] = r
		runs[i].PickOrder = ""
	}
	p.Runs = runs
	return p
}

// TestPickOrderOfSummerAndWinter: in pairs a unit has four ground picks, 5 mm, so that
// 380 mm are 76 units of eight picks; a warp of the same length as before.
func TestPickOrderOfSummerAndWinter(t *testing.T) {
	text := string(with(t, shows, "[cloth]", "[cloth]\nstructure = \"summer-and-winter\""))
	for _, order := range []string{"P1 a P1 b P2 a P2 b", "P1 a P2 b P2 a P1 b"} {
		p := makePlan(t, "shows", []byte(text+"[[piece]]\npick_order = \""+order+"\"\n"))
		assert.Equal(t, []int{76, 152}, []int{p.Pieces[0].BodyUnits, p.Pieces[1].BodyUnits})
		assert.Equal(t, []float64{5, 0}, []float64{p.Pieces[0].WeftUnitMM, p.Pieces[1].WeftUnitMM})
		assert.Equal(t, p.Pieces[1].Picks, p.Pieces[0].Picks)
		assert.Equal(t, p.Pieces[1].WovenMM, p.Pieces[0].WovenMM)
	}
	same := makePlan(t, "shows", []byte(text+"[[piece]]\npick_order = \" P1  a P2 b\"\n"))
	assert.Empty(t, same.Pieces[0].PickOrder, "the structure's own")
}

// TestPickOrderKeepsThePlan where the pieces are written out as runs.
func TestPickOrderKeepsThePlan(t *testing.T) {
	text := []byte(shows +
		"[[piece]]\nname = \"one\"\npick_order = \"P P a P P b\"\n[[piece]]\nname = \"two\"\n")
	b, err := brief.Parse("shows", text, brief.Options{})
	require.NoError(t, err)
	p, err := Make(context.Background(), b)
	require.NoError(t, err)
	edited, err := brief.Edit("shows", text, RunsOf(b, p))
	require.NoError(t, err)
	assert.True(t, strings.Contains(string(edited), "pick_order"))
	again, err := JSON(makePlan(t, "shows", edited))
	require.NoError(t, err)
	before, err := JSON(p)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(again))
}
