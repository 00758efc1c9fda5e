package measure

import (
	"fmt"
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
	lengthScales = []scale{{2000, 1000, 2, " m"}, {0, 10, 1, " cm"}}
	weightScales = map[bool][]scale{
		false: {{1000, 1000, 2, " kg"}, {0, 1, 0, " g"}},
		true:  {{453.59237, 453.59237, 2, " lb"}, {0, 28.349523125, 1, " oz"}},
	}
	yarnScales = map[bool][]scale{
		false: {{0, 1, 0, " m"}},
		true:  {{0, 0.9144, 0, " yd"}},
	}
)

// Count is a number with its noun: "1 end", "7 ends".
func Count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// FormatLength prints millimetres in the units a brief asked for, "cm" or
// "in": "46.0 cm" and from 2 m up "3.87 m"; as a ruler has them "18 1/8 in", and
// above 3 yards "4 yd 9 in".
func FormatLength(mm float64, units string) string {
	switch {
	case units != "in":
		return format(mm, lengthScales)
	case mm > 3*yardMM:
		return yards(int64(math.Round(mm / inchMM)))
	}
	return FormatInches(mm)
}

// FormatLeast prints a length that something must have at least, in millimetres, as
// [FormatLength] does, but rounded up.
func FormatLeast(mm float64, units string) string {
	if units != "in" || mm > 3*yardMM {
		return FormatWarp(mm, units)
	}
	parts := 8.0
	if mm < inchMM/2 {
		parts = 16
	}
	grain := inchMM / parts
	return FormatInches(math.Ceil(mm/grain-1e-6) * grain)
}

// FormatWarp prints a length of warp to be wound, in millimetres: as [FormatLength]
// does, or in yards and whole inches, but rounded up, so that what is wound as it is
// told is long enough.
func FormatWarp(mm float64, units string) string {
	if units == "in" {
		return yards(int64(math.Ceil(mm/inchMM - 1e-6)))
	}
	s := scaleOf(mm, lengthScales)
	grain := s.size / math.Pow10(s.decimals)
	return format(math.Ceil(mm/grain-1e-6)*grain, lengthScales)
}

// FormatWarpPart prints a part of a warp, in millimetres, in the units of
// [FormatWarp], to the nearest.
func FormatWarpPart(mm float64, units string) string {
	if units == "in" {
		return yards(int64(math.Round(mm / inchMM)))
	}
	return format(mm, lengthScales)
}

// FormatDistance prints how far cloth is looked at from, in metres: "2 m", "0.4 m";
// "6 1/2 ft", "16 in".
func FormatDistance(metres float64, units string) string {
	const footM = 0.3048
	switch {
	case units != "in":
		return strconv.FormatFloat(metres, 'g', 3, 64) + " m"
	case metres < 3*footM:
		return mixed(int64(math.Round(metres*1000/inchMM)), 1) + " in"
	case metres < 20*footM:
		return mixed(int64(math.Round(2*metres/footM)), 2) + " ft"
	}
	return mixed(int64(math.Round(metres/footM)), 1) + " ft"
}

// An inch and a yard: the international yard and pound agreement of 1959.
const (
	inchMM = 25.4
	yardMM = 36 * inchMM
)

// FormatInches prints millimetres as a ruler of inches shows them: eighths,
// below half an inch sixteenths, and decimals where even that says nothing.
func FormatInches(mm float64) string {
	inches := mm / inchMM
	switch {
	case inches >= 0.5:
		return mixed(int64(math.Round(8*inches)), 8) + " in"
	case inches >= 1.0/32:
		return mixed(int64(math.Round(16*inches)), 16) + " in"
	case fixed(inches, 2) == "0.00":
		return "0 in"
	}
	return fixed(inches, 2) + " in"
}

// mixed prints so many parts of a whole as a number and a fraction: "27 1/4", "5/8".
func mixed(n, parts int64) string {
	whole, rest := n/parts, big.NewRat(n%parts, parts)
	switch {
	case rest.Sign() == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return rest.String()
	}
	return strconv.FormatInt(whole, 10) + " " + rest.String()
}

// yards prints inches as yards and what is left of them: "4 yd 18 in".
func yards(inches int64) string {
	n, rest := inches/36, inches%36
	switch {
	case n == 0:
		return strconv.FormatInt(rest, 10) + " in"
	case rest == 0:
		return strconv.FormatInt(n, 10) + " yd"
	}
	return fmt.Sprintf("%d yd %d in", n, rest)
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

// WriteLength is a length in millimetres as people write it in the units of a brief, "cm"
// or "in": "64 cm", "63.5 cm", "27 1/4 in". Centimetres have no more than one decimal.
func WriteLength(mm *big.Rat, units string) string {
	size, unit := big.NewRat(10, 1), "cm"
	if units == "in" {
		size, unit = big.NewRat(254, 10), "in"
	}
	n := new(big.Rat).Quo(mm, size)
	whole := new(big.Int).Quo(n.Num(), n.Denom())
	rest := new(big.Rat).Sub(n, new(big.Rat).SetInt(whole))
	switch {
	case rest.Sign() == 0:
		return whole.String() + " " + unit
	case unit == "in":
		return fmt.Sprintf("%s %s %s", whole, rest.RatString(), unit)
	}
	return n.FloatString(1) + " " + unit
}
