package plan

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestBriefInInchesIsPlanned: the brief that "new" writes in inches has nothing metric
// but in its words on units, and its plan warns of nothing.
func TestBriefInInchesIsPlanned(t *testing.T) {
	text := brief.DefaultIn("in")
	for _, metric := range []string{` cm"`, `/cm`, `0cm`, ` mm"`, ` g"`, ` m"`, "/kg"} {
		assert.NotContains(t, string(text), metric)
	}
	assert.Equal(t, strings.Count(string(brief.Default()), "\n"), strings.Count(string(text), "\n"))
	p := makePlan(t, "inches", text)
	assert.Equal(t, "in", p.Units)
	assert.Empty(t, p.NotesOf(Warning))
	for _, code := range []string{"unit-odd", "size-unlikely", "size-off", "reed-near",
		"yarn-spare"} {
		assert.Nil(t, said(p, code), code)
	}
	assert.InDelta(t, 18*25.4, p.Warp.FinishedWidthMM, 4)
	for _, piece := range p.Pieces {
		assert.InDelta(t, 26*25.4, piece.FinishedMM, 6, piece.Name)
	}
}

// TestUnitsThatAreMeantAreNotAskedFor: what flags say is meant, and so is what only
// reports are in.
func TestUnitsThatAreMeantAreNotAskedFor(t *testing.T) {
	for _, set := range [][]brief.Override{
		{{Key: "units", Value: `"in"`, Flag: "--units"}},
		{{Key: "set.width", Value: `"18 in"`, Flag: "--width"}},
	} {
		b, err := brief.Parse("b", brief.Default(), brief.Options{Set: set})
		require.NoError(t, err)
		p, err := Make(context.Background(), b)
		require.NoError(t, err)
		assert.Nil(t, said(p, "unit-odd"))
	}
}

// TestUnlikelySizes: towels, bands, mats, squares and runners are what they are; a towel
// in the wrong unit is not.
func TestUnlikelySizes(t *testing.T) {
	for _, one := range []struct {
		wide, long float64
		want       string
	}{
		{460, 660, ""}, {90, 300, ""}, {400, 400, ""}, {450, 1800, ""}, {330, 480, ""},
		{120, 120, ""},
		{1168, 1676, "large"}, {181, 260, "small"}, {900, 900, ""},
	} {
		assert.Equal(t, one.want, unlikely(one.wide, one.long), "%v", one)
	}
}
