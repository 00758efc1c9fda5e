package palette

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNeighbours(t *testing.T) {
	greys := []Lab{{L: 50}, {L: 90}, {L: 52}, {L: 48}}
	all := Neighbours(greys, 2)
	assert.Len(t, all, 4)
	// equal: S_L is symmetric about 50
	assert.Equal(t, []int{2, 3}, []int{all[0][0].Index, all[0][1].Index})
	assert.Equal(t, []int{2, 0}, []int{all[1][0].Index, all[1][1].Index})
	assert.Equal(t, MicroE(greys[1], greys[2]), all[1][0].MicroE)
	assert.InDelta(t, DeltaE00(greys[1], greys[2]), all[1][0].E00(), 1e-6)
	assert.Empty(t, Neighbours(greys, 0)[0])
	assert.Len(t, Neighbours(greys, 99)[0], 3)
	assert.Empty(t, Neighbours(nil, 3))
}

func TestLightness(t *testing.T) {
	colours := []Lab{{L: 50}, {L: 90, A: 3}, {L: 10}, {L: 50, B: 20}, {L: 50 + 1e-9}}
	assert.Equal(t, []int{1, 0, 3, 4, 2}, LightestFirst(colours))
	assert.Equal(t, []int{2, 1, 5, 3, 4}, LightnessRanks(colours))
	assert.Empty(t, LightnessRanks(nil))
}

func TestRoundTheCircle(t *testing.T) {
	colours := []RGB{hex(t, "#0000ff"), hex(t, "#ff0000"), hex(t, "#808080"), hex(t, "#00ff00"),
		hex(t, "#ffff00"), hex(t, "#ff00ff"), hex(t, "#00ffff")}
	// grey 0, red 29, yellow 110, green 142, cyan 195, blue 264, magenta 328 degrees (CSS Color 4)
	assert.Equal(t, []int{2, 1, 4, 3, 6, 0, 5}, RoundTheCircle(colours))
}

func TestMerging(t *testing.T) {
	chance := rand.New(rand.NewPCG(29, 30))
	colours := make([]Linear, 60)
	for i := range colours {
		colours[i] = randomRGB(chance).Linear()
	}
	found := map[[3]int]bool{}
	for _, m := range Merging(colours) {
		found[[3]int{m.A, m.B, int(m.Sight)}] = true
		assert.Equal(t, MicroE(colours[m.A].Lab(), colours[m.B].Lab()), m.Normal)
		assert.Equal(t, MicroE(m.Sight.See(colours[m.A]).Lab(), m.Sight.See(colours[m.B]).Lab()),
			m.Seen)
	}
	for a := range colours {
		for b := a + 1; b < len(colours); b++ {
			for _, s := range []Sight{Protan, Deutan} {
				want := DeltaE00(colours[a].Lab(), colours[b].Lab()) >= ApartFrom &&
					DeltaE00(s.See(colours[a]).Lab(), s.See(colours[b]).Lab()) < MergesBelow
				assert.Equal(t, want, found[[3]int{a, b, int(s)}], "%d %d %v", a, b, s)
			}
		}
	}
	assert.NotEmpty(t, found)
	assert.Empty(t, Merging([]Linear{hex(t, "#000000").Linear(), hex(t, "#ffffff").Linear()}))
}
