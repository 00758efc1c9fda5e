package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/look"
)

// TestLighterByHand: dark pattern weft over three quarters of the warp's width on
// the face of a body that is all block A. In the light, the sides are the mixtures
// of on and off weighed 3 to 1 and 1 to 3.
func TestLighterByHand(t *testing.T) {
	text := strings.Replace(beaten, `["A 13 light", "B 12 light"]`,
		`["A 18 light", "B 6 light"]`, 1)
	text = strings.Replace(text, `["A 25 dark", "B 25 dark"]`, `["A 50 dark"]`, 1)
	text = strings.Replace(text, "tex = 10", "tex = 400", 1)
	text = strings.Replace(text, "[cloth]\n", "[cloth]\nspread = 1.5\nscatter = 0\n", 1)
	p := makePlan(t, "sides", []byte(text))
	c := p.Pieces[0].Contrast[0]
	on := palette.Lab{L: c.On[0], A: c.On[1], B: c.On[2]}.XYZ().Linear()
	off := palette.Lab{L: c.Off[0], A: c.Off[1], B: c.Off[2]}.XYZ().Linear()
	require.Less(t, c.On[0], c.Off[0], "dark pattern on light ground")
	face := palette.Mix(palette.Part{Colour: on, Area: 3},
		palette.Part{Colour: off, Area: 1}).Lab().L
	back := palette.Mix(palette.Part{Colour: on, Area: 1},
		palette.Part{Colour: off, Area: 3}).Lab().L
	l := p.Pieces[0].Lighter
	require.NotNil(t, l)
	assert.Equal(t, "back", l.Side)
	assert.InDelta(t, back-face, l.DeltaL, 0.001)
	assert.Nil(t, l.Range, "nothing is left open")
	assert.Equal(t, "back lighter, "+l.Grade.String()+" "+oneDecimal(l.DeltaL), l.Words)
	assert.Equal(t, l, p.Set.Lighter, "one piece is the whole set")
}

// TestSidesThatPassForTheSame: equal blocks give equal sides, of which nothing is
// said.
func TestSidesThatPassForTheSame(t *testing.T) {
	p := makePlan(t, "sides",
		[]byte(strings.Replace(beaten, `["A 13 light", "B 12 light"]`,
			`["A 12 light", "B 12 light"]`, 1)))
	assert.Nil(t, p.Pieces[0].Lighter)
	assert.Nil(t, p.Set.Lighter)
}

// TestAllTogether: of several pieces it is said which side of them all is the lighter.
func TestAllTogether(t *testing.T) {
	l := &Lighter{Words: "back lighter, soft 5.1"}
	assert.Equal(t, "all together back lighter, soft 5.1",
		(&Plan{Pieces: make([]Piece, 2), Set: Set{Lighter: l}}).AllTogether())
	assert.Empty(t, (&Plan{Pieces: make([]Piece, 1), Set: Set{Lighter: l}}).AllTogether(),
		"said of the piece")
	assert.Empty(t, (&Plan{Pieces: make([]Piece, 2)}).AllTogether(), "they pass for the same")
}

func TestFaintest(t *testing.T) {
	all := []Contrast{
		{Seen: []Seen{{DistanceM: 2, DeltaL: 9}, {DistanceM: 5, DeltaL: 3}}},
		{Seen: []Seen{{DistanceM: 2, DeltaL: 4}, {DistanceM: 5, DeltaL: 4}}},
	}
	assert.Equal(t, &all[1].Seen[0], Faintest(all, 2))
	assert.Equal(t, &all[0].Seen[1], Faintest(all, 5))
	assert.Nil(t, Faintest(all, 3))
	assert.Nil(t, Faintest(nil, 2))
}

func TestGradesInWords(t *testing.T) {
	grades := func(a, b palette.Grade) *Range { return &Range{Grades: [2]palette.Grade{a, b}} }
	assert.Equal(t, "clear to strong",
		Seen{DistanceM: 2, Grade: palette.Clear,
			Range: grades(palette.Clear, palette.Strong)}.Words())
	assert.Equal(t, "clear",
		Seen{DistanceM: 2, Grade: palette.Clear,
			Range: grades(palette.Clear, palette.Clear)}.Words())
	assert.Equal(t, "soft", Seen{DistanceM: 5, Grade: palette.Soft}.Words())
	assert.Equal(t, "threads seen singly",
		Seen{DistanceM: look.DistancesM[0], Grade: palette.Bold}.Words())
}
