package yarn

import (
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"stripesong/sequence/measure"
)

// system is one way of numbering yarn. An indirect system counts lengths to a
// weight: tex = size / count. A direct one counts weights to a length: tex =
// size * count.
type system struct {
	names  []string
	size   *big.Rat
	direct bool
}

// yardsPerPound is the size of a system in which count 1 is so many yards to
// the pound: 1000 g/km of 453.59237 g in 0.9144 m times those yards.
func yardsPerPound(yards int64) *big.Rat {
	return big.NewRat(45359237*10000, 100*9144*yards)
}

// The systems of ASTM D2260-03(2013), which agrees with ISO 2947. Silk, hemp,
// bamboo and the like are left out: labels use several systems for them.
var systems = []system{
	{names: []string{"cotton", "ne", "nec", "cc"}, size: yardsPerPound(840)},
	{names: []string{"worsted", "new"}, size: yardsPerPound(560)},
	{names: []string{"linen", "lea", "linen lea", "nel"}, size: yardsPerPound(300)},
	{names: []string{"run", "woollen run", "woolen run"}, size: yardsPerPound(1600)},
	{names: []string{"nm", "metric"}, size: big.NewRat(1000, 1)},
	{names: []string{"tex"}, size: big.NewRat(1, 1), direct: true},
	{names: []string{"dtex"}, size: big.NewRat(1, 10), direct: true},
	{names: []string{"denier", "den"}, size: big.NewRat(1, 9), direct: true},
}

// Tex is the yarn number, in grams to the kilometre, of a count as labels
// write it: "8/2 cotton", "16/2 linen", "2/10 worsted", "Ne 20/2", "Nm 28/2",
// "28/2 Nm", "3 run", "tex 30", "30s cotton". Of a plied count either order is
// read, the smaller number being the ply. The error says what to write
// instead.
//
// Source: ASTM D2260-03(2013), with the exact yard (0.9144 m) and pound
// (0.45359237 kg).
func Tex(count string) (*big.Rat, error) {
	number, name := split(count)
	if number == "" {
		return nil,
			fmt.Errorf(
				`yarn count %q has no number: write it as "8/2 cotton", "Nm 28/2" or "tex 30"`,
				count)
	}
	sys, err := find(count, number, name)
	if err != nil {
		return nil, err
	}
	n, err := sys.number(count, number)
	if err != nil {
		return nil, err
	}
	if sys.direct {
		return n.Mul(n, sys.size), nil
	}
	return n.Quo(sys.size, n), nil
}

// split takes "8/2 cotton" or "Ne 20/2" apart into the word that has digits
// and the rest, in lower case. The s of "30s" belongs to neither.
func split(count string) (number, name string) {
	var words []string
	for w := range strings.FieldsSeq(strings.ToLower(count)) {
		if number == "" && strings.ContainsAny(w, "0123456789") {
			number = strings.TrimSuffix(w, "s")
			continue
		}
		words = append(words, w)
	}
	return number, strings.Join(words, " ")
}

func find(count, number, name string) (*system, error) {
	for i := range systems {
		if slices.Contains(systems[i].names, name) {
			return &systems[i], nil
		}
	}
	if strings.ContainsAny(name, "0123456789") {
		return nil, fmt.Errorf(`yarn count %q has more than one number: write it as "8/2 cotton"`,
			count)
	}
	if name == "" {
		return nil, fmt.Errorf(`yarn count %q does not say what is counted: write %s`, count,
			choices(number))
	}
	return nil,
		fmt.Errorf("yarn count %q: labels do not agree on what %q counts: give the run from the "+
			"label instead, "+
			`as in run = "6770 m/kg" or run = "3360 yd/lb"; or write cotton, linen, worsted, run, Nm or tex`, count, name)
}

// choices are counts with a number that stands alone; tex has no ply.
func choices(number string) string {
	last := "tex " + number
	if strings.Contains(number, "/") {
		last = number + " linen"
	}
	return fmt.Sprintf("%q, %q or %q", number+" cotton", "Nm "+number, last)
}

// strokeless is a size and a ply with something else between them.
var strokeless = regexp.MustCompile(`^(\d+)[-–—−:x×\\](\d+)$`)

// number is the resulting count: size over ply.
func (sys *system) number(count, number string) (*big.Rat, error) {
	if m := strokeless.FindStringSubmatch(number); m != nil {
		return nil, fmt.Errorf("yarn count %q: size and ply have a stroke between them: write %q",
			count, strings.Replace(strings.TrimSpace(count), m[0], m[1]+"/"+m[2], 1))
	}
	first, second, plied := strings.Cut(number, "/")
	if strings.Contains(second, "/") {
		return nil, fmt.Errorf(`yarn count %q: a count has one stroke, as in "8/2 cotton"`, count)
	}
	if plied && sys.direct {
		return nil, fmt.Errorf(`yarn count %q: write the tex of all plies together, as in "tex 60"`,
			count)
	}
	a, err := positive(count, first)
	if err != nil || !plied {
		return a, err
	}
	b, err := positive(count, second)
	if err != nil {
		return nil, err
	}
	if a.Cmp(b) < 0 {
		a, b = b, a
	}
	if !b.IsInt() {
		return nil, fmt.Errorf(`yarn count %q: a ply is a whole number, as in "8/2 cotton"`, count)
	}
	return a.Quo(a, b), nil
}

func positive(count, number string) (*big.Rat, error) {
	n, err := measure.ParseNumber(number)
	if err != nil {
		return nil, fmt.Errorf("yarn count %q: %w", count, err)
	}
	if n.Sign() == 0 {
		return nil, fmt.Errorf(`yarn count %q has a nought: write it as "8/2 cotton"`, count)
	}
	return n, nil
}
