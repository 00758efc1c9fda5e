package loomwork

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/measure"
)

// TestFolds by hand (the first fold is two fifths: common practice, no source): 4 cm is
// 1 5/8 in to the nearest eighth (12.6 eighths are 13), two fifths of 13 eighths are 5.2, so 5; and
// 8 remain, an inch.
func TestFolds(t *testing.T) {
	for _, c := range []struct {
		mm                   float64
		units                string
		whole, first, second string
	}{
		{40, "in", "1 5/8 in", "5/8 in", "1 in"},
		{38.1, "in", "1 1/2 in", "5/8 in", "7/8 in"},
		{50.8, "in", "2 in", "3/4 in", "1 1/4 in"},
		{40, "cm", "4.0 cm", "1.6 cm", "2.4 cm"},
		{39.6, "cm", "4.0 cm", "1.6 cm", "2.4 cm"},
		{33.4, "cm", "3.3 cm", "1.3 cm", "2.0 cm"},
		{7.7, "in", "5/16 in", "1/8 in", "3/16 in"}, // 4.85 sixteenths
	} {
		whole, first, second := Folds(c.mm, c.units)
		assert.Equal(t, []string{c.whole, c.first, c.second}, []string{whole, first, second},
			"%v %s", c.mm, c.units)
	}
}

// TestFiguresKeepTheirUnit: a list of lengths is in one unit, and where package
// measure stays in that unit the figures are the same.
func TestFiguresKeepTheirUnit(t *testing.T) {
	assert.Equal(t, "261.0 cm", TapeLength(2610, "cm"))
	assert.Equal(t, "103 in", TapeLength(2616.2, "in")) // 2.86 yd
	for mm := 0.05; mm < 1800; mm += 7.15 {
		for _, units := range []string{"cm", "in"} {
			assert.Equal(t, measure.FormatLength(mm, units), TapeLength(mm, units))
		}
	}
}

// TestLittleYarnIsSomething: what two picks of a separator take is not 0. By
// hand: 0.4 m are 0.437 yd, 0.04 g are 0.0014 oz, 2.835 g a tenth of an ounce.
func TestLittleYarnIsSomething(t *testing.T) {
	for want, got := range map[string]string{
		"0.4 m": YarnLength(0.4, "cm"), "0.4 yd": YarnLength(0.4, "in"),
		"10 m": YarnLength(9.96, "cm"), "0 m": YarnLength(0, "cm"),
		"0.4 g": YarnWeight(0.4, "cm"), "0.10 oz": YarnWeight(2.835, "in"),
		"225 g": YarnWeight(225, "cm"), "7.9 oz": YarnWeight(225, "in"),
	} {
		assert.Equal(t, want, got)
	}
}
