package plan

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// sheetOf is a sheet of trials of the built-in brief.
func sheetOf(t *testing.T, what Trying) *Trials {
	t.Helper()
	b, err := brief.Parse("b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	sheet, err := Try(context.Background(), b, what)
	require.NoError(t, err)
	return sheet
}

func TestTrialsAreSteered(t *testing.T) {
	sheet := sheetOf(t, Trying{Count: 20, Piece: 1,
		Steering: Steering{Kinds: []string{"euclid", "graded"}, Fewest: 4, Most: 7}})
	assert.Len(t, sheet.Cells, 20)
	kinds := map[string]bool{}
	for _, c := range sheet.Cells {
		kinds[c.candidate.rule.Rhythm.Spec().Name] = true
		n := len(c.Plan.Pieces[0].Runs)
		assert.True(t, 4 <= n && n <= 7, "%d", n)
	}
	assert.Equal(t, map[string]bool{"euclid": true, "graded": true}, kinds)
}

// TestColoursAreKept: every trial of windfall has its three colours, and of the warp both
// of its; let go, some have others and some have fewer.
func TestColoursAreKept(t *testing.T) {
	for _, c := range sheetOf(t, Trying{Count: 20, Piece: 2}).Cells {
		assert.Len(t, patternColours(c.candidate.runs), 3, c.Rhythm)
	}
	for _, c := range sheetOf(t, Trying{Count: 20, Warp: true}).Cells {
		assert.Len(t, patternColours(c.candidate.runs), 2, c.Rhythm)
	}
	used, fewer := map[int]bool{}, false
	for _, c := range sheetOf(t,
		Trying{Count: 40, Piece: 2, Steering: Steering{LetColoursGo: true}}).Cells {
		colours := patternColours(c.candidate.runs)
		fewer = fewer || len(colours) < 3
		for _, n := range colours {
			used[n] = true
		}
	}
	assert.True(t, fewer)
	assert.Equal(t, map[int]bool{3: true, 4: true, 5: true, 6: true}, used,
		"all of linen, none of cotton")
}

// TestBoldAndCalm by hand: looks 0, 1 and 2, of which 0 and 1 differ by 2, 1 and 2 by 4,
// 0 and 2 by 6. Runs 0 1 2 change by 6 in all and 3 on average, 0 2 by 6 and 6, 0 1 0 1
// by 6 and 2, a single run by nothing.
func TestBoldAndCalm(t *testing.T) {
	d := &differ{between: [][]int64{{0, 2, 6}, {2, 0, 4}, {6, 4, 0}}}
	of := func(looks ...int) candidate {
		b := body{looks: looks}
		for i := range looks {
			b.ends = append(b.ends, i+1)
		}
		return candidate{runs: make([]brief.Run, len(looks)), body: b}
	}
	candidates := []candidate{of(0, 1, 2), of(0, 2), of(0, 1, 0, 1), of(1)}
	for i, want := range [][2]int64{{6, 3}, {6, 6}, {6, 2}, {0, 0}} {
		assert.Equal(t, want, [2]int64{candidates[i].body.steps(d), candidates[i].body.meanStep(d)})
	}
	looks := func(s Steering) (all [][]int) {
		for _, c := range s.steered(slices.Clone(candidates), nil, d) {
			all = append(all, c.body.looks)
		}
		return all
	}
	assert.Equal(t, [][]int{{0, 2}}, looks(Steering{Bold: 25}))
	assert.Equal(t, [][]int{{0, 1, 2}, {0, 2}}, looks(Steering{Bold: 50}))
	assert.Equal(t, [][]int{{1}}, looks(Steering{Calm: 1}))
	assert.Equal(t, [][]int{{0, 1, 2}, {0, 2}}, looks(Steering{Bold: 50, Calm: 75}))
	assert.Equal(t, [][]int{{0, 1, 2}}, looks(Steering{Fewest: 3, Most: 3}))
	assert.Len(t, looks(Steering{}), 4)
}

func TestNothingIsLeftToTry(t *testing.T) {
	b, err := brief.Parse("b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	_, err = Try(context.Background(), b, Trying{Count: 3, Steering: Steering{Fewest: 500}})
	var problems brief.Problems
	require.ErrorAs(t, err, &problems)
	assert.Contains(t, problems[0].Hint, "ask for less")
}

// TestNumbersMeanTheSame however many are drawn, steered too.
func TestNumbersMeanTheSame(t *testing.T) {
	s := Steering{Kinds: []string{"graded"}, Bold: 40}
	few, many := sheetOf(t, Trying{Count: 5, Steering: s}),
		sheetOf(t, Trying{Count: 15, Steering: s})
	for i := range few.Cells {
		assert.Equal(t, few.Cells[i].candidate.runs, many.Cells[i].candidate.runs)
	}
}
