package loomwork

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/plan"
)

// TestMakeUpWords by hand: 1000.5, 200.5 and 250 mm are 1451 mm, told as 145.1 cm; ten times
// that 14.51 m, where 1000.5 and 200.5 cm have the largest remainders, of which one is left.
// 2591 mm are 102.01 inches, told as 103, so that three parts of 863.67 mm, 34.003 inches, are
// 35, 34 and 34.
func TestMakeUpWords(t *testing.T) {
	of := func(units string, mm ...float64) *plan.Plan {
		p := &plan.Plan{Units: units}
		for _, v := range mm {
			p.Warp.MakeUp = append(p.Warp.MakeUp, plan.Part{What: "piece", WoundMM: v})
			p.Warp.WoundMM += v
		}
		return p
	}
	assert.Equal(t, []string{"100.1 cm", "20.0 cm", "25.0 cm"},
		MakeUpWords(of("cm", 1000.5, 200.5, 250)))
	assert.Equal(t, []string{"10.01 m", "2.00 m", "2.50 m"},
		MakeUpWords(of("cm", 10005, 2005, 2500)))
	assert.Equal(t, []string{"35 in", "34 in", "34 in"},
		MakeUpWords(of("in", 863.67, 863.67, 863.66)))
	assert.Equal(t, []string{"3.00 m", "under 1 cm"}, MakeUpWords(of("cm", 2999, 1)))
	assert.Equal(t, []string{"30 in", "under 1 in"}, MakeUpWords(of("in", 761, 1)))
	assert.Equal(t, []string{"10.0 cm", "under 0.1 cm"}, MakeUpWords(of("cm", 99.6, 0.4)))
}

// TestMakeUpAddsUp: what parts get is what is told of the whole, 14.51 m and 103 inches.
func TestMakeUpAddsUp(t *testing.T) {
	for _, of := range []struct {
		units string
		mm    []float64
		told  float64
	}{{"cm", []float64{10005, 2005, 2500}, 14510}, {"in", []float64{863.67, 863.67, 863.66},
		103 * 25.4}} {
		p, sum := &plan.Plan{Units: of.units}, 0.0
		for _, v := range of.mm {
			p.Warp.MakeUp = append(p.Warp.MakeUp, plan.Part{What: "piece", WoundMM: v})
			p.Warp.WoundMM += v
		}
		for _, mm := range MakeUpMM(p) {
			sum += mm
		}
		assert.InDelta(t, of.told, sum, 1e-9)
	}
}
