package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestBodyBetweenHems, worked by hand: 20 ground picks to the inch make ten
// units of halvdräll, so 22 in woven without hems are 220 units; hems of 1 in
// are 20 picks each, and leave 20 in or 200 units.
func TestBodyBetweenHems(t *testing.T) {
	assert.Equal(t, 220, makePlan(t, "small", []byte(small)).Pieces[0].BodyUnits)
	p := makePlan(t, "small", with(t, small, `hem = "0 in"`, `hem = "1 in"`)).Pieces[0]
	assert.Equal(t, 20, p.HemPicks)
	assert.Equal(t, 200, p.BodyUnits)
	assert.InDelta(t, 22*25.4, p.WovenMM, 1e-9)
}
