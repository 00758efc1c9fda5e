package remedy

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAllThatAreAlike: three pieces of one rule and colour are set apart at once; where the
// shelf has too few colours for that, a way out says that it only lessens it. Six even
// stripes read the same from the other end, so that another first block sets nothing apart.
func TestAllThatAreAlike(t *testing.T) {
	three := changed(t, five, `board = "4.5 yd"`, `board = "9 yd"`,
		`colours = ["rust", "plum"]`, `colours = ["moss"]`,
		`colours = ["moss", "rust"]`, `colours = ["moss"]`)
	a := find(t, three, ".")
	require.NotEmpty(t, a.Remedies)
	for _, r := range a.Remedies {
		assert.Equal(t, "pieces-alike", r.For)
		assert.False(t, r.Lessens)
		_, p := planOf(t, reader("."), take(t, three, r))
		assert.Zero(t, codes(p)["pieces-alike"], r.What)
	}
	all := changed(t, three, `stripes = 9`, `stripes = 6`,
		"name = \"one\"\n", "name = \"one\"\ncolours = [\"moss\"]\n",
		`colours = ["rust"]`, `colours = ["moss"]`,
		"hex = \"#24492f\"\non_hand = \"8 oz\"", "hex = \"#24492f\"\non_hand = \"80 oz\"")
	a = find(t, all, ".")
	require.NotEmpty(t, a.Remedies)
	for _, r := range a.Remedies {
		assert.True(t, r.Lessens, r.What)
		_, p := planOf(t, reader("."), take(t, all, r))
		assert.Positive(t, codes(p)["pieces-alike"])
	}
}
