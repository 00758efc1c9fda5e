package look

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/palette"
)

// TestTakedownByHand: half of 0.8 and half of 0.2 are 0.5; where they mix to 0.4
// each loses a fifth.
func TestTakedownByHand(t *testing.T) {
	down := Shares{Warp: 0.5, Ground: 0.5}.Takedown(
		[3]palette.Linear{{}, {0.8, 0, 0.5}, {0.2, 0, 0.5}}, palette.Linear{0.4, 0, 0.5})
	assert.InDeltaSlice(t, []float64{0.64, 0, 0.5}, down[WarpYarn][:], 1e-12)
	assert.InDeltaSlice(t, []float64{0.16, 0, 0.5}, down[GroundYarn][:], 1e-12)
}

func TestTakedownAveragesToTheMixture(t *testing.T) {
	chance := rand.New(rand.NewPCG(9, 9))
	light := func() palette.Linear {
		return palette.Linear{chance.Float64(), chance.Float64(), chance.Float64()}
	}
	for range 1000 {
		s := randomWidths(chance).Patch(chance.Float64())
		yarns := [3]palette.Linear{light(), light(), light()}
		mixed := palette.Scatter(0.03).Mix(
			palette.Part{Colour: yarns[0], Area: s.Pattern},
			palette.Part{Colour: yarns[1], Area: s.Warp},
			palette.Part{Colour: yarns[2], Area: s.Ground})
		down := s.Takedown(yarns, mixed)
		for c := range mixed {
			sum := s.Pattern*down[0][c] + s.Warp*down[1][c] + s.Ground*down[2][c]
			assert.InDelta(t, mixed[c], sum, 1e-12)
			assert.LessOrEqual(t, down[0][c], yarns[0][c]+1e-12, "light is only lost")
		}
	}
}
