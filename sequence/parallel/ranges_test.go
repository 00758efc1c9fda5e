package parallel

import (
	"context"
	"runtime"
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

func TestEveryNumberOnce(t *testing.T) {
	processors(t, 4)
	for _, n := range []int{0, 1, 6, 7, 8, 100} {
		seen := make([]int, n)
		err := Ranges(context.Background(), n, 7, func(from, to int) {
			for i := from; i < to; i++ {
				seen[i]++
			}
			assert.Zero(t, from%7)
			assert.True(t, to == from+7 || to == n, "%d to %d of %d", from, to, n)
		})
		require.NoError(t, err)
		for i := range seen {
			assert.Equal(t, 1, seen[i], "%d of %d", i, n)
		}
	}
}

// With two processors, two ranges that wait for each other come to an end.
func TestSeveralAtATime(t *testing.T) {
	processors(t, 2)
	here, there := make(chan int), make(chan int)
	err := Ranges(context.Background(), 2, 1, func(from, _ int) {
		if from == 0 {
			here <- 1
			<-there
			return
		}
		<-here
		there <- 1
	})
	require.NoError(t, err)
}

func TestStops(t *testing.T) {
	for _, n := range []int{1, 4} {
		processors(t, n)
		ctx, stop := context.WithCancel(context.Background())
		var begun atomic.Int64
		err := Ranges(ctx, 1000, 1, func(_, _ int) {
			if begun.Add(1) == 10 {
				stop()
			}
		})
		assert.ErrorIs(t, err, context.Canceled)
		assert.Less(t, begun.Load(), int64(10+n))
		assert.ErrorIs(t, Ranges(ctx, 1, 1, func(_, _ int) { t.Error("begun") }), context.Canceled)
	}
}

func TestPanicsArePassedOn(t *testing.T) {
	processors(t, 2)
	assert.PanicsWithValue(t, "torn", func() {
		_ = Ranges(context.Background(), 100, 1, func(from, _ int) {
			if from == 20 {
				panic("torn")
			}
		})
	})
}
