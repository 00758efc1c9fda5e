package plan

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// plainCloth is 40 threading units wide and 60 weft units long, without losses: 160 ends
// of 8 to the centimetre are 20 cm, and 60 weft units of two ground picks at 8 to the
// centimetre are 15 cm.
const plainCloth = `
[set]
width = "20 cm"
length = "15 cm"
hem = "0 cm"
separator = 0
[cloth]
sett = "8/cm"
ground = "8/cm"
draw_in = "0%"
take_up = "0%"
shrink_width = "0%"
shrink_length = "0%"
weft_extra = "0%"
[yarn.cotton]
count = "16/2 cotton"
[[colour]]
name = "oat"
hex = "#efe6d2"
[[colour]]
name = "rye"
hex = "#a08040"
[[colour]]
name = "plum dye"
hex = "#4b1f3f"
[warp]
colours = ["oat", "rye"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "oat"
colours = ["plum dye"]
rhythm = { kind = "even", stripes = 3 }
`

// cloth is the plan of plainCloth with one thing in place of another.
func cloth(t *testing.T, oldNew ...string) (*Plan, error) {
	t.Helper()
	return tryPlan(t, with(t, plainCloth, oldNew...))
}

func runsText(runs []WarpRun) string {
	var all []string
	for _, r := range runs {
		all = append(all, fmt.Sprint(r.Block, r.Units))
	}
	return strings.Join(all, " ")
}

func weftText(runs []WeftRun) string {
	var all []string
	for _, r := range runs {
		all = append(all, fmt.Sprint(r.Block, r.Units))
	}
	return strings.Join(all, " ")
}

const warpEven = `rhythm = { kind = "even", stripes = 5 }`
const weftEven = `rhythm = { kind = "even", stripes = 3 }`

// TestBlocksOnStripeEdges: five stripes of 8. ABA in 1 2 1 of 40 has its edges at 10 and
// 30, which cut the second and the fourth into 2 and 6; the nearest stripe edges are 8
// and 32.
func TestBlocksOnStripeEdges(t *testing.T) {
	cut, err := cloth(t, warpEven, warpEven+"\nblocks = { letters = \"ABA\", weights = [1, 2, 1] }")
	require.NoError(t, err)
	assert.Equal(t, "A8 A2 B6 B8 B6 A2 A8", runsText(cut.Warp.Runs))
	assert.Equal(t, "A 50 %, B 50 %; 5 stripes (cut into 7 by blocks)", cut.Warp.Divided())

	on, err := cloth(t, warpEven,
		warpEven+"\nblocks = { letters = \"ABA\", weights = [1, 2, 1], edges = \"stripes\" }")
	require.NoError(t, err)
	assert.Equal(t, "A8 B8 B8 B8 A8", runsText(on.Warp.Runs))
	assert.Equal(t, []BlockShare{{"A", 16, 0.4}, {"B", 24, 0.6}}, on.Warp.Blocks)
	assert.Equal(t, "A 40 %, B 60 %; 5 stripes", on.Warp.Divided())

	free, err := cloth(t, warpEven,
		warpEven+"\nblocks = { letters = \"ABA\", weights = [1, 2, 1], edges = \"free\" }")
	require.NoError(t, err)
	assert.Equal(t, cut.Warp.Runs, free.Warp.Runs)

	_, err = cloth(t, warpEven,
		warpEven+"\nblocks = { letters = \"BABA\", weights = [1, 9, 1, 9], edges = \"stripes\" }")
	assert.ErrorContains(t, err, "warp.blocks: block 1 of those laid on stripe edges would vanish")
}

