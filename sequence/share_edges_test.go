package sequence

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRefusalsTellTheNumbers: what does not fit is told with what would.
func TestRefusalsTellTheNumbers(t *testing.T) {
	_, err := ShareMirrored([]int64{1, 1, 1}, 4, Limits{})
	assert.Equal(t, &TooManyError{Stripes: 5, Units: 4, Fit: 3}, err)
	_, err = ShareMirrored([]int64{1, 1}, 8, Limits{Most: []int{2, 2, 2}})
	assert.Equal(t, &TooWideError{Units: 8, Room: 6}, err)
	_, err = ShareMirrored([]int64{1}, 6, Limits{Most: []int{1}})
	assert.Equal(t, &TooWideError{Units: 6, Room: 1}, err)
}

// TestTwinsShareTheTighterMaximum: of a stripe and its mirror image.
func TestTwinsShareTheTighterMaximum(t *testing.T) {
	got, err := ShareMirrored([]int64{5, 1}, 9, Limits{Most: []int{4, 0, 2}})
	require.NoError(t, err)
	assert.Equal(t, []int{2, 5, 2}, got)
}

// TestLeastOfEachKind: one stripe is a rhythm, none is not.
func TestLeastOfEachKind(t *testing.T) {
	for _, kind := range []Kind{
		&Even{1}, &Fibonacci{1, 1, rising}, &Random{1, 1, 1}, &Euclid{1, 1},
	} {
		assert.Len(t, base(t, kind), 1, kind.Spec().Name)
		_, _, err := Rhythm{Kind: NewKind(kind.Spec().Name)}.Base(Chance(1, 1))
		assert.ErrorContains(t, err, "must be from 1 to", kind.Spec().Name)
	}
}

// TestBoundsOfRhythms: just on a bound is allowed, one beyond it is not, and
// what is turned back counts both ways.
func TestBoundsOfRhythms(t *testing.T) {
	graded := func(stripes int, ratio int64, direction string) Rhythm {
		return Rhythm{Kind: &Graded{stripes, big.NewRat(ratio, 1), equal, direction}}
	}
	for _, ratio := range []int64{1, 1000} {
		_, _, err := graded(3, ratio, rising).Base(nil)
		assert.NoError(t, err, ratio)
	}
	for _, ratio := range []int64{0, 1001} {
		_, _, err := graded(3, ratio, rising).Base(nil)
		assert.ErrorContains(t, err, "ratio must be from 1 to 1000")
	}
	// turned on the last, which is not repeated: one less than twice as many
	for stripes, good := range map[int]bool{500: true, 501: false} {
		mirrored := graded(stripes, 2, rising)
		mirrored.Mirror = true
		for _, r := range []Rhythm{graded(stripes, 2, outAndBack), mirrored} {
			_, turned, err := r.Base(nil)
			assert.Equal(t, good, err == nil)
			assert.True(t, turned)
		}
	}
}
