package plan

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
)

// said are the messages of a plan's notes of one code.
func said(p *Plan, code string) (all []string) {
	for _, n := range p.Notes {
		if n.Code == code {
			all = append(all, n.Message)
		}
	}
	return all
}

// TestReedNotesTellByHowMuch, worked by hand: 32 dents to 10 cm are 8.128 to the
// inch, and three ends in each 24.384, closer than 24 by 1.6 %; 528 ends then
// stand 21.65 in wide. Two, two and three ends in 10 dents to the inch are 23.33,
// wider by 2.8 %.
func TestReedNotesTellByHowMuch(t *testing.T) {
	near := said(makePlan(t, "small", with(t, small, "[loom]", "[loom]\nreed = \"32/10cm\"")),
		"reed-near")
	require.Len(t, near, 1)
	assert.Contains(t, near[0],
		"which gives 24.4/in, 1.6 % closer, and a warp 21 5/8 in wide in the reed instead of 22 in")
	far := said(makePlan(t, "small", with(t, small, "[loom]", "[loom]\nreed = \"10/in\"")),
		"reed-sett")
	require.Len(t, far, 1)
	assert.Contains(t, far[0], "which gives 23.3/in, 2.8 % wider")
}

// TestNotesThatMustNotStand: a note where there is nothing to note is worse
// than none.
func TestNotesThatMustNotStand(t *testing.T) {
	one := makePlan(t, "small", []byte(small))
	assert.Empty(t, said(one, "separator-none"), "one piece is cut from nothing")
	two := with(t, small, "pieces = 1", "pieces = 2", `hem = "0 in"`, `hem = "1 in"`)
	assert.Len(t, said(makePlan(t, "small", two), "separator-none"), 1)
	assert.Empty(t, said(makePlan(t, "small", two), "separator-hidden"),
		"no separator, none hidden")
	unhemmed := with(t, small, "pieces = 1", "pieces = 2", "separator = 0", "separator = 2")
	assert.Empty(t, said(makePlan(t, "small", unhemmed), "separator-hidden"), "no hem to hide in")
}

// TestSomeNamesTheFirstFew: four are named, of more the first four.
func TestSomeNamesTheFirstFew(t *testing.T) {
	names := strings.Fields("a b c d e f")
	assert.Equal(t, "a, b, c, d", some(names[:4]))
	assert.Equal(t, "a, b, c, d and 1 more", some(names[:5]))
	assert.Equal(t, "a, b, c, d and 2 more", some(names))
	one, two := 1, 2
	assert.Equal(t, []string{"", ", 1 package", ", 2 packages"},
		[]string{packages(Yarn{}), packages(Yarn{Packages: &one}), packages(Yarn{Packages: &two})})
}

// TestGradeOfATrial: what shows least at two metres, wherever it stands.
func TestGradeOfATrial(t *testing.T) {
	contrast := func(deltaL float64) Contrast {
		return Contrast{Seen: []Seen{{DistanceM: 0.4}, {DistanceM: look.DecisiveM, DeltaL: deltaL},
			{DistanceM: 5}}}
	}
	for _, order := range [][]float64{{5, 9, 7}, {9, 5, 7}, {7, 9, 5}, {5, 7, 9}} {
		var all []Contrast
		for _, l := range order {
			all = append(all, contrast(l))
		}
		assert.InDelta(t, 5, Faintest(all, look.DecisiveM).DeltaL, 0, order)
	}
}

// TestSheetsOfTrials: they are numbered in reading order, eight in a row for two
// dozen, and the distances told are those to the neighbours; none at the edges.
func TestSheetsOfTrials(t *testing.T) {
	b, err := brief.Parse("default", brief.Default(), brief.Options{})
	require.NoError(t, err)
	for count, rows := range map[int]int{1: 1, 5: 1, 6: 2, 24: 3, 32: 3, 33: 4} {
		sheet, err := Try(context.Background(), b, Trying{Count: count})
		require.NoError(t, err)
		require.Len(t, sheet.Cells, count)
		assert.Equal(t, rows, sheet.Rows, count)
		for i, c := range sheet.Cells {
			assert.Equal(t, i+1, c.Number, "of %d", count)
			assert.Equal(t, (i+1)%sheet.Columns() == 0 || i+1 == count, c.Right == -1, "%d of %d",
				i, count)
			assert.Equal(t, i+sheet.Columns() >= count, c.Below == -1, "%d of %d", i, count)
		}
	}
}

// TestBlocksApartStayMirrored, by hand: 20 units as 3 1 2 1 3 are twice that, and
// of 21 the middle takes the odd one.
func TestBlocksApartStayMirrored(t *testing.T) {
	blocks := brief.Blocks{Letters: []int{0, 1, 0, 1, 0}, Weights: []int64{3, 1, 2, 1, 3}}
	for n, want := range map[int][]int{20: {6, 2, 4, 2, 6}, 21: {6, 2, 5, 2, 6}} {
		units, letters, err := shareBlocks(blocks, n, true, 0)
		require.NoError(t, err)
		assert.Equal(t, want, units)
		assert.Equal(t, blocks.Letters, letters)
	}
}

// TestRulesInWords: what was left out or is as always is not told.
func TestRulesInWords(t *testing.T) {
	m := newMaker(parse(t, "small", []byte(small)))
	rule := m.b.Warp.Rule
	rule.Rhythm = &sequence.Rhythm{Kind: &sequence.Even{Stripes: 5}}
	rule.Blocks = brief.Blocks{}
	for want, change := range map[string]func(*brief.Rule){
		"5 even stripes": func(*brief.Rule) {},
		"5 even stripes, from block B": func(r *brief.Rule) {
			r.Blocks.First = 1
		},
		"5 even stripes, colours round the colour circle": func(r *brief.Rule) { r.Order = "hue" },
		"5 even stripes, mirrored": func(r *brief.Rule) {
			r.Rhythm = &sequence.Rhythm{Kind: &sequence.Even{Stripes: 5}, Mirror: true}
		},
	} {
		changed := rule
		change(&changed)
		assert.Equal(t, want, m.ruleInWords(changed))
	}
	changed := rule
	changed.Order = "cycle"
	assert.Equal(t, "5 even stripes", m.ruleInWords(changed))
	assert.Equal(t, "1.00 in", m.fine(25.4))
	m.b.Units = "cm"
	assert.Equal(t, "25.4 mm", m.fine(25.4))
}

// TestMixesSayWhatTheyAre: without a pattern yarn a mix is plain, with one it
// is there on the pattern and off it.
func TestMixesSayWhatTheyAre(t *testing.T) {
	p := makePlan(t, "default", brief.Default())
	require.NotEmpty(t, p.Mixes)
	states := map[string]int{}
	for _, mix := range p.Mixes {
		states[string(mix.State)]++
		assert.Equal(t, mix.Pattern == "", mix.State == "plain" || mix.State == "hem", "%+v", mix)
	}
	assert.Equal(t, states["on"], states["off"])
	assert.Positive(t, states["on"])
	assert.Positive(t, states["plain"])
	assert.Positive(t, states["hem"])
}