// TestWantedShares: of five stripes of 8 A has 24; B is to have two thirds of 40, 26.67,
// in two stripes of 13.33, A 13.33 in three of 4.44: all rounded down they sum to 38, and the first
// two A's have most left; as a mirror image the two outer ones.
func TestWantedShares(t *testing.T) {
	p, err := cloth(t, warpEven, warpEven+"\nblocks = { shares = [1, 2] }")
	require.NoError(t, err)
	assert.Equal(t, "A5 B13 A5 B13 A4", runsText(p.Warp.Runs))
	mirrored, err := cloth(t, warpEven,
		"rhythm = { kind = \"even\", stripes = 3, mirror = true }\nblocks = { shares = [1, 2] }")
	require.NoError(t, err)
	assert.Equal(t, "A5 B13 A4 B13 A5", runsText(mirrored.Warp.Runs))
	from, err := cloth(t, warpEven, warpEven+"\nfirst = \"B\"\nblocks = { shares = [2, 1] }")
	require.NoError(t, err)
	assert.Equal(t, "B5 A13 B5 A13 B4", runsText(from.Warp.Runs))

	// letters: A a third and B two thirds of 60 weft units, the A's in 1 to 3
	apart, err := cloth(t, weftEven,
		weftEven+"\nblocks = { letters = \"ABA\", weights = [1, 1, 3], shares = [1, 2] }")
	require.NoError(t, err)
	assert.Equal(t, []BlockShare{{"A", 20, 0.3333}, {"B", 40, 0.6667}}, apart.Pieces[0].Blocks)
	assert.Equal(t, "A5 B40 A15", weftText(apart.Pieces[0].Runs))

	_, err = cloth(t, weftEven,
		"rhythm = { kind = \"even\", stripes = 1 }\nblocks = { shares = [1, 2] }")
	assert.ErrorContains(t, err,
		"weft.blocks: block B is to have a share, and the rhythm has too few stripes")
}

// TestMiddleBlockOffCentre: half the width, its middle at two fifths: 6, 20 and 14 of 40.
func TestMiddleBlockOffCentre(t *testing.T) {
	p, err := cloth(t, `colours = ["oat", "rye"]`, `colours = ["oat"]`, warpEven,
		"rhythm = { kind = \"even\", stripes = 1 }\nblocks = { letters = \"ABA\", weights = [1, "+
			"2, 1], centre = \"40%\" }")
	require.NoError(t, err)
	assert.Equal(t, "A6 B20 A14", runsText(p.Warp.Runs))
}

// TestMiddle: half of 60 weft units is 30, 15 are left at each end, three stripes of 5;
// the last end is a mirror image of the first. Of 40 threading units 45 % is 18, and
// 11 are left, in two stripes 6 and 5. 4 cm of 15 are 16 units of 60.
func TestMiddle(t *testing.T) {
	for _, c := range []struct{ old, new, warp, weft, words string }{
		{weftEven, weftEven + "\nmiddle = \"50% plain\"", "", "A5 B5 A5 30 A5 B5 A5",
			"3 even stripes, on both sides of a middle of 50 %, plain"},
		{weftEven, weftEven + "\nmiddle = \"4 cm plain\"", "", "A8 B7 A7 16 A7 B7 A8",
			"3 even stripes, on both sides of a middle of 4 cm, plain"},
		{weftEven, weftEven + "\nmiddle = \"50% even 3\"", "", "A5 B5 A5 B10 A10 B10 A5 B5 A5",
			"3 even stripes, on both sides of a middle of 50 %, even 3"},
		{weftEven, weftEven + "\nmiddle = \"50% B plum dye\"", "", "A5 B5 A5 B30 A5 B5 A5",
			"3 even stripes, on both sides of a middle of 50 %, B plum dye"},
		{weftEven, weftEven + "\nmiddle = \"50% A plum dye\"", "", "A5 B5 A40 B5 A5",
			"3 even stripes, on both sides of a middle of 50 %, A plum dye"},
		{warpEven, "rhythm = { kind = \"even\", stripes = 2 }\nmiddle = \"45% A oat\"",
			"A6 B5 A18 B5 A6", "A20 B20 A20", "3 even stripes"},
		// an odd 41 units: 45 % is 18.45, and of the odd numbers 19 is nearest
		{warpEven, "rhythm = { kind = \"even\", stripes = 2 }\nmiddle = \"45% A oat\"\n#",
			"A6 B5 A19 B5 A6", "A20 B20 A20", "3 even stripes"},
		// what takes less than a unit is as little as leaves both ends alike
		{weftEven, weftEven + "\nmiddle = \"1 mm plain\"", "", "A10 B10 A9 2 A9 B10 A10",
			"3 even stripes, on both sides of a middle of 1 mm, plain"},
	} {
		width := `width = "20 cm"`
		if strings.HasSuffix(c.new, "#") {
			width = `width = "20.5 cm"`
		}
		p, err := cloth(t, c.old, c.new, `width = "20 cm"`, width)
		require.NoError(t, err, c.new)
		if c.warp != "" {
			assert.Equal(t, c.warp, runsText(p.Warp.Runs), c.new)
			assert.Equal(t, 5, p.Warp.Stripes)
		}
		assert.Equal(t, c.weft, weftText(p.Pieces[0].Runs), c.new)
		assert.Equal(t, c.words, p.Pieces[0].Rhythm)
	}
}

