package measure

import (
	"errors"
	"fmt"
	"math/big"
	"regexp"
	"strings"
	"unicode"
)

// maxDigits bounds each run of digits, so that no typed number can make the
// exact arithmetic slow.
const maxDigits = 12

// fractionSigns are the fractions that have a character of their own.
var fractionSigns = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/",
)

// tidy makes every stretch of white space one plain space, drops it at the
// ends, and writes fractions out: "27½" and "27-1/2" as "27 1/2".
func tidy(text string) string {
	s := strings.Join(strings.FieldsFunc(fractionSigns.Replace(text), unicode.IsSpace), " ")
	return hyphened.ReplaceAllString(s, "$1 $2")
}

// hyphened is a whole number and a fraction with a hyphen between them.
var hyphened = regexp.MustCompile(`(\d)-(\d{1,3}/\d)`)

// comma is a decimal with a comma in it, which can't be the mark of a thousand.
var comma = regexp.MustCompile(`^\d+,(\d{1,2}|\d{4,})$`)

// ParseNumber reads a number that is not negative: "8", "0.5", ".5", "3/4" or
// "1 1/2". A fraction must be less than one, so that a density such as
// "80/10" is never taken for a number. The error says what to write instead.
func ParseNumber(text string) (*big.Rat, error) {
	s := tidy(text)
	whole, fraction, mixed := strings.Cut(s, " ")
	switch {
	case strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−"):
		return nil, fmt.Errorf("%q is negative: write a number from 0 up", s)
	case comma.MatchString(s):
		return nil, fmt.Errorf("%q has a comma: write %q", s, strings.Replace(s, ",", ".", 1))
	case strings.Contains(s, ","):
		return nil, fmt.Errorf(`%q has a comma: write "1.5" for a decimal, "1000" for a thousand`,
			s)
	case !mixed && strings.Contains(s, "/"):
		return parseFraction(s)
	case !mixed:
		return parseDecimal(s)
	}
	w, err := parseDecimal(whole)
	if err != nil {
		return nil, err
	}
	if !w.IsInt() || strings.Contains(whole, ".") {
		return nil, fmt.Errorf(`%q mixes a decimal and a fraction: write "1.5" or "1 1/2"`, s)
	}
	f, err := parseFraction(fraction)
	if err != nil {
		return nil, err
	}
	return f.Add(f, w), nil
}

// parseFraction reads "3/4": digits over digits, less than one.
func parseFraction(s string) (*big.Rat, error) {
	above, below, ok := strings.Cut(s, "/")
	if !ok || !digits(above) || !digits(below) {
		return nil, notANumber(s)
	}
	num, err := parseDecimal(above)
	if err != nil {
		return nil, err
	}
	den, err := parseDecimal(below)
	if err != nil {
		return nil, err
	}
	if num.Cmp(den) >= 0 {
		return nil, fmt.Errorf(`fraction %q is not less than one: write "1 1/2", not "3/2"`, s)
	}
	return num.Quo(num, den), nil
}

// parseDecimal reads digits with at most one point in or before them.
func parseDecimal(s string) (*big.Rat, error) {
	whole, part, point := strings.Cut(s, ".")
	if s == "" || point && !digits(part) || whole != "" && !digits(whole) {
		return nil, notANumber(s)
	}
	if len(whole) > maxDigits || len(part) > maxDigits {
		return nil, fmt.Errorf("number %q is too long: write at most %d digits", s, maxDigits)
	}
	n, ok := new(big.Rat).SetString(s)
	if !ok {
		return nil, notANumber(s)
	}
	return n, nil
}

func digits(s string) bool {
	for _, r := range s {
		if r < '0' || r > '9' {
			return false
		}
	}
	return s != ""
}

func notANumber(s string) error {
	if s == "" {
		return errors.New(`the number is missing: write it as "8", "0.5" or "1 1/2"`)
	}
	return fmt.Errorf(`%q is not a number: write it as "8", "0.5" or "1 1/2"`, s)
}

// readable prints r so that [ParseNumber] reads it again: a decimal where that
// ends, else a mixed fraction.
func readable(r *big.Rat) string {
	if places, ends := r.FloatPrec(); ends && places <= maxDigits {
		return r.FloatString(places)
	}
	whole, rest := new(big.Int).QuoRem(r.Num(), r.Denom(), new(big.Int))
	fraction := rest.String() + "/" + r.Denom().String()
	if whole.Sign() == 0 {
		return fraction
	}
	return whole.String() + " " + fraction
}
