package contrast

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pale has nothing but shades that hardly differ: whatever stands in for cream is seen no
// better.
const pale = `[set]
pieces = 1
width = "20 cm"
length = "30 cm"
[cloth]
structure = "halvdrall"
sett = "10/cm"
ground = "12/cm"
strands = 1
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "oat"
hex = "#efe6d2"
[[colour]]
name = "cream"
hex = "#ece2cd"
[[colour]]
name = "straw"
hex = "#eadfc9"
[warp]
colours = ["oat"]
rhythm = { kind = "even", stripes = 4 }
[weft]
ground = "oat"
colours = ["cream"]
rhythm = { kind = "even", stripes = 5 }
`

// TestNearest: where no change lifts a combination by a grade, the colour that stands out
// most is named, and what it comes to.
func TestNearest(t *testing.T) {
	r := reported(t, parsed(t, []byte(pale)), Question{})
	require.Len(t, r.Mends, 1)
	assert.Empty(t, r.Mends[0].Options)
	assert.Regexp(t, `^pattern "straw" instead of "cream", still unseen \d\.\d$`,
		r.Mends[0].Nearest)
}
