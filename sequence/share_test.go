package sequence

import (
	"encoding/csv"
	"errors"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// table reads a CSV of testdata, its comment lines passed over; the first row
// is the heading.
func table(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(rows), 1)
	return rows[1:]
}

func number(t *testing.T, text string) int64 {
	t.Helper()
	n, err := strconv.ParseInt(text, 10, 64)
	require.NoError(t, err)
	return n
}

// TestApportionment holds Share against published seats (sources in
// testdata/apportionment.csv): the houses of 1880 with the Alabama paradox and
// their minimum of one seat, Hamilton's bill of 1792 (M. L. Balinski and H. P. Young,
// "Fair Representation", 1982; figures from memory), and a textbook's example
// with no minimum, where the last party gets nothing (from memory).
func TestApportionment(t *testing.T) {
	type house struct {
		weights []int64
		seats   []int
		size    int
	}
	var names []string
	houses := make(map[string]*house)
	for _, row := range table(t, "apportionment.csv") {
		key := row[0] + " " + row[1]
		if houses[key] == nil {
			names = append(names, key)
			houses[key] = &house{size: int(number(t, row[1]))}
		}
		h := houses[key]
		h.weights = append(h.weights, number(t, row[3]))
		h.seats = append(h.seats, int(number(t, row[4])))
	}
	require.Len(t, names, 5)
	for _, name := range names {
		h := houses[name]
		got, err := share(h.weights, h.size, strings.HasPrefix(name, "hare"))
		require.NoError(t, err, name)
		assert.Equal(t, h.seats, got, name)
	}
}

// share lets the textbook's party go empty, which no stripe may: every party
// is given one seat too many, and a seat's worth of votes with it.
func share(weights []int64, n int, noMinimum bool) ([]int, error) {
	if !noMinimum {
		return Share(weights, n, Limits{})
	}
	var sum int64
	for _, w := range weights {
		sum += w
	}
	more := make([]int64, len(weights))
	for i, w := range weights {
		more[i] = w*int64(n) + sum // t_i + 1, in units of 1/sum
	}
	got, err := Share(more, n+len(weights), Limits{})
	for i := range got {
		got[i]--
	}
	return got, err
}

// miss is the squared distance of a split from the exact shares, times the
// square of the weights' sum.
func miss(weights []int64, split []int, n int) int64 {
	var sum, miss int64
	for _, w := range weights {
		sum += w
	}
	for i, w := range weights {
		d := int64(split[i])*sum - int64(n)*w
		miss += d * d
	}
	return miss
}

// splits calls visit with every split of n that keeps the limits.
func splits(k, n int, limits Limits, split []int, visit func([]int)) {
	if k == 0 {
		if n == 0 {
			visit(split)
		}
		return
	}
	for v := limits.least(); v <= min(n, limits.most(len(split))); v++ {
		splits(k-1, n-v, limits, append(split, v), visit)
	}
}

// TestShareIsBest tries every split of small cases by brute force: none is
// closer, sums are exact, and of equal ones the earlier stripe has the unit.
func TestShareIsBest(t *testing.T) {
	chance := rand.New(rand.NewPCG(1, 1))
	for range 400 {
		k := 1 + chance.IntN(5)
		n := k + chance.IntN(14)
		weights := make([]int64, k)
		limits := Limits{Most: make([]int, k)}
		room := 0
		for i := range weights {
			weights[i] = 1 + chance.Int64N(9)
			limits.Most[i] = 1 + chance.IntN(9)
			room += limits.Most[i]
		}
		if chance.IntN(2) == 0 || room < n {
			limits.Most = nil
		}
		got, err := Share(weights, n, limits)
		require.NoError(t, err)
		best := append([]int{}, got...)
		splits(k, n, limits, nil, func(s []int) {
			a, b := miss(weights, s, n), miss(weights, best, n)
			if a < b || (a == b && later(best, s)) {
				best = append([]int{}, s...)
			}
		})
		assert.Equal(t, best, got, "%v into %d, at most %v", weights, n, limits.Most)
	}
}

// later tells whether b gives an earlier stripe the unit that a gives a later.
func later(a, b []int) bool {
	for i := range a {
		if a[i] != b[i] {
			return b[i] > a[i]
		}
	}
	return false
}