// TestMiddleThatDoesNotFit is said at its key.
func TestMiddleThatDoesNotFit(t *testing.T) {
	for middle, says := range map[string]string{
		`"20 cm plain"`: "weft.middle: leaves no room for the rhythm on both sides of it",
		`"99% plain"`:   "weft.middle: leaves no room",
		`"95% plain"`:   "3 stripes do not fit in 2 units",
	} {
		_, err := cloth(t, weftEven, weftEven+"\nmiddle = "+middle)
		assert.ErrorContains(t, err, says, middle)
	}
}

// TestMiddleIsInherited by a piece, and let go with "none".
func TestMiddleIsInherited(t *testing.T) {
	p, err := cloth(t, weftEven,
		weftEven+"\nmiddle = \"50% plain\"\n[[piece]]\nname = \"x\"\n[[piece]]\nname = \"y\"\n"+
			"middle = \"none\"")
	require.NoError(t, err)
	assert.Equal(t, "A5 B5 A5 30 A5 B5 A5", weftText(p.Pieces[0].Runs))
	assert.Equal(t, "A20 B20 A20", weftText(p.Pieces[1].Runs))
}

// TestChosenPiecesHaveTheMiddle: candidates go by the middle of [weft], and the rule that
// is told of a chosen piece gives it again.
func TestChosenPiecesHaveTheMiddle(t *testing.T) {
	text := with(t, plainCloth, "[set]\n", "[set]\npieces = 3\n", weftEven,
		weftEven+"\nmiddle = \"40% plain\"\n[vary]\ncandidates = 60\n"+
			"colours = [\"plum dye\", \"rye\"]\n")
	p := makePlan(t, "b", text)
	for i, piece := range p.Pieces {
		require.Equal(t, "chosen", piece.Origin)
		n := len(piece.Runs)
		assert.Equal(t, WeftRun{Units: 24, GroundPicks: 48, Ground: "oat"}, piece.Runs[n/2])
		var changes []brief.Change
		for _, s := range piece.Rule {
			changes = append(changes, brief.Change{Key: "piece[0]." + s.Key, Value: s.Value})
		}
		again, err := brief.Edit("b", text, changes)
		require.NoError(t, err)
		assert.Equal(t, piece.Runs, makePlan(t, "b", again).Pieces[0].Runs, "piece %d", i+1)
	}
}

// TestSharesInWords sum to 100: 1 of 3 is 33.3, 66.7; three thirds are 34, 33, 33.
func TestSharesInWords(t *testing.T) {
	assert.Equal(t, "A 33 %, B 67 %", SharesInWords([]BlockShare{{"A", 1, 0}, {"B", 2, 0}}))
	assert.Equal(t, "A 34 %, B 33 %, plain 33 %",
		SharesInWords([]BlockShare{{"A", 1, 0}, {"B", 1, 0}, {"", 1, 0}}))
	assert.Empty(t, SharesInWords(nil))
	assert.Equal(t, "A 100 %; 1 stripe",
		Warp{Runs: []WarpRun{{Block: "A", Units: 3}}, Stripes: 1,
			Blocks: []BlockShare{{"A", 3, 1}}}.Divided())
}
