package loomwork

import (
	"fmt"
	"math"
	"math/big"

	"stripesong/sequence/measure"
)

// Figures of work are read off a tape or a scale, in the units of the plan,
// "cm" or "in".

const (
	inchMM = 25.4
	yardM  = 0.9144
	ounceG = 28.349523125
)

// TapeLength prints millimetres as a tape shows them: centimetres with one decimal or
// eighths of an inch, however long, so that a list keeps to one unit.
func TapeLength(mm float64, units string) string {
	if units == "in" {
		return measure.FormatInches(mm)
	}
	return decimals(mm/10, 1) + " cm"
}

// YarnLength prints metres of yarn as [measure.FormatYarn] does, and what is
// below 10 m or yards with one decimal: a separator takes little, not none.
func YarnLength(metres float64, units string) string {
	switch {
	case units != "in" && small(metres):
		return decimals(metres, 1) + " m"
	case units == "in" && small(metres/yardM):
		return decimals(metres/yardM, 1) + " yd"
	}
	return measure.FormatYarn(metres, units)
}

// YarnWeight prints grams as [measure.FormatWeight] does, and what is below
// 10 g with one decimal, what is below 1 oz with two; what
// is not a hundredth of an ounce stays in grams.
func YarnWeight(grams float64, units string) string {
	switch {
	case units != "in" && small(grams), grams > 0 && grams < 0.15: // no hundredth of an ounce
		return decimals(grams, 1) + " g"
	case units == "in" && grams > 0 && grams < ounceG:
		return decimals(grams/ounceG, 2) + " oz"
	}
	return measure.FormatWeight(grams, units)
}

func small(x float64) bool { return x > 0 && x < 9.95 }

// Folds are the two folds of a hem and what they make together, on figures
// that add up: whole millimetres, or eighths of an inch. The first is two
// fifths (common practice, no source). Hems below half an inch are in sixteenths.
func Folds(mm float64, units string) (whole, first, second string) {
	grain := 1.0
	switch {
	case units == "in" && mm >= inchMM/2:
		grain = inchMM / 8
	case units == "in":
		grain = inchMM / 16
	}
	show := func(n int) string { return TapeLength(float64(n)*grain, units) }
	n := int(math.Round(mm / grain))
	in := (4*n + 5) / 10
	return show(n), show(in), show(n - in)
}

// decimals rounds half away from nothing, as package measure does.
func decimals(x float64, places int) string {
	r := new(big.Rat).SetFloat64(x)
	if r == nil { // no number: nothing to round
		return fmt.Sprint(x)
	}
	return r.FloatString(places)
}
