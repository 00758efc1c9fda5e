package sequence

import (
	"errors"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// FuzzRhythm takes any numbers for a rhythm's keys and any number of units. A
// rhythm that is read is shared out to the last unit, no stripe further from its
// exact share than whole units force it to be, and mirror images stay that.
func FuzzRhythm(f *testing.F) {
	for i := range Kinds {
		f.Add(uint8(i), 5, 3, 8, int64(7), true, 100)
		f.Add(uint8(i), 1000, 1, 1_000_000, int64(-1), false, 10_000)
		f.Add(uint8(i+8), 30, 1000, 2, int64(1<<53), true, 1)
		f.Add(uint8(i+16), 0, -1, 1<<30, int64(0), false, 0)
	}
	f.Fuzz(func(t *testing.T, kind uint8, a, b, c int, seed int64, mirror bool, n int) {
		r := Rhythm{Kind: Kinds[int(kind)%len(Kinds)](), Mirror: mirror}
		for i, p := range r.Spec().Parameters {
			n := []int{a, b, c}[i%3]
			switch at := p.Value.(type) {
			case *int:
				*at = n
			case *string:
				*at = append(p.Words, "", "sideways")[int(kind>>3)%(len(p.Words)+2)]
			case *[]*big.Rat:
				*at = []*big.Rat{big.NewRat(int64(a), 1), big.NewRat(int64(b), 7),
					big.NewRat(int64(c), 1000)}
			case **big.Rat:
				if c != 0 {
					*at = big.NewRat(int64(b), int64(c))
				}
			}
		}
		weights, mirrored, err := r.Base(Chance(seed, 1))
		if err != nil {
			require.NotContains(t, err.Error(), "\n")
			return
		}
		again, _, _ := r.Base(Chance(seed, 1))
		require.Equal(t, weights, again, "the same seed, the same rhythm")
		require.NotEmpty(t, weights)
		for _, w := range weights {
			require.Positive(t, w)
		}
		shared(t, weights, mirrored, n)
	})
}

func shared(t *testing.T, weights []int64, mirrored bool, n int) {
	t.Helper()
	n = min(max(n, -1), 10_000)
	share, all := Share, weights
	if mirrored {
		share, all = ShareMirrored, Mirror(weights)
	}
	require.LessOrEqual(t, len(all), MaxStripes)
	units, err := share(weights, n, Limits{})
	if err != nil {
		var many *TooManyError
		require.True(t, errors.As(err, &many) || strings.Contains(err.Error(), "finely"), "%v", err)
		return
	}
	require.Len(t, units, len(all))
	require.Equal(t, n, sumOf(units), "to the last unit")
	binds := slices.Min(units) == 1
	for i, u := range units {
		require.Positive(t, u)
		require.True(t, !mirrored || u == units[len(units)-1-i])
		if !binds && !mirrored {
			apart := new(big.Rat).Sub(exactShare(all, n, i), big.NewRat(int64(u), 1))
			require.Negative(t, apart.Abs(apart).Cmp(big.NewRat(1, 1)), "stripe %d", i)
		}
	}
}

func sumOf(units []int) int {
	sum := 0
	for _, u := range units {
		sum += u
	}
	return sum
}

func exactShare(weights []int64, n, i int) *big.Rat {
	sum := new(big.Int)
	for _, w := range weights {
		sum.Add(sum, big.NewInt(w))
	}
	part := new(big.Int).Mul(big.NewInt(weights[i]), big.NewInt(int64(n)))
	return new(big.Rat).SetFrac(part, sum)
}
