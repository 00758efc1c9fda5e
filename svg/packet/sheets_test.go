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
