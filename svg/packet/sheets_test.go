package packet

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAtTheLoom: what a weaver sitting at the loom, without the brief, would have to read
// twice.
func TestAtTheLoom(t *testing.T) {
	winter, err := os.ReadFile("../../examples/winter-window/brief.toml")
	require.NoError(t, err)
	napkins := readAloud(pageOf(t, planOf(t, winter)))
	fringed := readAloud(pageOf(t, planOf(t, fringed(t))))
	front := strings.Replace(string(winter), "[loom]", "[loom]\ndress = \"front to back\"", 1)
	for _, text := range []string{napkins, fringed} {
		assert.NotContains(t, text, "The brief ", "it does not lie beside the loom")
	}
	// 4 ends of block B and 104 of block A are one stripe of colour
	assert.Contains(t, napkins, "the first part of a stripe of 104 in block A")
	assert.Contains(t, napkins, "same block, another colour")
	assert.Contains(t, readAloud(pageOf(t, planOf(t, []byte(front)))),
		"dent by dent; those of one dent in the order of the lease sticks.")
	assert.Contains(t, napkins, "After Before Separator Picks Was at, on the loom At, washed")
	assert.Contains(t, napkins, "Parts are rounded so that they add up to the length.")
	assert.Contains(t, fringed, "threading below, shafts to raise at the right.")
	assert.Contains(t, fringed, "separators between pieces under 1 in")
	assert.Contains(t, fringed, "with a tail of 80 in , four times the width in the reed")
	assert.Contains(t, fringed, "They begin at the right edge, and need not be the units of the "+
		"threading, which are counted from the left.")
}

// TestTailsAreRoundedUp: four times 37.3 cm are 149.2 cm, four times 60 cm 2.4 m, four times
// 20.04 in 80.16 in.
func TestTailsAreRoundedUp(t *testing.T) {
	m := newMaker(planOf(t, fringed(t)))
	for _, of := range []struct {
		units, want string
		reedMM      float64
	}{{"cm", "150 cm", 373}, {"cm", "2.40 m", 600}, {"in", "81 in", 20.04 * 25.4},
		{"in", "80 in", 20 * 25.4}} {
		m.Units, m.Warp.ReedWidthMM = of.units, of.reedMM
		assert.Equal(t, of.want, m.tail())
	}
}

// TestNotedAtTheLoom: damson in the first piece is 146, 50, 146 and 48 picks; these are 390 x
// 59.4 cm x 2 strands, 463 m of 20/1 linen, 82.7 g/km: 38 g. The second piece has no weight. In
// a set whose one pattern colour is its ground too nothing is weighed.
func TestNotedAtTheLoom(t *testing.T) {
	text := said(t)
	assert.Contains(t, text, "More is written down of this piece (part 6). Before step 1 weigh D "+
		"damson with all its tubes and bobbins: 390 picks of it will tell what a pick "+
		"takes. At the "+
		"middle of the tape measure the width at the fell, with the tension on.")
	assert.Contains(t, text,
		"When step 10 is woven measure, with the tension on: the width at the "+
			"fell, and the length as the tape reads at the last pick. Weigh D damson again.")
	assert.Contains(t, text, "as the tape reads at the last pick. width length Read upwards")
	assert.Contains(t, text,
		"colour its name damson picks picks thrown with it 390 used metres or "+
			"grams used 38 g strands wound together 2")
	assert.NotContains(t, text, "measure the width at the fell and the length of one piece")
	m := newMaker(planOf(t, fringed(t)))
	p := m.Pieces[0]
	require.NotNil(t, m.weighing(p))
	for i := range p.Runs {
		p.Runs[i].Ground = p.Runs[i].Pattern
	}
	assert.Nil(t, m.weighing(p))
}