// TestShareMirroredIsBest tries every mirror image by brute force.
func TestShareMirroredIsBest(t *testing.T) {
	chance := rand.New(rand.NewPCG(2, 1))
	for range 400 {
		k := 1 + chance.IntN(4)
		n := 2*k + chance.IntN(20)
		weights := make([]int64, k)
		for i := range weights {
			weights[i] = 1 + chance.Int64N(9)
		}
		got, err := ShareMirrored(weights, n, Limits{})
		require.NoError(t, err)
		all := Mirror(weights)
		var best []int
		splits(2*k-1, n, Limits{}, nil, func(s []int) {
			for i := range s {
				if s[i] != s[len(s)-1-i] {
					return
				}
			}
			if best == nil {
				best = append([]int{}, s...)
			}
			a, b := miss(all, s, n), miss(all, best, n)
			if a < b ||
				(a == b && (s[k-1] < best[k-1] || (s[k-1] == best[k-1] && later(best, s)))) {
				best = append([]int{}, s...)
			}
		})
		assert.Equal(t, best, got, "%v into %d", weights, n)
	}
}

// TestWorkedShares was worked out by hand: 250 units in 8 5 3 2 1 1, whose sum
// is 20, are 100, 62.5, 37.5, 25, 12.5, 12.5; the two units left over go to the
// earlier of the halves. The mirrored 2 1 3 1 2 of 102 units, sum 9, is 22.67,
// 11.33, 34: the centre is even, and 23 11 34 11 23 is closest.
func TestWorkedShares(t *testing.T) {
	got, err := Share([]int64{8, 5, 3, 2, 1, 1}, 250, Limits{})
	require.NoError(t, err)
	assert.Equal(t, []int{100, 63, 38, 25, 12, 12}, got)
	got, err = ShareMirrored([]int64{2, 1, 3}, 102, Limits{})
	require.NoError(t, err)
	assert.Equal(t, []int{23, 11, 34, 11, 23}, got)
}

func TestShareRefuses(t *testing.T) {
	_, err := Share([]int64{1, 1, 1}, 2, Limits{})
	var many *TooManyError
	require.True(t, errors.As(err, &many))
	assert.Equal(t, TooManyError{Stripes: 3, Units: 2, Fit: 2}, *many)
	assert.EqualError(t, err, "3 stripes do not fit in 2 units: at most 2 would")
	_, err = ShareMirrored([]int64{1, 1, 1}, 4, Limits{})
	require.True(t, errors.As(err, &many))
	assert.Equal(t, 3, many.Fit, "1 2 1 fits")
	_, err = ShareMirrored([]int64{1, 1}, 0, Limits{})
	require.True(t, errors.As(err, &many))
	assert.Equal(t, 0, many.Fit)
	_, err = Share([]int64{1, 1}, 9, Limits{Most: []int{4, 4}})
	var wide *TooWideError
	require.True(t, errors.As(err, &wide))
	assert.EqualError(t, err, "9 units do not fit: stripes as wide as they may be hold 8")
	_, err = ShareMirrored([]int64{1, 1}, 10, Limits{Most: []int{3, 3, 4}})
	require.True(t, errors.As(err, &wide),
		"the tighter twin counts and the centre takes the parity")
	_, err = ShareMirrored([]int64{1, 1}, 8, Limits{Most: []int{4, 1, 4}})
	require.True(t, errors.As(err, &wide), "an even centre has two at least")
	got, err := ShareMirrored([]int64{1, 9}, 9, Limits{Most: []int{4, 3, 4}})
	require.NoError(t, err)
	assert.Equal(t, []int{3, 3, 3}, got)
	for _, weights := range [][]int64{nil, {1, 0}, {1, -3}, {1 << 61}, {1 << 60, 1}} {
		_, err = Share(weights, 5, Limits{})
		assert.Error(t, err)
		_, err = ShareMirrored(weights, 5, Limits{})
		assert.Error(t, err)
	}
}

func BenchmarkShare(b *testing.B) {
	for _, n := range []int{100, 1000} {
		weights := make([]int64, n/10)
		for i := range weights {
			weights[i] = int64(1 + i*7%11)
		}
		b.Run(strconv.Itoa(n), func(b *testing.B) {
			for b.Loop() {
				_, _ = Share(weights, n, Limits{})
			}
		})
	}
}
