package choose

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// points are random points in so many dimensions, where the sum of
// the differences of coordinates obeys the triangle inequality.
func points(chance *rand.Rand, n, fixed, dimensions int) *Candidates {
	at := make([][]int64, n+fixed)
	for i := range at {
		for range dimensions {
			at[i] = append(at[i], chance.Int64N(1_000_000))
		}
	}
	return &Candidates{Size: n, Fixed: fixed, Between: func(a, b int) int64 {
		var sum int64
		for i, x := range at[a] {
			sum += max(x-at[b][i], at[b][i]-x)
		}
		return sum
	}}
}

// matrix is candidates whose differences obey nothing.
func matrix(chance *rand.Rand, n, fixed int) *Candidates {
	d := make([][]int64, n+fixed)
	for i := range d {
		d[i] = make([]int64, n+fixed)
		for j := range i {
			d[i][j] = 1 + chance.Int64N(1_000_000)
			d[j][i] = d[i][j]
		}
	}
	return &Candidates{Size: n, Fixed: fixed, Between: func(a, b int) int64 { return d[a][b] },
		Bend: 1 << 40}
}

func (p *Candidates) least(members []int) int64 {
	least := int64(Apart)
	for i, a := range members {
		for _, b := range members[:i] {
			least = min(least, p.Between(a, b))
		}
		for f := range p.Fixed {
			least = min(least, p.Between(a, p.Size+f))
		}
	}
	return least
}

func (p *Candidates) fits(members []int) bool {
	for i, room := range p.Room {
		for _, a := range members {
			room -= p.Needs[a][i]
		}
		if room < 0 {
			return false
		}
	}
	return true
}

// exhaust tries every choice of k; -1 where none fits.
func (p *Candidates) exhaust(k int) int64 {
	best := int64(-1)
	var try func(members []int, from int)
	try = func(members []int, from int) {
		if len(members) == k {
			if p.fits(members) {
				best = max(best, p.least(members))
			}
			return
		}
		for a := from; a < p.Size; a++ {
			try(append(members, a), a+1)
		}
	}
	try(nil, 0)
	return best
}

func (p *Candidates) limit(chance *rand.Rand, k, things, total int) {
	for range p.Size {
		needs := make([]int64, things)
		for range total {
			needs[chance.IntN(things)]++
		}
		p.Needs = append(p.Needs, needs)
	}
	for range things {
		p.Room = append(p.Room, int64(k*total/things)+chance.Int64N(int64(total)))
	}
}

func instances(n int, each func(i int, p *Candidates, k int)) {
	for i := range n {
		chance := rand.New(rand.NewPCG(3, uint64(i)))
		size, fixed, k := 8+chance.IntN(9), chance.IntN(3), 2+chance.IntN(4)
		p := points(chance, size, fixed, 1+chance.IntN(5))
		if i%4 == 3 {
			p = matrix(chance, size, fixed)
		}
		if i%2 == 1 {
			p.limit(chance, k, 3, 12)
		}
		each(i, p, k)
	}
}

// TestBestOfEveryChoice holds the search against every choice there is: on 200 random
// choices, half of them with limits, a quarter with differences that obey no
// triangle inequality.
func TestBestOfEveryChoice(t *testing.T) {
	equal, found := 0, 0
	instances(200, func(i int, p *Candidates, k int) {
		best := p.exhaust(k)
		r, err := p.Best(context.Background(), k)
		require.NoError(t, err)
		if best < 0 {
			assert.NotNil(t, r.Lack, "instance %d: proposed what there is no room for", i)
			return
		}
		require.Nil(t, r.Lack, "instance %d: overlooked the choices that fit", i)
		require.True(t, p.fits(r.Members))
		require.Equal(t, p.least(r.Members), r.Least)
		assert.GreaterOrEqual(t, r.Bound, best, "instance %d: no bound", i)
		assert.GreaterOrEqual(t, float64(r.Least), 0.95*float64(best), "instance %d", i)
		if found++; r.Least == best {
			equal++
		}
	})
	t.Logf("equal to the best on %d of %d", equal, found)
	assert.Greater(t, float64(equal), 0.8*float64(found))
}

// TestFarthestFirstIsAtLeastHalfTheBest holds farthest first against its published bound: no less
// than half the best (T. F. Gonzalez, "Clustering to minimize the maximum intercluster
// distance", Theoretical Computer Science 38, 1985, theorem 2.2, from memory), where the triangle
// inequality holds.
func TestFarthestFirstIsAtLeastHalfTheBest(t *testing.T) {
	for i := range 100 {
		chance := rand.New(rand.NewPCG(9, uint64(i)))
		k := 2 + chance.IntN(4)
		p := points(chance, 8+chance.IntN(9), 0, 1+chance.IntN(4))
		first, err := p.Spread(context.Background(), k)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, 2*p.least(first), p.exhaust(k), "instance %d", i)
	}
}

// TestBoundOfMany holds the bound against every choice where candidates are
// too many to be looked at one by one in it.
func TestBoundOfMany(t *testing.T) {
	for i := range 12 {
		chance := rand.New(rand.NewPCG(5, uint64(i)))
		p := points(chance, 100, i%3, 2+i%6)
		best := p.exhaust(3)
		r, err := p.Best(context.Background(), 3)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, r.Bound, best, "instance %d", i)
		assert.GreaterOrEqual(t, float64(r.Least), 0.9*float64(best), "instance %d", i)
	}
}

// TestOneMore: a set of n+1 holds the members of the set of n, in their places,
// wherever one that does so is near the best.
func TestOneMore(t *testing.T) {
	for i := range 40 {
		p := points(rand.New(rand.NewPCG(11, uint64(i))), 14, i%3, 3)
		before := []int{}
		for k := 1; k <= 5; k++ {
			r, err := p.Best(context.Background(), k)
			require.NoError(t, err)
			keeping := int64(-1)
			for c := range p.Size {
				if !slices.Contains(before, c) {
					keeping = max(keeping, p.least(append(slices.Clone(before), c)))
				}
			}
			if keeping*20 >= p.exhaust(k)*20-p.exhaust(k) {
				assert.Equal(t, before, r.Members[:k-1], "instance %d, %d members", i, k)
			}
			before = r.Members
		}
	}
}

func TestFamilies(t *testing.T) {
	p := points(rand.New(rand.NewPCG(2, 2)), 12, 0, 2)
	p.Families = [][]int{{0, 1, 2, 3}, {4, 5, 6, 7, 8, 9}, {10, 11}}
	r, err := p.Best(context.Background(), 3)
	require.NoError(t, err)
	for _, c := range r.Members {
		assert.Contains(t, p.Families[r.Family], c)
	}
	_, err = p.Best(context.Background(), 7)
	assert.ErrorIs(t, err, ErrFew)
}

func TestStopped(t *testing.T) {
	for after := range 200 { // stopped sooner or later
		ctx, stop := context.WithCancel(context.Background())
		p := points(rand.New(rand.NewPCG(2, 2)), 90, after%2, 2)
		between, asked := p.Between, 0
		p.Between = func(a, b int) int64 {
			if asked++; asked > 40*after {
				stop()
			}
			return between(a, b)
		}
		_, err := p.Best(ctx, 4)
		if stop(); asked > 40*after {
			assert.ErrorIs(t, err, context.Canceled)
		}
	}
}

func BenchmarkEight(b *testing.B) {
	for _, n := range []int{2500, 5000, 10000, 20000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := points(rand.New(rand.NewPCG(1, 1)), n, 0, 12)
			for b.Loop() {
				_, err := p.Best(context.Background(), 8)
				require.NoError(b, err)
			}
		})
	}
}
