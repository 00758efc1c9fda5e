package choose

import (
	"context"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// processors runs a test with so many of them.
func processors(t *testing.T, n int) {
	before := runtime.GOMAXPROCS(n)
	t.Cleanup(func() { runtime.GOMAXPROCS(before) })
}

// TestSameOnAnyProcessors: what is chosen, and what is said of it, does not hang on
// how many processors there are.
func TestSameOnAnyProcessors(t *testing.T) {
	for _, c := range []struct {
		name    string
		fixed   int
		limited bool
	}{{"free", 0, false}, {"beside others", 3, false}, {"limited", 1, true}} {
		t.Run(c.name, func(t *testing.T) {
			p := points(rand.New(rand.NewPCG(7, 7)), quickly+closely+1, c.fixed, 3)
			if c.limited {
				p.limit(rand.New(rand.NewPCG(7, 8)), 5, 3, 12)
			}
			processors(t, 1)
			want, err := p.Best(context.Background(), 5)
			require.NoError(t, err)
			order, err := p.Spread(context.Background(), 5)
			require.NoError(t, err)
			for _, n := range []int{2, 5} {
				processors(t, n)
				got, err := p.Best(context.Background(), 5)
				require.NoError(t, err)
				assert.Equal(t, want, got, "%d processors", n)
				again, err := p.Spread(context.Background(), 5)
				require.NoError(t, err)
				assert.Equal(t, order, again, "%d processors", n)
			}
		})
	}
}

// TestSeveralProcessorsMeasure: with two of them, two differences are measured at a
// time: the first waits until another has been begun.
func TestSeveralProcessorsMeasure(t *testing.T) {
	processors(t, 2)
	p := points(rand.New(rand.NewPCG(7, 7)), 4*closely, 0, 2)
	between, begun := p.Between, atomic.Int64{}
	p.Between = func(a, b int) int64 {
		if begun.Add(1) == 1 {
			for tries := 0; begun.Load() == 1 && tries < 1_000_000; tries++ {
				runtime.Gosched()
			}
			assert.Greater(t, begun.Load(), int64(1))
		}
		return between(a, b)
	}
	_, err := p.Best(context.Background(), 1)
	require.NoError(t, err)
}

// asked is a context that remembers how many differences had been measured when
// it was asked last, and ends when it has been asked so often.
type asked struct {
	context.Context
	measured *int
	last     int
	most     int // measured between two questions
	left     int
}

func (a *asked) Err() error {
	a.most = max(a.most, *a.measured-a.last)
	a.last = *a.measured
	if a.left--; a.left < 0 {
		return context.Canceled
	}
	return nil
}

// TestAsksOften: whenever the search is stopped, it stops before long.
func TestAsksOften(t *testing.T) {
	processors(t, 1)
	p := points(rand.New(rand.NewPCG(7, 7)), 2*closely, 1, 2)
	p.limit(rand.New(rand.NewPCG(7, 8)), 5, 3, 12)
	between, measured := p.Between, 0
	p.Between = func(a, b int) int64 {
		measured++
		return between(a, b)
	}
	for stop := 0; ; stop += 1 + stop/4 {
		ctx := &asked{Context: context.Background(), measured: &measured, last: measured,
			left: stop}
		_, err := p.Best(ctx, 5)
		assert.LessOrEqual(t, max(ctx.most, measured-ctx.last), closely,
			"stopped at question %d", stop)
		if err == nil {
			break
		}
		require.ErrorIs(t, err, context.Canceled)
	}
}

// TestMeasureByChanges: what is known of places is the same, whether it was worked
// out anew or from what was known of other members.
func TestMeasureByChanges(t *testing.T) {
	chance := rand.New(rand.NewPCG(7, 9))
	p := points(chance, 200, 2, 3)
	h := newSearch(context.Background(), p, 0, p.families()[0])
	for range 300 {
		at := h.measured
		for range chance.IntN(min(4, len(at)+1)) { // some go
			at = without(at, chance.IntN(len(at)))
		}
		for _, a := range chance.Perm(p.Size)[:chance.IntN(4)] { // and some come
			if !slices.Contains(at, a) && len(at) < 15 {
				at = append(slices.Clone(at), a)
			}
		}
		h.measure(at)
		got := h.nearby
		fresh := newSearch(context.Background(), p, 0, p.families()[0])
		fresh.measure(at)
		for a := range got {
			assert.Equal(t, fresh.nearby[a].first, got[a].first)
			for _, m := range at {
				assert.Equal(t, fresh.nearby[a].but(m), got[a].but(m))
			}
		}
	}
}
