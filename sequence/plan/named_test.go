package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twins is a brief of three pieces, of which the first two have one name, and the
// second is of another length and ground.
const twins = `title = "twins"
[set]
pieces = 3
width = "30 cm"
length = "40 cm"
hem = "2 cm"
[cloth]
sett = "8/cm"
ground = "8/cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "fog"
hex = "#cfd3d2"
[[colour]]
name = "slate"
hex = "#b9bcbc"
[warp]
colours = ["fog"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "fog"
colours = ["slate"]
rhythm = { kind = "even", stripes = 3 }
[[piece]]
name = "ladder"
[[piece]]
name = "ladder"
runs = ["A 60 slate"]
ground = "slate"
[[piece]]
name = "wall"
rhythm = { kind = "even", stripes = 8 }
`

// TestPiecesOfOneName are told apart by their numbers wherever a message is about
// one of them.
func TestPiecesOfOneName(t *testing.T) {
	p := makePlan(t, "twins", []byte(twins))
	assert.Equal(t, []string{`"ladder" (piece 1)`, `"ladder" (piece 2)`, `"wall"`},
		[]string{p.Called(0), p.Called(1), p.Called(2)})
	assert.Equal(t, "ladder (piece 2)", p.Label(1))
	assert.Equal(t, "wall", p.Label(2))
	require.Len(t, p.Set.Pairs, 3)
	for i, numbers := range [][2]int{{1, 2}, {1, 3}, {2, 3}} {
		pair := p.Set.Pairs[i]
		assert.Equal(t, numbers, [2]int{pair.NumberA, pair.NumberB})
		assert.Equal(t, p.Pieces[numbers[0]-1].Name, pair.A)
		assert.Equal(t, p.Pieces[numbers[1]-1].Name, pair.B)
	}
	assert.NotEqual(t, p.Set.Pairs[1].Difference, p.Set.Pairs[2].Difference)
	three := strings.Replace(twins, `"wall"`, `"ladder"`, 1)
	for _, n := range makePlan(t, "three", []byte(three)).Notes {
		if n.Code == "name-twice" {
			assert.Equal(t, `more than one piece is called "ladder"`, n.Message)
		}
	}
	told := 0
	for _, n := range p.Notes {
		if strings.Contains(n.Message, `"ladder"`) && n.Code != "name-twice" {
			told++
			assert.Regexp(t, `"ladder" \(piece [12]\)`, n.Message, n.Code)
		}
	}
	assert.GreaterOrEqual(t, told, 3)
}
