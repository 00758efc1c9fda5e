package palette

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

func randomShelf(seed uint64, n int) []Lab {
	chance := rand.New(rand.NewPCG(seed, 99))
	out := make([]Lab, n)
	for i := range out {
		out[i] = randomRGB(chance).Lab()
	}
	return out
}

// everyChoice is the greatest least difference of all choices of k.
func everyChoice(d table, k, from int, picked []int) int64 {
	if len(picked) == k {
		return d.least(picked)
	}
	best := int64(-1)
	for i := from; i < len(d); i++ {
		best = max(best, everyChoice(d, k, i+1, append(slices.Clone(picked), i)))
	}
	return best
}

func TestSpreadIsTheBestOfAllChoices(t *testing.T) {
	for seed := range uint64(12) {
		shelf := randomShelf(seed, 11)
		for k := 2; k <= 6; k++ {
			got := Spread(shelf, k)
			assert.True(t, got.Best())
			assert.Equal(t, everyChoice(differences(shelf), k, 0, nil), got.LeastMicro,
				"seed %d, %d of 11", seed, k)
			assert.Equal(t, got.LeastMicro, differences(shelf).least(got.Picked), "as promised")
			assertChoice(t, got, k, 11)
		}
	}
}

func assertChoice(t *testing.T, c Choice, k, n int) {
	t.Helper()
	assert.Len(t, c.Picked, k)
	assert.True(t, slices.IsSorted(c.Picked))
	assert.Len(t, slices.Compact(slices.Clone(c.Picked)), k, "no colour twice")
	for _, i := range c.Picked {
		assert.True(t, i >= 0 && i < n)
	}
	assert.InDelta(t, float64(c.LeastMicro)/1e6, c.LeastE00(), 1e-12)
	assert.InDelta(t, float64(c.BoundMicro)/1e6, c.BoundE00(), 1e-12)
	assert.GreaterOrEqual(t, c.BoundMicro, c.LeastMicro)
}

func TestSpreadOfAShelf(t *testing.T) {
	for _, k := range []int{2, 5, 8, 12, 20, 40, 59, 60} {
		got := Spread(randomShelf(4, 60), k)
		assert.True(t, got.Best(), "%d of 60: %v of %v", k, got.LeastE00(), got.BoundE00())
		assertChoice(t, got, k, 60)
	}
}

// Where the steps run out the bound stays honest and the swaps are not undone.
func TestSpreadBeyondItsSteps(t *testing.T) {
	d := differences(randomShelf(5, 40))
	exact := d.improve(d.choice(farthestFirst(d, 9)), 9, searchSteps)
	assert.True(t, exact.Best())
	start := d.choice(swapped(d, farthestFirst(d, 9)))
	short := d.improve(start, 9, 2)
	assert.GreaterOrEqual(t, short.LeastMicro, start.LeastMicro)
	assert.LessOrEqual(t, short.LeastMicro, exact.LeastMicro)
	assert.GreaterOrEqual(t, short.BoundMicro, exact.LeastMicro)
	assert.False(t, short.Best())
}

func TestSwapsOnlyImprove(t *testing.T) {
	for seed := range uint64(20) {
		d := differences(randomShelf(seed, 30))
		for _, k := range []int{2, 3, 7} {
			first := farthestFirst(d, k)
			assert.GreaterOrEqual(t, d.least(swapped(d, first)), d.least(first))
		}
	}
	// a poor start is mended: greys 0, 1, 2 of an even scale of five
	grey := differences([]Lab{{L: 0}, {L: 25}, {L: 50}, {L: 75}, {L: 100}})
	assert.Greater(t, grey.least(swapped(grey, []int{0, 1, 2})), grey.least([]int{0, 1, 2}))
}

func TestSpreadOfVeryFew(t *testing.T) {
	shelf := randomShelf(6, 3)
	assert.Empty(t, Spread(shelf, 0).Picked)
	assert.Empty(t, Spread(shelf, -1).Picked)
	assert.Empty(t, Spread(nil, 4).Picked)
	assert.Equal(t, []int{0, 1, 2}, Spread(shelf, 9).Picked)
	one := Spread(shelf, 1)
	assert.Len(t, one.Picked, 1)
	assert.Zero(t, one.LeastMicro)
	assert.True(t, one.Best())
	alike := Spread([]Lab{{L: 50}, {L: 50}, {L: 50}}, 2)
	assertChoice(t, alike, 2, 3)
	assert.Zero(t, alike.LeastMicro)
	assert.True(t, alike.Best())
}

func TestSetsPastOneWord(t *testing.T) {
	s := newSet(130)
	assert.Equal(t, -1, s.first())
	s.add(129)
	s.add(64)
	assert.Equal(t, 64, s.first())
	s.drop(64)
	assert.Equal(t, 129, s.first())
}

func BenchmarkSpread(b *testing.B) {
	shelf := randomShelf(4, 60)
	for b.Loop() {
		Spread(shelf, 12)
	}
}
