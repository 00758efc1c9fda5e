package contrast

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

func TestEveryPairThatCouldMeetIsThere(t *testing.T) {
	b := parsed(t, poor(t))
	r := reported(t, b, Question{})
	require.Len(t, r.Pairs, len(b.Colours)*len(b.Colours))
	seen := make(map[[2]string]bool)
	for _, p := range r.Pairs {
		seen[[2]string{p.Ground, p.Pattern}] = true
		trios := r.Combos(p)
		require.Len(t, trios, 2)
		assert.Equal(t, []string{"mist", "shell"}, []string{trios[0].Warp, trios[1].Warp})
		for _, c := range trios {
			require.Len(t, c.Seen, len(palette.Sights))
			for _, s := range c.Seen {
				require.Len(t, s.DeltaL, len(look.DistancesM))
			}
			assert.Equal(t, -c.DeltaL, c.BackDeltaL, "the back shows the two exchanged")
		}
	}
	assert.Len(t, seen, len(r.Pairs))
}

// TestSortedByWhatShows: the grade never rises down the list, nor the lightness
// within a grade, and each pair goes by the warp colour where it is worst.
func TestSortedByWhatShows(t *testing.T) {
	for _, q := range []Question{{}, {DistanceM: 7}, {Sights: []palette.Sight{palette.Deutan}}} {
		r := reported(t, parsed(t, poor(t)), q)
		for i, p := range r.Pairs {
			if i > 0 {
				before, now := r.Pairs[i-1], p
				assert.GreaterOrEqual(t, before.Grade, now.Grade)
				if before.Grade == now.Grade {
					assert.GreaterOrEqual(t, math.Abs(before.DeltaL), math.Abs(now.DeltaL))
				}
			}
			least := slices.MinFunc(r.Combos(p), func(a, b Combo) int {
				return int(a.Grade - b.Grade)
			})
			assert.Equal(t, least.Grade, p.Grade)
		}
	}
}

// TestAgreesWithThePlan: what meets in the plan has the plan's own numbers.
func TestAgreesWithThePlan(t *testing.T) {
	b := parsed(t, brief.Default())
	p := planned(t, b)
	r := reported(t, b, Question{})
	worst := make(map[[3]string]plan.Contrast)
	for _, piece := range p.Pieces {
		for _, c := range piece.Contrast {
			key := [3]string{c.Warp, c.Ground, c.Pattern}
			if have, ok := worst[key]; !ok || c.NarrowestMM < have.NarrowestMM {
				worst[key] = c
			}
		}
	}
	met := 0
	for _, pair := range r.Pairs {
		for _, c := range r.Combos(pair) {
			want, ok := worst[[3]string{c.Warp, c.Ground, c.Pattern}]
			assert.Equal(t, ok, len(c.Pieces) > 0)
			if !ok {
				continue
			}
			met++
			at := slices.IndexFunc(want.Seen, func(s plan.Seen) bool {
				return s.DistanceM == look.DecisiveM
			})
			assert.Equal(t, want.Vision, c.Vision)
			assert.Equal(t, want.Seen[at].Grade, c.Grade)
			assert.InDelta(t, want.Seen[at].DeltaL, math.Abs(c.SeenL), 0.0002)
			assert.Equal(t, want.On, c.On)
			assert.Equal(t, want.Off, c.Off)
		}
	}
	assert.Equal(t, len(worst), met)
	assert.Equal(t, r.Meeting, met)
}

// TestMayFallTo: the least grade of all that meets, over its range where it has one; a
// shelf of colours that are not in the plan is no work for it, counted in what is allocated.
func TestMayFallTo(t *testing.T) {
	for name, text := range map[string][]byte{"default": brief.Default(), "poor": poor(t)} {
		alone, shelf := reported(t, parsed(t, text), Question{}),
			reported(t, parsed(t, text, sixty()), Question{})
		least := palette.Bold
		for _, p := range alone.Pairs {
			for _, c := range alone.Combos(p) {
				grade := c.Grade
				if c.Range != nil {
					grade = c.Range.Grades[0]
				}
				if len(c.Pieces) > 0 {
					least = min(least, grade)
				}
			}
		}
		assert.Equal(t, least, alone.MayFallTo(), name)
		work := func(r *Report) float64 {
			return testing.AllocsPerRun(10, func() { r.MayFallTo() })
		}
		assert.LessOrEqual(t, work(shelf), work(alone)+1, name)
	}
}

// TestSidesOfTheSet: the set's sides are the bodies' by area; of two bodies
// alike in length, the mean of the two (by hand).
func TestSidesOfTheSet(t *testing.T) {
	b := parsed(t, poor(t))
	p := planned(t, b)
	var light, area float64
	for _, piece := range p.Pieces {
		light += piece.Face.MeanL * float64(piece.BodyUnits)
		area += float64(piece.BodyUnits)
		total := piece.Face.PatternShare + piece.Back.PatternShare
		assert.LessOrEqual(t, total, 1.0001, "every pattern area lies behind on the other side")
	}
	assert.InDelta(t, light/area, p.Set.Face.MeanL, 0.0001)
	s := sides("x", plan.Side{}, plan.Side{},
		&plan.Lighter{Side: "face", DeltaL: 5.1, Words: "face lighter, soft 5.1"}, nil)
	assert.Equal(t, []any{"face", 5.1, "face lighter, soft 5.1"},
		[]any{s.Lighter, s.LighterBy, s.Words})
	assert.Equal(t, "alike", sides("x", plan.Side{}, plan.Side{}, nil, nil).Lighter)
}

