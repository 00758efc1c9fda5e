package measure

import (
	"fmt"
	"math/big"
	"strings"
)

// Length is a length that was typed with its unit.
type Length struct {
	MM   *big.Rat // millimetres, exact; nil where nothing was read
	Text string   // as typed, spaces tidied
}

// Density is a number of threads, wraps or dents to a length.
type Density struct {
	PerMM *big.Rat // threads to a millimetre, exact, above 0; nil where nothing was read
	Text  string
}

// Share is a part of a whole.
type Share struct {
	Part *big.Rat // 0 to 1, exact; nil where nothing was read
	Text string
}

// Weight is a weight that was typed with its unit.
type Weight struct {
	Grams *big.Rat // exact; nil where nothing was read
	Text  string
}

// Amount is a quantity of yarn, told as a length or as a weight: exactly one
// of MM and Grams is there, and neither where nothing was read.
type Amount struct {
	MM    *big.Rat
	Grams *big.Rat
	Text  string
}

// ParseLength reads "46 cm", "18in", "1 1/2 yd", `4"`, "0.5 metres", "4 yd 18 in".
func ParseLength(text string) (Length, error) {
	s := tidy(text)
	mm, err := lengths.readAll(s)
	if err != nil {
		return Length{}, err
	}
	return Length{mm, s}, nil
}

// Units are those that a length was typed in: "cm" for all that are metric, "in" for
// inches, feet and yards, "" where nothing was read.
func (l Length) Units() string {
	_, name, err := lengths.split(l.Text)
	switch {
	case err != nil:
		return ""
	case strings.ContainsAny(name[:1], "mMcC"):
		return "cm"
	}
	return "in"
}

// ParseWeight reads "225 g", "1.5 kg", "8 oz", "1/2 lb".
func ParseWeight(text string) (Weight, error) {
	s := tidy(text)
	grams, err := weights.read(s)
	if err != nil {
		return Weight{}, err
	}
	return Weight{grams, s}, nil
}

// ParseAmount reads a length or a weight of yarn: "900 m", "225 g".
func ParseAmount(text string) (Amount, error) {
	s := tidy(text)
	n, name, err := amounts.split(s)
	if err != nil {
		return Amount{}, err
	}
	if size, ok := lengths.size(name); ok {
		return Amount{MM: n.Mul(n, size), Text: s}, nil
	}
	if size, ok := weights.size(name); ok {
		return Amount{Grams: n.Mul(n, size), Text: s}, nil
	}
	return Amount{}, amounts.unknown(s, name)
}

// ParseShare reads "8%" as 0.08. Shares above 100% are refused.
func ParseShare(text string) (Share, error) {
	s := tidy(text)
	if n, err := ParseNumber(s); err == nil {
		return Share{}, bareShare(s, n)
	}
	n, name, err := shares.split(s)
	if err != nil {
		return Share{}, err
	}
	if name != "%" {
		return Share{}, shares.unknown(s, name)
	}
	if n.Cmp(hundred) > 0 {
		return Share{}, fmt.Errorf(`percentage %q is more than the whole: write "0%%" to "100%%"`, s)
	}
	return Share{n.Quo(n, hundred), s}, nil
}

var hundred = big.NewRat(100, 1)

// bareShare offers the readings of a share without its sign; up to 1 it may
// have been meant as a part of one.
func bareShare(s string, n *big.Rat) error {
	if n.Cmp(big.NewRat(1, 1)) > 0 {
		return fmt.Errorf("%s has no unit: write \"%s%%\"", s, s)
	}
	return fmt.Errorf("%s has no unit: write \"%s%%\" or \"%s%%\"", s, s,
		readable(n.Mul(n, hundred)))
}
