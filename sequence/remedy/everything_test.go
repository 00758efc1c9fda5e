package remedy

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEverythingAtOneWidth: a warp too wide for the loom and for the heddles is narrowed
// once, by the remedy for the worse of the two, beside what the board asks for.
func TestEverythingAtOneWidth(t *testing.T) {
	text := changed(t, five, `board = "4.5 yd"`, `board = "6 yd"`, "reed = \"10/in\"",
		"reed = \"10/in\"\nwidth = \"19 in\"\nheddles = 300")
	a := find(t, text, ".")
	require.NotEmpty(t, a.Remedies)
	assert.Empty(t, a.Remedies[0].For)
	assert.Zero(t, a.Remedies[0].Left)
	_, p := planOf(t, reader("."), take(t, text, a.Remedies[0]))
	assert.Empty(t, troubles(p))
}

// TestEverythingThatHasAWayOut: with three treadles for four sheds nothing helps (see
// TestNoFewerTreadles), and all else is ended at once all the same.
func TestEverythingThatHasAWayOut(t *testing.T) {
	text := changed(t, five, `board = "4.5 yd"`, `board = "6 yd"`, "reed = \"10/in\"",
		"reed = \"10/in\"\nwidth = \"19 in\"\ntreadles = 3")
	a := find(t, text, ".")
	require.Len(t, a.Unmended, 1)
	assert.Empty(t, a.Remedies[0].For)
	assert.Equal(t, 1, a.Remedies[0].Left)
	_, p := planOf(t, reader("."), take(t, text, a.Remedies[0]))
	assert.Equal(t, map[trouble]int{{code: "treadles"}: 1}, troubles(p))
}
