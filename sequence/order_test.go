package sequence

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func assign(t *testing.T, o Order, widths ...int64) []int {
	t.Helper()
	got, err := o.Assign(widths, Chance(3, 4))
	require.NoError(t, err)
	require.Len(t, got, len(widths))
	return got
}

func TestTurns(t *testing.T) {
	assert.Equal(t, []int{0, 1, 2, 0, 1}, assign(t, Order{Kind: "cycle", Count: 3}, 1, 1, 1, 1, 1))
	assert.Equal(t, []int{2, 0, 1, 2},
		assign(t, Order{Kind: "graded", Count: 3, Light: []int{2, 0, 1}}, 1, 1, 1, 1))
	assert.Equal(t, []int{1, 2, 0, 1},
		assign(t, Order{Kind: "hue", Count: 3, Hue: []int{1, 2, 0}}, 1, 1, 1, 1))
	for _, kind := range OrderKinds {
		assert.Equal(t, []int{0, 0},
			assign(t, Order{Kind: kind, Count: 1, Light: []int{0}, Hue: []int{0},
				Shares: []int64{5}}, 1, 2), kind)
	}
}

func unlike(t *testing.T, colours []int) {
	t.Helper()
	for i := 1; i < len(colours); i++ {
		assert.NotEqual(t, colours[i-1], colours[i])
	}
}

// TestShuffle: of 42 stripes in four colours each has 10 or 11.
func TestShuffle(t *testing.T) {
	for seed := range int64(50) {
		got, err := Order{Kind: "shuffle", Count: 4}.Assign(make([]int64, 42), Chance(seed, 1))
		require.NoError(t, err)
		unlike(t, got)
		count := [4]int{}
		for _, c := range got {
			count[c]++
		}
		for _, n := range count {
			assert.InDelta(t, 10.5, n, 0.6, "all come about equally often")
		}
	}
}

// sharesMiss is what byShares makes least.
func sharesMiss(shares, widths []int64, colours []int) int64 {
	held := make([]int64, len(shares))
	var all, sum, miss int64
	for i, c := range colours {
		held[c] += widths[i]
		all += widths[i]
	}
	for _, s := range shares {
		sum += s
	}
	for c := range held {
		d := held[c]*sum - shares[c]*all
		miss += d * d
	}
	return miss
}

// TestSharesAreBest tries every colouring with neighbours unlike by brute
// force: none comes closer to the shares.
func TestSharesAreBest(t *testing.T) {
	chance := Chance(5, 5)
	for round := range 60 {
		n, k := 2+chance.IntN(6), 2+chance.IntN(2)
		widths, shares := make([]int64, n), make([]int64, k)
		for i := range widths {
			widths[i] = 1 + chance.Int64N(9)
		}
		for i := range shares {
			shares[i] = 1 + chance.Int64N(5)
		}
		got, err := Order{Kind: "shares", Count: k, Shares: shares}.Assign(widths,
			Chance(int64(round), 1))
		require.NoError(t, err)
		unlike(t, got)
		least := sharesMiss(shares, widths, got)
		var try func([]int)
		try = func(c []int) {
			if len(c) == n {
				assert.GreaterOrEqual(t, sharesMiss(shares, widths, c), least)
				return
			}
			for next := range k {
				if len(c) == 0 || c[len(c)-1] != next {
					try(append(append([]int{}, c...), next))
				}
			}
		}
		try(nil)
	}
}

// TestSharesOfMany stays near the shares, 5 of 11 for the first colour, where not every way
// can be kept.
func TestSharesOfMany(t *testing.T) {
	widths := make([]int64, 120)
	for i := range widths {
		widths[i] = 3 + int64(i*i%17)
	}
	shares := []int64{5, 3, 2, 1}
	got := assign(t, Order{Kind: "shares", Count: 4, Shares: shares}, widths...)
	unlike(t, got)
	var all, held int64
	for i, c := range got {
		all += widths[i]
		if c == 0 {
			held += widths[i]
		}
	}
	assert.InDelta(t, 5.0/11, float64(held)/float64(all), 0.01)
}

func TestOrderRefuses(t *testing.T) {
	for _, o := range []Order{{}, {Kind: "cycle"}, {Kind: "circle", Count: 2},
		{Kind: "shares", Count: 2, Shares: []int64{1}},
		{Kind: "shares", Count: 2, Shares: []int64{1, 0}}} {
		_, err := o.Assign([]int64{1}, Chance(1, 1))
		assert.Error(t, err)
	}
}

func TestStripes(t *testing.T) {
	assert.Equal(t, []Band{{0, 5, 3}, {1, 6, 1}, {0, 5, 2}},
		Stripes([]int{3, 1, 2}, []int{5, 6, 5}, 2, false))
	assert.Equal(t, []Band{{0, 1, 1}, {1, 1, 1}, {2, 1, 1}, {1, 1, 1}, {0, 1, 1}},
		Stripes([]int{1, 1, 1, 1, 1}, []int{1, 1, 1, 1, 1}, 3, true),
		"blocks turn with the stripes")
}

// TestOverlay was drawn by hand: stripes 4 2 4 of colours 0 1 0 under blocks
// A 3, B 4, A 3.
func TestOverlay(t *testing.T) {
	assert.Equal(t, []Band{{0, 0, 3}, {1, 0, 1}, {1, 1, 2}, {1, 0, 1}, {0, 0, 3}},
		Overlay([]int{4, 2, 4}, []int{0, 1, 0}, []int{3, 4, 3}, []int{0, 1, 0}))
	assert.Equal(t, []Band{{0, 0, 6}}, Overlay([]int{2, 4}, []int{0, 0}, []int{3, 3}, []int{0, 0}),
		"alike in both is one band")
}
