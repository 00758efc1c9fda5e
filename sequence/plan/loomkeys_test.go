package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHours: a body of 440 units at 20 picks an inch and 2 to a unit is 44 in long,
// 1760 picks of ground and pattern; at 900 an hour it takes 1.9556 hours. Two such
// pieces and the 4 picks between them take 3.9156.
func TestHours(t *testing.T) {
	text := with(t, small, `woven = "22 in"`, `woven = "44 in"`, "pieces = 1", "pieces = 2",
		"separator = 0", "separator = 4", "[loom]", "[loom]\npace = 900")
	p := makePlan(t, "small", text)
	assert.Equal(t, 1760, p.Pieces[0].Picks)
	assert.Equal(t, []float64{1.96, 1.9556}, []float64{p.Pieces[0].Hours, p.Pieces[1].Hours})
	assert.Equal(t, 3.9156, p.Set.Hours)
	none := makePlan(t, "small", with(t, small))
	assert.Zero(t, none.Pieces[0].Hours)
	text2, err := JSON(none)
	assert.NoError(t, err)
	assert.NotContains(t, string(text2), `"hours"`, "what the brief leaves out is not said")
}

// TestLoomOfLevers asks for no treadles and is short of none.
func TestLoomOfLevers(t *testing.T) {
	codes := func(p *Plan) (all []string) {
		for _, n := range p.Notes {
			all = append(all, n.Code)
		}
		return all
	}
	short := makePlan(t, "small", with(t, small, "[loom]", "[loom]\ntreadles = 2"))
	assert.Contains(t, codes(short), "treadles")
	levers := makePlan(t, "small",
		with(t, small, "[loom]", "[loom]\ntreadles = 0\nshed = \"both\""))
	assert.NotContains(t, codes(levers), "treadles")
	assert.Equal(t, "both", levers.Loom.Shed)
	assert.Zero(t, levers.Loom.Treadles)
}

// TestRaddle by hand: 24/in are 24 in each inch, 7.5/cm are 7 and 8 in each centimetre by
// turns.
func TestRaddle(t *testing.T) {
	inches := makePlan(t, "small", with(t, small))
	assert.Equal(t, []int{24}, inches.Loom.Raddle)
	assert.Equal(t, 25.4, inches.Loom.RaddleMM)
	metric := makePlan(t, "small",
		with(t, small, `units = "in"`, `units = "cm"`, `"24/in"`, `"7.5/cm"`))
	assert.Equal(t, []int{7, 8}, metric.Loom.Raddle)
}
