package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// unit is one unit under all the names it may be typed by.
type unit struct {
	names string // between spaces
	size  *big.Rat
}

// kind is one kind of quantity: what it is called in errors and its units.
type kind struct {
	name    string
	units   []unit
	listed  string    // the units as an error lists them
	example string    // how one is written
	bare    [2]string // both readings of a bare number
}

// Exact by definition: the international yard of 1959 is 0.9144 m, the pound
// 0.45359237 kg.
var (
	lengths = kind{
		name: "length",
		units: []unit{
			{"mm millimetre millimetres millimeter millimeters", big.NewRat(1, 1)},
			{"cm centimetre centimetres centimeter centimeters", big.NewRat(10, 1)},
			{"m metre metres meter meters", big.NewRat(1000, 1)},
			{`in inch inches " ″`, big.NewRat(254, 10)},
			{"ft foot feet", big.NewRat(3048, 10)},
			{"yd yds yard yards", big.NewRat(9144, 10)},
		},
		listed:  "mm, cm, m, in, ft or yd",
		example: `"46 cm" or "18 in"`,
		bare:    [2]string{"%s cm", "%s in"},
	}
	weights = kind{
		name: "weight",
		units: []unit{
			{"g gram grams", big.NewRat(1, 1)},
			{"kg kilogram kilograms", big.NewRat(1000, 1)},
			{"oz ounce ounces", big.NewRat(45359237, 1600000)},
			{"lb lbs pound pounds", big.NewRat(45359237, 100000)},
		},
		listed:  "g, kg, oz or lb",
		example: `"225 g" or "8 oz"`,
		bare:    [2]string{"%s g", "%s oz"},
	}
	amounts = kind{
		name:    "length or weight",
		listed:  "mm, cm, m, in, ft, yd, g, kg, oz or lb",
		example: `"900 m" or "225 g"`,
		bare:    [2]string{"%s m", "%s g"},
	}
	densities = kind{
		name:    "thread count",
		listed:  "threads to a length",
		example: `"8/cm" or "20/in"`,
		bare:    [2]string{"%s/cm", "%s/in"},
	}
	shares = kind{
		name:    "percentage",
		listed:  "percent",
		example: `"8%"`,
	}
)

// size looks a unit up by any of its names, upper or lower case, with or
// without the full stop of an abbreviation.
func (k *kind) size(name string) (*big.Rat, bool) {
	wanted := strings.TrimSuffix(strings.ToLower(name), ".")
	for _, u := range k.units {
		for n := range strings.FieldsSeq(u.names) {
			if n == wanted {
				return u.size, true
			}
		}
	}
	return nil, false
}

// read parses a number with a unit of this kind into the kind's base unit.
func (k *kind) read(text string) (*big.Rat, error) {
	n, name, err := k.split(text)
	if err != nil {
		return nil, err
	}
	if size, ok := k.size(name); ok {
		return n.Mul(n, size), nil
	}
	return nil, k.unknown(text, name)
}

// yardsFirst are the units that lengths of two or three units may have, in this order.
var yardsFirst = regexp.MustCompile(
	`(?i)^([0-9][0-9./ ]*(?:yd|yds|yards?)\.?)? ?([0-9][0-9./ ]*(?:ft|foot|feet|')\.?)? ?` +
		`([0-9][0-9./ ]*(?:in|inch|inches|")\.?)?$`)

// readAll is read, and adds yards, feet and inches: "4 yd 18 in".
func (k *kind) readAll(text string) (*big.Rat, error) {
	m := yardsFirst.FindStringSubmatch(text)
	if m == nil || m[0] == "" || m[0] == m[1] || m[0] == m[2] || m[0] == m[3] {
		return k.read(text)
	}
	sum := new(big.Rat)
	for _, part := range m[1:] {
		if part == "" {
			continue
		}
		one, err := k.read(strings.ReplaceAll(part, "'", " ft"))
		if err != nil {
			return nil, err
		}
		sum.Add(sum, one)
	}
	return sum, nil
}

// split takes a tidied quantity apart into its number and its unit. A number
// alone is an error that offers both readings.
func (k *kind) split(text string) (*big.Rat, string, error) {
	if text == "" {
		return nil, "", fmt.Errorf("a %s is missing: write for instance %s", k.name, k.example)
	}
	end := strings.IndexFunc(text, func(r rune) bool {
		return !strings.ContainsRune("0123456789.,/ -−", r)
	})
	if end == 0 {
		return nil, "", fmt.Errorf("%q is not a %s: write for instance %s", text, k.name, k.example)
	}
	if end < 0 {
		end = len(text)
	}
	n, err := ParseNumber(text[:end])
	if err != nil {
		return nil, "", fmt.Errorf("%s %q: %w", k.name, text, err)
	}
	if end == len(text) {
		return nil, "", k.noUnit(text)
	}
	return n, text[end:], nil
}

func (k *kind) noUnit(number string) error {
	first, second := fmt.Sprintf(k.bare[0], number), fmt.Sprintf(k.bare[1], number)
	return fmt.Errorf("%s has no unit: write %q or %q", number, first, second)
}

func (k *kind) unknown(text, name string) error {
	if looksLikeExponent(name) {
		return fmt.Errorf("%s %q: write the number out, without an exponent", k.name, text)
	}
	for _, other := range []*kind{&lengths, &weights} {
		if _, ok := other.size(name); ok {
			return fmt.Errorf("%q is a %s, not a %s: write for instance %s", text,
				other.name, k.name, k.example)
		}
	}
	return fmt.Errorf("%s %q: unknown unit %q: write it in %s, for instance %s", k.name, text, name,
		k.listed, k.example)
}

func looksLikeExponent(name string) bool {
	rest, ok := strings.CutPrefix(strings.ToLower(name), "e")
	return ok && digits(strings.TrimLeft(strings.Fields(rest + " .")[0], "+-"))
}
