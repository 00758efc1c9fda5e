package sequence

import (
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
