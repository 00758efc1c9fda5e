package plan

import (
	"os"
	"strings"
	"testing"

	"stripesong/palette"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRangesOfWhatWasNotMeasured: without a sample, spread and scatter leave
// open how plainly a pattern shows; what the brief says is settled.
func TestRangesOfWhatWasNotMeasured(t *testing.T) {
	text, err := os.ReadFile("testdata/worked-brief.toml")
	require.NoError(t, err)
	planned := func(keys string) Contrast {
		changed := strings.Replace(string(text), "[cloth]\n", "[cloth]\n"+keys, 1)
		return makePlan(t, "worked", []byte(changed)).Pieces[0].Contrast[0]
	}
	open := planned("")
	t.Run("both left out", func(t *testing.T) {
		require.Len(t, open.Range, 2)
		assert.Less(t, open.Range[0], open.Seen[1].DeltaL)
		assert.Greater(t, open.Range[1], open.Seen[1].DeltaL)
		assert.Equal(t, open.Range, open.Seen[1].Range.DeltaL[:])
		assert.Equal(t, [2]palette.Grade{palette.Clear, palette.Strong}, open.Seen[1].Range.Grades)
	})
	t.Run("one said", func(t *testing.T) {
		half := planned("spread = 1.5\n")
		assert.Equal(t, open.Seen[1].DeltaL, half.Seen[1].DeltaL)
		assert.Greater(t, half.Range[0], open.Range[0], "a narrower range")
		assert.Less(t, half.Range[1], open.Range[1])
	})
	t.Run("both said", func(t *testing.T) {
		known := planned("spread = 1.5\nscatter = 0.02\n")
		assert.Equal(t, open.Seen[1].DeltaL, known.Seen[1].DeltaL)
		assert.Nil(t, known.Range)
		assert.Nil(t, known.Seen[1].Range)
	})
	t.Run("the ends are what the brief would give if it said them", func(t *testing.T) {
		least, greatest := open.Seen[1].DeltaL, open.Seen[1].DeltaL
		for _, keys := range []string{
			"spread = 1.3\nscatter = 0.01\n", "spread = 1.3\nscatter = 0.035\n",
			"spread = 1.7\nscatter = 0.01\n", "spread = 1.7\nscatter = 0.035\n",
		} {
			at := planned(keys).Seen[1].DeltaL
			least, greatest = min(least, at), max(greatest, at)
		}
		assert.Equal(t, []float64{least, greatest}, open.Range)
	})
}

// TestBacksAreReckoned: in a structure whose blocks the pattern weft covers to
// unlike shares, the back of one area is no area of the face.
func TestBacksAreReckoned(t *testing.T) {
	text, err := os.ReadFile("testdata/worked-brief.toml")
	require.NoError(t, err)
	p := makePlan(t, "worked", text)
	shades := p.Shades()
	for _, piece := range p.Pieces {
		for _, weft := range piece.Runs {
			for _, warp := range p.Warp.Runs {
				face, back := shades.Body(warp, weft, false), shades.Body(warp, weft, true)
				require.NotNil(t, face)
				require.NotNil(t, back)
				if weft.Block == "" {
					assert.Equal(t, face, back)
					continue
				}
				assert.InDelta(t, 1, face.Cover+back.Cover, 1e-9)
			}
			assert.NotNil(t, shades.Hem(p.Warp.Runs[0].Colour, piece.Hem))
		}
	}
	assert.Nil(t, shades.Hem("no colour", "chalk"))
}
