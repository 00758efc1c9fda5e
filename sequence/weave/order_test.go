package weave

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestValidateOrder: summer and winter in columns, "P1 a P1 b", leaves its second
// pattern sheds out, and the end on shaft 2 stays uncovered in block A; a structure of
// its own may not (the orders are common practice, no source).
func TestValidateOrder(t *testing.T) {
	s, ok := Lookup("summer-and-winter")
	require.True(t, ok)
	for _, text := range []string{"P1 a P1 b", "P2 a P2 b", "P1 a P2 b P2 a P1 b",
		"P2 a P1 b P1 a P2 b"} {
		order, err := ParseOrder(text)
		require.NoError(t, err)
		assert.NoError(t, s.ValidateOrder(order), text)
	}
	columns, err := ParseOrder("P1 a P1 b")
	require.NoError(t, err)
	assert.ErrorContains(t, s.InOrder(columns).Validate(),
		"no pick of the order uses pattern shed A2")
	for _, pick := range s.InOrder(columns).UnitPicks("A") {
		if pick.Pattern {
			assert.Equal(t, []bool{true, true, false, true}, Face(s.Blocks[0].Unit, pick.Shed))
		}
	}
	for text, says := range map[string]string{
		"a b": "the order has no pattern pick: write P where the pattern shuttle goes",
		"P1 a": "the order has 1 ground picks: end it on tabby b, so that the next unit can " +
			"begin with a",
		"P3 a b":   "wants pattern shed 3, and block A has 2",
		"P1 b P a": "the ground must go a b a b",
	} {
		order, err := ParseOrder(text)
		require.NoError(t, err)
		assert.ErrorContains(t, s.ValidateOrder(order), says)
	}
}