// TestEdgesOfTwoStripes: with stripes of two colours in two blocks, the edge is
// met in plain weave and with each pattern on one side or the other.
func TestEdgesOfTwoStripes(t *testing.T) {
	r := reported(t, parsed(t, poor(t)), Question{})
	plain, pattern := 0, 0
	for _, e := range r.Edges {
		assert.Equal(t, [2]string{"mist", "shell"}, [2]string{e.Left.Warp, e.Right.Warp})
		if e.Pattern == "" {
			plain++
			assert.Equal(t, e.Meets, e.Ground == "mist" || e.Ground == "shell")
			continue
		}
		pattern++
		assert.True(t, e.Meets)
		assert.NotEqual(t, e.Left.State, e.Right.State, "blocks change with every stripe")
	}
	assert.Equal(t, 6, plain)
	assert.Positive(t, pattern)
}

// TestEdgesHaveTheRangeOfTheirCorners: the ends of what an edge may show are what the
// brief gives with one of the credible ends of spread and of scatter written into it.
func TestEdgesHaveTheRangeOfTheirCorners(t *testing.T) {
	text, one := poor(t), Question{Sights: []palette.Sight{palette.Normal}}
	edges := reported(t, parsed(t, text), one).Edges
	least, greatest := make([]float64, len(edges)), make([]float64, len(edges))
	for i, e := range edges {
		least[i], greatest[i] = math.Abs(e.SeenL), math.Abs(e.SeenL)
	}
	for _, corner := range [][2]string{{"1.3", "0.01"}, {"1.3", "0.035"}, {"1.7", "0.01"},
		{"1.7", "0.035"}} {
		text, err := brief.Edit("corner.toml", text,
			[]brief.Change{{Key: "cloth.spread", Value: corner[0]},
				{Key: "cloth.scatter", Value: corner[1]}})
		require.NoError(t, err)
		for i, e := range reported(t, parsed(t, text), one).Edges {
			assert.Nil(t, e.Range, "nothing is left open")
			least[i], greatest[i] = min(least[i], math.Abs(e.SeenL)),
				max(greatest[i], math.Abs(e.SeenL))
		}
	}
	told := 0
	for i, e := range edges {
		if e.Range == nil {
			assert.False(t, e.Meets)
			continue
		}
		told++
		assert.InDeltaSlice(t, []float64{least[i], greatest[i]}, e.Range.DeltaL[:], 0.0001,
			"%v beside %v", e.Left, e.Right)
	}
	assert.Greater(t, told, 2)
}

func TestJSONIsWholeAndTheSameEachTime(t *testing.T) {
	b := parsed(t, poor(t))
	r := reported(t, b, Question{})
	var text, again bytes.Buffer
	require.NoError(t, r.WriteJSON(&text))
	var back Report
	require.NoError(t, json.Unmarshal(text.Bytes(), &back))
	for i := range r.Pairs {
		r.Pairs[i].decided = verdict{}
	}
	r.reckoner = nil
	assert.Equal(t, *r, back)
	require.NoError(t, reported(t, b, Question{}).WriteJSON(&again))
	assert.Equal(t, text.String(), again.String())
}

func TestMakeStopsWhenAsked(t *testing.T) {
	b := parsed(t, poor(t))
	p := planned(t, b)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := Make(ctx, b, p, Question{})
	assert.ErrorIs(t, err, context.Canceled)
}

// TestDenserBeatIsAWholeNumber of the unit the brief writes.
func TestDenserBeatIsAWholeNumber(t *testing.T) {
	for text, want := range map[string][]string{"8/cm": {"9/cm", "10/cm"},
		"20/in": {"22/in", "24/in"}, "7.5/cm": {"9/cm"}, "80/10cm": {"88/10cm", "96/10cm"}} {
		changed, err := brief.Edit("poor.toml", poor(t),
			[]brief.Change{{Key: "cloth.ground", Value: tomltext.Quote(text)}})
		require.NoError(t, err)
		b := parsed(t, changed)
		var got []string
		for _, c := range newReckoner(b, planned(t, b), Question{}.full()).thicker() {
			if c.change == Beat {
				got = append(got, c.to)
			}
		}
		assert.Equal(t, want, got, text)
	}
}

func TestQuotedTextIsTOML(t *testing.T) {
	for _, text := range []string{"oat", `clay "older"`, "tab\tand\x7f", `back\slash`, "日本"} {
		changed, err := brief.Edit("poor.toml", poor(t),
			[]brief.Change{{Key: "colour[0].name", Value: tomltext.Quote(text)},
				{Key: "warp.colours", Value: tomltext.List([]string{text, "shell"})},
				{Key: "weft.ground", Value: tomltext.Quote(text)}})
		require.NoError(t, err, text)
		assert.Equal(t, text, parsed(t, changed).Colours[0].Name)
	}
}
