package choose

import (
	"context"
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// points is a pool of random points in so many dimensions, where the sum of
// the differences of coordinates obeys the triangle inequality.
func points(chance *rand.Rand, n, fixed, dimensions int) *Pool {
	at := make([][]int64, n+fixed)
	for i := range at {
		for range dimensions {
			at[i] = append(at[i], chance.Int64N(1_000_000))
		}
	}
	return &Pool{Size: n, Fixed: fixed, Between: func(a, b int) int64 {
		var sum int64
		for i, x := range at[a] {
			sum += max(x-at[b][i], at[b][i]-x)
		}
		return sum
	}}
}

// matrix is a pool whose differences obey nothing.
func matrix(chance *rand.Rand, n, fixed int) *Pool {
	d := make([][]int64, n+fixed)
	for i := range d {
		d[i] = make([]int64, n+fixed)
		for j := range i {
			d[i][j] = 1 + chance.Int64N(1_000_000)
			d[j][i] = d[i][j]
		}
	}
	return &Pool{Size: n, Fixed: fixed, Between: func(a, b int) int64 { return d[a][b] }, Bend: 1 << 40}
}

func (p *Pool) least(members []int) int64 {
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

func (p *Pool) fits(members []int) bool {
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
func (p *Pool) exhaust(k int) int64 {
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

func (p *Pool) limit(chance *rand.Rand, k, things, total int) {
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

func instances(n int, each func(i int, p *Pool, k int)) {
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

// TestExhaustive holds the search against every choice there is: on 200 random
// pools, half of them with limits, a quarter with differences that obey no
// triangle inequality.
func TestExhaustive(t *testing.T) {
	equal, found := 0, 0
	instances(200, func(i int, p *Pool, k int) {
		best := p.exhaust(k)
		r, err := p.Best(context.Background(), k, nil)
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
	assert.Greater(t, float64(equal), 0.9*float64(found))
}

// TestExchangeAlone is the same for farthest first and exchange, without what
// looks at small pools outright.
func TestExchangeAlone(t *testing.T) {
	equal, near, found, missed := 0, 0, 0, 0
	instances(200, func(_ int, p *Pool, k int) {
		best := p.exhaust(k)
		if best < 0 {
			return
		}
		h := newHunt(context.Background(), p, 0, p.families()[0])
		var s set
		for range k {
			way := h.climb(h.weigh(append(slices.Clone(s.at), h.farthest(s.at))))
			s = way[len(way)-1]
		}
		if s.over > 0 {
			missed++
			return
		}
		found++
		if s.least == best {
			equal++
		}
		if float64(s.least) >= 0.95*float64(best) {
			near++
		}
	})
	t.Logf("equal %d, at least 0.95 %d of %d, missed %d", equal, near, found, missed)
}

func TestMiddling(t *testing.T) {
	equal, near := 0, 0
	worst := 1.0
	for i := range 60 {
		chance := rand.New(rand.NewPCG(5, uint64(i)))
		k := 3 + i%2
		p := points(chance, 130-40*(i%2), i%3, 2+i%6)
		if i%4 >= 2 {
			p.limit(chance, k, 3, 12)
		}
		best := p.exhaust(k)
		r, err := p.Best(context.Background(), k, nil)
		require.NoError(t, err)
		q := float64(r.Least) / float64(best)
		worst = min(worst, q)
		if r.Least == best {
			equal++
		}
		if q >= .95 {
			near++
		}
		assert.GreaterOrEqual(t, r.Bound, best)
	}
	t.Log(equal, near, worst)
}

func BenchmarkEight(b *testing.B) {
	for _, n := range []int{2500, 5000, 10000, 20000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := points(rand.New(rand.NewPCG(1, 1)), n, 0, 12)
			for b.Loop() {
				start := time.Now()
				r, err := p.Best(context.Background(), 8, nil)
				require.NoError(b, err)
				b.Log(n, r.Least, r.Bound, float64(r.Bound)/float64(r.Least), r.Leasts, time.Since(start))
			}
		})
	}
}
