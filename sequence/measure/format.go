package measure

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// scale is one step of a printed quantity: from what magnitude it is used,
// how much of the base unit it is, and its decimals.
type scale struct {
	from, size float64
	decimals   int
	unit       string
}

// The scales of each quantity, greatest first. Inches stand under "in",
// everything else prints metric.
var (
	lengthScales = map[bool][]scale{
		false: {{2000, 1000, 2, " m"}, {0, 10, 1, " cm"}},
		true:  {{1828.8, 914.4, 2, " yd"}, {0, 25.4, 1, " in"}},
	}
	weightScales = map[bool][]scale{
		false: {{1000, 1000, 2, " kg"}, {0, 1, 0, " g"}},
		true:  {{453.59237, 453.59237, 2, " lb"}, {0, 28.349523125, 1, " oz"}},
	}
	yarnScales = map[bool][]scale{
		false: {{0, 1, 0, " m"}},
		true:  {{0, 0.9144, 0, " yd"}},
	}
)

// FormatLength prints millimetres in the units a brief asked for, "cm" or
// "in": "46.0 cm" and from 2 m up "3.87 m"; "18.1 in" and from 72 in up
// "4.24 yd".
func FormatLength(mm float64, units string) string { return format(mm, lengthScales[units == "in"]) }

// FormatWarp prints a length of warp to be wound, in millimetres, as
// [FormatLength] does but rounded up: what is wound as it is told is long enough.
func FormatWarp(mm float64, units string) string {
	s := scaleOf(mm, lengthScales[units == "in"])
	grain := s.size / math.Pow10(s.decimals)
	return format(math.Ceil(mm/grain-1e-6)*grain, lengthScales[units == "in"])
}

// FormatWeight prints grams: "225 g" and from 1 kg up "1.25 kg"; "7.9 oz" and
// from 1 lb up "2.76 lb".
func FormatWeight(grams float64, units string) string {
	return format(grams, weightScales[units == "in"])
}

// FormatYarn prints metres of yarn as whole metres or yards: "968 m",
// "1059 yd".
func FormatYarn(metres float64, units string) string {
	return format(metres, yarnScales[units == "in"])
}

// FormatCloth prints the weight of cloth, in grams to the square metre: "333 g/m²",
// "9.8 oz/yd²". An ounce to the square yard is 33.906 g/m² (28.349523 g over
// 0.83612736 m², both by definition: the international yard and pound, 1959).
func FormatCloth(grams float64, units string) string {
	if units == "in" {
		return fixed(grams*0.83612736/28.349523125, 1) + " oz/yd²"
	}
	return fixed(grams, 0) + " g/m²"
}

// FormatDensity prints threads to a millimetre with one decimal: "8.0/cm",
// "20.3/in".
func FormatDensity(perMM float64, units string) string {
	if units == "in" {
		return fixed(perMM*25.4, 1) + "/in"
	}
	return fixed(perMM*10, 1) + "/cm"
}

// scaleOf is the first scale from which a value is printed.
func scaleOf(value float64, scales []scale) scale {
	for _, s := range scales {
		if value >= s.from {
			return s
		}
	}
	return scales[len(scales)-1]
}

func format(value float64, scales []scale) string {
	chosen := scaleOf(value, scales)
	return fixed(value/chosen.size, chosen.decimals) + chosen.unit
}

// fixed prints with a fixed number of decimals, rounding half up, and never a
// minus before nothing but noughts.
func fixed(x float64, decimals int) string {
	r := new(big.Rat).SetFloat64(x)
	if r == nil { // infinite or no number: nothing to round
		return strconv.FormatFloat(x, 'f', decimals, 64)
	}
	s := r.FloatString(decimals)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}
