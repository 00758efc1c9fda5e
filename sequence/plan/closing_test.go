package plan

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
)

// TestClosingEnd: the built-in brief has 85 units of A and 50 of B on a warp that is
// mirrored. With a closing end it has 541 ends, 54.1 cm in the reed at 10/cm, one heddle
// more on shaft 1 and one end more of the stripe in the middle, in oat; all by hand.
func TestClosingEnd(t *testing.T) {
	text := string(brief.Default())
	require.Equal(t, 1, strings.Count(text, "# closing_end = true"))
	without := makePlan(t, "without", []byte(text))
	with := makePlan(t, "with", []byte(strings.Replace(text, "# closing_end", "closing_end", 1)))
	assert.Equal(t, 540, without.Warp.Ends)
	assert.Equal(t, 541, with.Warp.Ends)
	assert.Equal(t, 1, with.Warp.ClosingEnds)
	assert.Equal(t, without.Warp.Units, with.Warp.Units)
	assert.Equal(t, 541.0, with.Warp.ReedWidthMM)
	assert.Equal(t, []int{135, 170, 135, 100}, without.Warp.Heddles)
	assert.Equal(t, []int{136, 170, 135, 100}, with.Warp.Heddles)
	for i, run := range with.Warp.Runs {
		want := without.Warp.Runs[i]
		if i == 4 {
			want.Ends, want.Closing = 21, 1
		}
		want.Turned = i > 4
		assert.Equal(t, want, run, i)
	}
	assert.Equal(t, "oat", with.Yarn[0].Colour)
	// 85 units of four ends, two floating selvedges and the closing end
	assert.InDelta(t, 343*with.Warp.WoundMM/1000, with.Yarn[0].WarpM, 0.001)
	assert.InDelta(t, 342*without.Warp.WoundMM/1000, without.Yarn[0].WarpM, 0.001)
	assert.InDelta(t, 0.541*1.1, with.Cloth.PickM, 1e-9)
}

// TestClosedWarpIsAMirrorImage: of the built-in brief, end by end; without its closing
// end the warp is none.
func TestClosedWarpIsAMirrorImage(t *testing.T) {
	threading := func(text string) []int {
		p := makePlan(t, "b", []byte(text))
		var strips []weave.Strip
		for _, r := range p.Warp.Runs {
			strips = append(strips, weave.Strip{Block: r.Block, Units: r.Units})
		}
		return p.Weave.Threading(strips)
	}
	behind := func(shafts []int) []int {
		shafts = slices.Clone(shafts)
		slices.Reverse(shafts)
		return shafts
	}
	text := string(brief.Default())
	usual := threading(text)
	closed := threading(strings.Replace(text, "# closing_end", "closing_end", 1))
	assert.NotEqual(t, behind(usual), usual)
	assert.Equal(t, behind(closed), closed)
}

// TestClosingEndInOrders: it stays where a piece has an order of picks of its own.
func TestClosingEndInOrders(t *testing.T) {
	text := strings.Replace(string(brief.Default()), "# closing_end", "closing_end", 1)
	name := `name = "first light"`
	text = strings.Replace(text, name, name+"\npick_order = \"P P a P P b\"", 1)
	p := makePlan(t, "b", []byte(text))
	assert.Equal(t, "P P a P P b", p.Pieces[0].PickOrder)
	assert.True(t, p.InOrder(p.Pieces[0].PickOrder).Closing)
}
