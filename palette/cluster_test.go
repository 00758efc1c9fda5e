package palette

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func chanceOf(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }

// Six colours with noise round them come back, with their shares.
func TestClustersFindWhatWasPutIn(t *testing.T) {
	put := []struct {
		hex   string
		count int64
	}{{"#24463c", 400}, {"#f5f0e1", 300}, {"#c9a227", 120}, {"#8b1e1e", 100}, {"#505ba6", 60},
		{"#808080", 20}}
	chance := rand.New(rand.NewPCG(31, 32))
	var samples []Sample
	for _, p := range put {
		c := hex(t, p.hex)
		for range p.count {
			noise := func(v uint8) uint8 { return uint8(min(255, int(v)+chance.IntN(5))) - 2 }
			samples = append(samples, Sample{RGB{noise(c.R), noise(c.G), noise(c.B)}, 10})
		}
	}
	for seed := range uint64(5) {
		got := Clusters(samples, 6, chanceOf(seed))
		assert.Len(t, got, 6)
		for i, c := range got {
			assert.Less(t, DeltaE00(hex(t, put[i].hex).Lab(), c.Colour.Lab()), 1.0, put[i].hex)
			assert.Equal(t, 10*put[i].count, c.Count)
			assert.InDelta(t, float64(put[i].count)/1000, c.Share, 1e-12)
		}
	}
}

// The same chance gives the same clusters on every processor: these were made on
// amd64, and hold wherever the test runs.
func TestClustersArePinned(t *testing.T) {
	chance := rand.New(rand.NewPCG(33, 34))
	var samples []Sample
	for range 500 {
		samples = append(samples, Sample{randomRGB(chance), 1 + int64(chance.IntN(9))})
	}
	first, again := Clusters(samples, 5, chanceOf(7)), Clusters(samples, 5, chanceOf(7))
	assert.Equal(t, first, again)
	assert.Equal(t, []string{"#9cdb65", "#6ea5a8", "#d2607c", "#4f423f", "#5d46c4"}, hexes(first))
	share := 0.0
	for i, c := range first {
		share += c.Share
		if i > 0 {
			assert.LessOrEqual(t, c.Count, first[i-1].Count)
		}
	}
	assert.InDelta(t, 1, share, 1e-12)
}

func hexes(clusters []Cluster) []string {
	var out []string
	for _, c := range clusters {
		out = append(out, c.Colour.Hex())
	}
	return out
}

func TestClustersCloserThanTheLimitAreOne(t *testing.T) {
	a, b, c := hex(t, "#808080"), hex(t, "#848484"), hex(t, "#101010")
	assert.Less(t, DeltaE00(a.Lab(), b.Lab()), MergedBelow)
	got := Clusters([]Sample{{a, 5}, {b, 5}, {c, 90}}, 3, chanceOf(1))
	assert.Len(t, got, 2)
	assert.Equal(t, c, got[0].Colour)
	assert.Equal(t, "#828282", got[1].Colour.Hex())
	assert.InDelta(t, 0.1, got[1].Share, 1e-12)
	for i := range 30 {
		found := Clusters([]Sample{{hex(t, "#000000"), 1}, {RGB{uint8(8 * i), 90, 40}, 3},
			{RGB{90, 40, uint8(8 * i)}, 2}}, 3, chanceOf(2))
		for j := range found {
			for k := range j {
				assert.GreaterOrEqual(t, DeltaE00(found[j].Colour.Lab(), found[k].Colour.Lab()),
					MergedBelow)
			}
		}
	}
}

func TestClustersOfVeryFew(t *testing.T) {
	red := hex(t, "#ff0000")
	assert.Empty(t, Clusters(nil, 3, chanceOf(1)))
	assert.Empty(t, Clusters([]Sample{{red, 0}, {red, -1}}, 3, chanceOf(1)))
	assert.Empty(t, Clusters([]Sample{{red, 4}}, 0, chanceOf(1)))
	assert.Equal(t, []Cluster{{red, 4, 1}}, Clusters([]Sample{{red, 4}}, 8, chanceOf(1)))
	// of two as large the lighter comes first
	two := Clusters([]Sample{{hex(t, "#000000"), 4}, {hex(t, "#ffffff"), 4}}, 2, chanceOf(1))
	assert.Equal(t, "#ffffff", two[0].Colour.Hex())
}

func TestMeansRoundHalvesUp(t *testing.T) {
	assert.Equal(t, spot{2, -1, 1}, total{spot{3, -3, 1}, 2}.mean())
	assert.Equal(t, spot{1, -1, 0}, total{spot{4, -4, 1}, 3}.mean())
}
