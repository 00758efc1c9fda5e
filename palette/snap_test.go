package palette

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// everyAssignment is the least sum over all ways, -1 in the way meaning none is left.
func everyAssignment(wanted, shelf []Lab, taken []bool, free int) int64 {
	if len(wanted) == 0 {
		return 0
	}
	best := int64(1) << 60
	if free > 0 {
		best = without + everyAssignment(wanted[1:], shelf, taken, free-1)
	}
	for j, s := range shelf {
		if !taken[j] {
			taken[j] = true
			best = min(best, MicroE(wanted[0], s)+everyAssignment(wanted[1:], shelf, taken, free))
			taken[j] = false
		}
	}
	return best
}

func TestSnapIsTheLeastOfAllWays(t *testing.T) {
	chance := rand.New(rand.NewPCG(27, 28))
	for seed := range uint64(60) {
		wanted, shelf := randomShelf(seed, 1+chance.IntN(5)),
			randomShelf(seed+1000, 1+chance.IntN(6))
		var sum int64
		used := map[int]bool{}
		for i, j := range Snap(wanted, shelf) {
			if j == -1 {
				sum += without
				continue
			}
			assert.False(t, used[j], "no yarn twice")
			used[j] = true
			sum += MicroE(wanted[i], shelf[j])
		}
		assert.Equal(t, everyAssignment(wanted, shelf, make([]bool, len(shelf)),
			max(0, len(wanted)-len(shelf))), sum, "seed %d", seed)
	}
}

func TestSnapTakesTheNearestWhereNobodyElseWantsIt(t *testing.T) {
	shelf := randomShelf(3, 40)
	wanted := []Lab{shelf[31], shelf[7], shelf[19]}
	wanted[0].L += 0.5
	assert.Equal(t, []int{31, 7, 19}, Snap(wanted, shelf))
	// two want the first grey: the one that loses less gives way
	assert.Equal(t, []int{1, 0}, Snap([]Lab{{L: 58}, {L: 50}}, []Lab{{L: 52}, {L: 60}, {L: 90}}))
	assert.Equal(t, []int{-1, 0}, Snap([]Lab{{L: 90}, {L: 50}}, []Lab{{L: 52}}))
	assert.Equal(t, []int{-1}, Snap([]Lab{{L: 90}}, nil))
	assert.Empty(t, Snap(nil, shelf))
}
