package packet_test

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"regexp"
	"strconv"
	"strings"
)

// amount is a figure as it is printed, in mm, metres or to the mm, and half of its last
// place.
type amount struct{ v, half float64 }

// agrees tells whether a figure may be printed so.
func (a amount) agrees(v float64) bool { return a.within(v, 0) }

// within is the same for a figure that is itself only known to so much.
func (a amount) within(v, give float64) bool { return math.Abs(a.v-v) <= a.half*1.0001+give+1e-6 }

// whole tells whether a length is so many of something.
func (a amount) whole(grain float64) bool {
	return math.Abs(a.v-grain*math.Round(a.v/grain)) < 1e-6*a.v
}

var lengthUnits = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": 25.4, "yd": 914.4}

// lengthOf reads "82.0 cm", "6.53 m", "1 1/2 in" or "4 yd 18 in" as mm.
func lengthOf(text string) (amount, error) {
	if yards, inches, both := strings.Cut(text, " yd "); both {
		a, err := lengthOf(yards + " yd")
		b, errB := lengthOf(inches)
		return amount{a.v + b.v, b.half}, errors.Join(err, errB)
	}
	figure, unit, _ := cutLast(text, " ")
	size, ok := lengthUnits[unit]
	if !ok {
		return amount{}, fmt.Errorf("%q is no length", text)
	}
	a, err := figureOf(figure)
	return amount{a.v * size, a.half * size}, err
}

// densityOf reads "8.0/cm" or "20.3/in" as threads to the mm.
func densityOf(text string) (amount, error) {
	figure, unit, _ := strings.Cut(text, "/")
	size, ok := lengthUnits[unit]
	if !ok {
		return amount{}, fmt.Errorf("%q is no density", text)
	}
	a, err := figureOf(figure)
	return amount{a.v / size, a.half / size}, err
}

// figureOf reads "82.0", "13", "5/8" or "1 1/2".
func figureOf(text string) (amount, error) {
	a := amount{half: 0.5}
	if _, decimals, ok := strings.Cut(text, "."); ok {
		a.half /= math.Pow10(len(decimals))
	}
	for _, part := range strings.Fields(text) {
		r, ok := new(big.Rat).SetString(part)
		if !ok {
			return a, fmt.Errorf("%q is no figure", text)
		}
		v, _ := r.Float64()
		a.v += v
		if _, printed, ok := strings.Cut(part, "/"); ok {
			parts, err := strconv.Atoi(printed)
			if err != nil {
				return a, err
			}
			a.half = 0.5 / float64(parts)
		}
	}
	if len(strings.Fields(text)) == 0 {
		return a, fmt.Errorf("%q is no figure", text)
	}
	return a, nil
}

// wholes reads "1 2 3 2".
func wholes(text string) ([]int, error) {
	var all []int
	for _, word := range strings.Fields(text) {
		n, err := strconv.Atoi(word)
		if err != nil {
			return nil, fmt.Errorf("%q is no whole number", word)
		}
		all = append(all, n)
	}
	return all, nil
}

// cutLast cuts before the last place where sep stands.
func cutLast(s, sep string) (before, after string, found bool) {
	if i := strings.LastIndex(s, sep); i >= 0 {
		return s[:i], s[i+len(sep):], true
	}
	return s, "", false
}

// linesOf are the lines of a cell, as many as are asked for at least.
func linesOf(cell string, n int) []string {
	lines := strings.Split(cell, "\n")
	for len(lines) < n {
		lines = append(lines, "")
	}
	return lines
}

// groups is what a pattern catches in a text, or nil.
func groups(pattern, text string) []string {
	m := regexp.MustCompile(pattern).FindStringSubmatch(text)
	if m == nil {
		return nil
	}
	return m[1:]
}
