package plan

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// beaten is a brief of one plain towel, 100 ends of 10 tex in a reed 100 mm wide.
const beaten = `title = "beaten"
units = "cm"
[set]
pieces = 1
in_reed = "10 cm"
woven = "10 cm"
hem = "0 cm"
[cloth]
structure = "halvdrall"
sett = "10/cm"
ground = "10/cm"
draw_in = "0%"
take_up = "0%"
shrink_width = "0%"
shrink_length = "0%"
weft_extra = "10%"
floating_selvedge = false
[yarn.fine]
tex = 10
[[colour]]
name = "light"
hex = "#f0f0f0"
[[colour]]
name = "dark"
hex = "#101010"
[warp]
runs = ["A 13 light", "B 12 light"]
[weft]
ground = "light"
colours = ["dark"]
runs = ["A 25 dark", "B 25 dark"]
`

// TestGramsByHand: 100 ends of 10 cm and 100 + 100 picks of 10 cm, 30 m in all of
// 10 tex are 0.3 g on 0.01 m2: 30 g/m2. A quarter lost of each way of the cloth
// makes it 30/(0.75 x 0.75) = 53.3333.
func TestGramsByHand(t *testing.T) {
	assert.InDelta(t, 30, makePlan(t, "beaten", []byte(beaten)).GramsPerM2, 1e-9)
	shrunk := strings.ReplaceAll(beaten, `shrink_width = "0%"`, `shrink_width = "25%"`)
	shrunk = strings.ReplaceAll(shrunk, `shrink_length = "0%"`, `shrink_length = "25%"`)
	assert.InDelta(t, 53.3333, makePlan(t, "beaten", []byte(shrunk)).GramsPerM2, 1e-4)
}

// TestBeatByHand: a yarn of 10 tex is 0.03568 sqrt(11) = 0.118337 mm round (F. T. Peirce,
// "The geometry of cloth structure", 1937, from memory). Two ground picks and two pattern
// picks in 2 mm fill 4 x 0.118337/2 = 0.2367; four strands as one are twice as thick: 6 x
// 0.118337/2 = 0.3550. At 40 ground picks a cm they have 0.5 mm: 0.9467; at 48 1.136.
func TestBeatByHand(t *testing.T) {
	beat := func(old, new string) (*Plan, float64) {
		p := makePlan(t, "beaten", []byte(strings.Replace(beaten, old, new, 1)))
		return p, p.Cloth.Beat
	}
	_, one := beat("", "")
	assert.InDelta(t, 0.2367, one, 1e-4)
	_, four := beat(`floating`, "strands = 4\nfloating")
	assert.InDelta(t, 0.3550, four, 1e-4)
	hard, part := beat(`ground = "10/cm"`, `ground = "40/cm"`)
	assert.InDelta(t, 0.9467, part, 1e-4)
	require.NotNil(t, code(hard, "beat-hard"))
	assert.Equal(t, Remark, code(hard, "beat-hard").Level)
	assert.Contains(t, code(hard, "beat-hard").Message, `body of "piece 1"`)
	full, part := beat(`ground = "10/cm"`, `ground = "48/cm"`)
	assert.Greater(t, part, 1.0)
	require.NotNil(t, code(full, "beat-impossible"))
	assert.Equal(t, Warning, code(full, "beat-impossible").Level)
	assert.Nil(t, code(full, "beat-hard"))
}

// TestHemsAreBeatenWithTheirOwnWeft: the worked brief's hems, 9 picks of 8/2
// cotton (0.454693 mm) to the centimetre, fill 0.4092, and its body is fuller; 21 fill
// 21 x 0.0454693 = 0.9549.
func TestHemsAreBeatenWithTheirOwnWeft(t *testing.T) {
	text, err := os.ReadFile("testdata/worked-brief.toml")
	require.NoError(t, err)
	dense := strings.Replace(string(text), `hem_ground = "9/cm"`, `hem_ground = "21/cm"`, 1)
	p := makePlan(t, "worked", []byte(dense))
	assert.InDelta(t, 0.9549, p.Cloth.Beat, 2e-4)
	require.NotNil(t, code(p, "beat-hard"))
	assert.Contains(t, code(p, "beat-hard").Message, "hems")
}
