package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// triedColours is every pattern colour and every warp colour of a sheet of
// trials.
func triedColours(t *testing.T, text string, what Trying) (pattern, warp map[string]bool) {
	t.Helper()
	b, err := brief.Parse("tried.toml", []byte(text), brief.Options{})
	require.NoError(t, err)
	sheet, err := Try(context.Background(), b, what)
	require.NoError(t, err)
	pattern, warp = map[string]bool{}, map[string]bool{}
	for _, c := range sheet.Cells {
		for _, r := range c.Plan.Pieces[0].Runs {
			if r.Pattern != "" {
				pattern[r.Pattern] = true
			}
		}
		for _, r := range c.Plan.Warp.Runs {
			warp[r.Colour] = true
		}
	}
	return pattern, warp
}

// A piece is tried in its own colours: those it names, those it is written out
// in, or those it takes over; a warp in the warp's.
func TestTrialsKeepToTheColoursOfThePiece(t *testing.T) {
	const text = `
[set]
pieces = 3
width = "30 cm"
length = "30 cm"
[cloth]
sett = "8/cm"
ground = "8/cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "oat"
hex = "#efe6d2"
[[colour]]
name = "barley"
hex = "#dfc48a"
[[colour]]
name = "damson"
hex = "#4b1f3f"
[[colour]]
name = "rosehip"
hex = "#8f2a26"
[[colour]]
name = "moss"
hex = "#24492f"
[warp]
colours = ["oat", "barley"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "oat"
colours = ["damson", "rosehip"]
rhythm = { kind = "even", stripes = 5 }
[[piece]]
name = "own"
colours = ["moss"]
[[piece]]
name = "by hand"
runs = ["A 30 rosehip", "B 30 moss"]
`
	for i, want := range []map[string]bool{{"moss": true}, {"rosehip": true, "moss": true},
		{"damson": true, "rosehip": true}} {
		pattern, _ := triedColours(t, text, Trying{Count: 12, Piece: i})
		assert.Equal(t, want, pattern, "piece %d", i)
	}
	pattern, warp := triedColours(t, text, Trying{Count: 12, Warp: true})
	assert.Equal(t, map[string]bool{"moss": true}, pattern)
	assert.Equal(t, map[string]bool{"oat": true, "barley": true}, warp)
}
