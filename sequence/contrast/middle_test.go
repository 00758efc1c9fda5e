package contrast

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestSwapReachesTheMiddle: another pattern colour takes the place of one in a middle too.
func TestSwapReachesTheMiddle(t *testing.T) {
	text, err := brief.Edit("b", brief.Default(),
		[]brief.Change{brief.Text("piece[4].middle", "40% B sloe")})
	require.NoError(t, err)
	b := parsed(t, text)
	p := planned(t, b)
	from, to := -1, -1
	for i, c := range b.Colours {
		switch c.Name {
		case "sloe":
			from = i
		case "damson":
			to = i
		}
	}
	changes := Swap{Role: AsPattern, From: from, To: to, Pieces: []int{4}}.Changes(b, p)
	after, err := brief.Edit("b", text, changes)
	require.NoError(t, err)
	assert.Contains(t, string(after), `middle = "40% B damson"`)
	for _, r := range planned(t, parsed(t, after)).Pieces[4].Runs {
		assert.NotEqual(t, "sloe", r.Pattern)
	}
}
