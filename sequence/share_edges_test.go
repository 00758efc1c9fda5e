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
	for _, r := range []Rhythm{{Kind: "even", Stripes: 1}, {Kind: "fibonacci", Terms: 1}, {Kind: "random", Stripes: 1, Narrowest: 1, Widest: 1}, {Kind: "euclid", Accents: 1, Of: 1}} {
		weights, _, err := r.Base(Chance(1, 1))
		require.NoError(t, err, r.Kind)
		assert.Len(t, weights, 1, r.Kind)
		_, _, err = Rhythm{Kind: r.Kind}.Base(Chance(1, 1))
		assert.ErrorContains(t, err, "must be from 1 to", r.Kind)
	}
}

// TestBoundsOfRhythms: just on a bound is allowed, one beyond it is not, and
// what is turned back counts both ways.
func TestBoundsOfRhythms(t *testing.T) {
	graded := func(ratio int64) Rhythm { return Rhythm{Kind: "graded", Stripes: 3, Ratio: big.NewRat(ratio, 1)} }
	for _, ratio := range []int64{1, 1000} {
		_, _, err := graded(ratio).Base(nil)
		assert.NoError(t, err, ratio)
	}
	for _, ratio := range []int64{0, 1001} {
		_, _, err := graded(ratio).Base(nil)
		assert.ErrorContains(t, err, "ratio must be from 1 to 1000")
	}
	half := MaxStripes / 2 // turned on the last, which is not repeated: one less than twice as many
	for _, turned := range []Rhythm{{Kind: "graded", Ratio: big.NewRat(2, 1), Direction: "out-and-back"}, {Kind: "graded", Ratio: big.NewRat(2, 1), Mirror: true}} {
		turned.Stripes = half
		_, mirrored, err := turned.Base(nil)
		assert.NoError(t, err)
		assert.True(t, mirrored)
		turned.Stripes = half + 1
		_, _, err = turned.Base(nil)
		assert.Error(t, err)
	}
	_, _, err := Rhythm{Kind: "fibonacci", Terms: 3, From: 4}.Base(nil)
	assert.ErrorContains(t, err, "from = 4 is not a Fibonacci number: the nearest are 3 and 5")
}
