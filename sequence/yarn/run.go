package yarn

import (
	"fmt"
	"math/big"
	"strings"

	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// TexOfRun is the yarn number, in grams to the kilometre, of a run as labels
// print it: a length to a weight, "6770 m/kg", "3360 yd/lb", "677 m/100g",
// "840 yards per 4 oz". A number without units is an error that offers both
// readings.
func TexOfRun(run string) (*big.Rat, error) {
	run = strings.Join(strings.Fields(run), " ")
	length, weight, ok := cutPer(run)
	if !ok {
		if isNumber(run) {
			return nil, fmt.Errorf("%s has no unit: write %q or %q", run, run+" m/kg", run+" yd/lb")
		}
		return nil,
			fmt.Errorf(
				`run %q is not a length to a weight: write for instance "6770 m/kg" or "3360 yd/lb"`, run)
	}
	if isNumber(length) {
		per := run[len(length):]
		return nil, fmt.Errorf("run %q: %s has no unit: write %q or %q", run, length,
			length+" m"+per, length+" yd"+per)
	}
	l, err := measure.ParseLength(length)
	if err != nil {
		return nil, fmt.Errorf("run %q: %w", run, err)
	}
	w, err := measure.ParseWeight(weight)
	if err != nil {
		return nil, fmt.Errorf("run %q: %w", run, err)
	}
	if l.MM.Sign() == 0 || w.Grams.Sign() == 0 {
		return nil, fmt.Errorf(`run %q has a nought: write for instance "6770 m/kg"`, run)
	}
	km := exact.Over(l.MM, big.NewRat(1e6, 1))
	return km.Quo(w.Grams, km), nil
}

// cutPer takes the length and the weight apart, the weight with its number.
func cutPer(run string) (length, weight string, ok bool) {
	length, weight, ok = strings.Cut(run, "/")
	if !ok {
		length, weight, ok = strings.Cut(run, " per ")
	}
	weight = strings.TrimSpace(weight)
	if weight != "" && strings.IndexAny(weight, "0123456789.-") != 0 {
		weight = "1 " + weight
	}
	return length, weight, ok
}

func isNumber(text string) bool {
	_, err := measure.ParseNumber(text)
	return err == nil
}
