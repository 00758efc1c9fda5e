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

// ParseLength reads "46 cm", "18in", "1 1/2 yd", `4"`, "0.5 metres".
func ParseLength(text string) (Length, error) {
	s := tidy(text)
	mm, err := lengths.read(s)
	if err != nil {
		return Length{}, err
	}
	return Length{mm, s}, nil
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
	n, name, err := shares.split(s)
	if err != nil {
		return Share{}, err
	}
	if name != "%" {
		return Share{}, fmt.Errorf("%q is not a share: write for instance %s", s, shares.example)
	}
	if n.Cmp(big.NewRat(100, 1)) > 0 {
		return Share{}, fmt.Errorf(`share %q is more than the whole: write "0%%" to "100%%"`, s)
	}
	return Share{n.Quo(n, big.NewRat(100, 1)), s}, nil
}

// ParseDensity reads "8/cm", "20/in", "80/10cm", "13 1/3 per inch". Zero is
// refused.
func ParseDensity(text string) (Density, error) {
	s := tidy(text)
	cut := strings.LastIndex(s, "/")
	count, per := s, ""
	if before, after, ok := strings.Cut(s, " per "); ok {
		count, per = before, after
	} else if cut >= 0 {
		count, per = s[:cut], strings.TrimSpace(s[cut+1:])
	}
	if per == "" || digits(per) {
		return Density{}, notADensity(s)
	}
	n, err := ParseNumber(count)
	if err != nil {
		return Density{}, fmt.Errorf("density %q: %w", s, err)
	}
	if !strings.ContainsAny(per[:1], "0123456789.") {
		per = "1 " + per
	}
	mm, err := lengths.read(per)
	if err != nil {
		return Density{}, fmt.Errorf("density %q: after the stroke: %w", s, err)
	}
	if n.Sign() == 0 || mm.Sign() == 0 {
		return Density{}, fmt.Errorf("density %q is not above 0: write for instance %s", s, densities.example)
	}
	return Density{n.Quo(n, mm), s}, nil
}

// perInch are the short words for threads to an inch; they are answered with
// the way to write it.
const perInch = " epi ppi wpi dpi "

func notADensity(s string) error {
	n, name, err := densities.split(s)
	if err != nil {
		return err
	}
	if _, ok := lengths.size(name); ok {
		return fmt.Errorf("%q is a length, and a density is wanted: write \"%s/%s\"", s, exact(n), name)
	}
	if strings.Contains(perInch, " "+strings.ToLower(name)+" ") {
		return fmt.Errorf("%q: write \"%s/in\"", s, exact(n))
	}
	return fmt.Errorf("%q is not a density: write for instance %s", s, densities.example)
}
