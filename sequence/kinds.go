package sequence

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
)

func count(key, label, usage, start string, most int, at *int) Parameter {
	return Parameter{Key: key, Label: label, Usage: usage, Start: start, Most: most, Value: at}
}

func stripes(start string, at *int) Parameter {
	return count("stripes", "Stripes", "how many stripes", start, MaxStripes, at)
}

func direction(start string, at *string) Parameter {
	return Parameter{Key: "direction", Label: "Direction", Words: directions,
		Start: start, Value: at}
}

const (
	rising     = "rising"
	falling    = "falling"
	outAndBack = "out-and-back"
)

var directions = []string{rising, falling, outAndBack}

// Even is stripes that are all alike.
type Even struct{ Stripes int }

func (e *Even) Spec() Spec {
	return Spec{Name: "even", Words: "{stripes} even stripes",
		Parameters: []Parameter{stripes("7", &e.Stripes)}}
}

func (e *Even) Weights(*rand.Rand) ([]int64, error) {
	return slices.Repeat([]int64{1}, e.Stripes), nil
}

func (e *Even) draw(most int, chance *rand.Rand) { e.Stripes = drawn(2, min(21, most), chance) }

// Repeat is a motif of widths, over again.
type Repeat struct {
	Motif []*big.Rat
	Times int
}

func (r *Repeat) Spec() Spec {
	return Spec{Name: "repeat", Words: "{weights}, {times} times", Parameters: []Parameter{
		{Key: "weights", Label: "Widths", Usage: "the widths, in proportion",
			Start: "3, 1, 1, 1", Value: &r.Motif},
		count("times", "Times", "how often the motif comes", "2", MaxStripes, &r.Times),
	}}
}

func (r *Repeat) Weights(*rand.Rand) ([]int64, error) {
	if err := bounded(len(r.Motif) * r.Times); err != nil {
		return nil, err
	}
	motif, err := Whole(r.Motif)
	return slices.Repeat(motif, r.Times), err
}

// draw draws a motif that is not all alike and has no common measure.
func (r *Repeat) draw(most int, chance *rand.Rand) {
	weights, common := make([]int64, drawn(2, 4, chance)), int64(0)
	for i := range weights {
		weights[i] = 1 + chance.Int64N(6)
		if i == len(weights)-1 && slices.Max(weights) == slices.Min(weights) {
			weights[i] = weights[i]%6 + 1
		}
		common = new(big.Int).GCD(nil, nil, big.NewInt(common), big.NewInt(weights[i])).Int64()
	}
	for _, w := range weights {
		r.Motif = append(r.Motif, big.NewRat(w/common, 1))
	}
	r.Times = drawn(2, max(min(6, most/len(weights)), 2), chance)
}

// Fibonacci is terms of 1 1 2 3 5 8 ... (OEIS A000045 without its 0), from the
// first that equals From.
type Fibonacci struct {
	Terms, From int
	Direction   string // "rising", "falling" or "out-and-back"
}

func (f *Fibonacci) Spec() Spec {
	return Spec{Name: "fibonacci", Words: "fibonacci {direction}, {terms} terms from {from}",
		Direction: f.Direction, Parameters: []Parameter{
			count("terms", "Terms", "how many terms", "5", MaxTerms, &f.Terms),
			count("from", "First term", "the first term", "1", MaxWeight, &f.From),
			direction(outAndBack, &f.Direction),
		}}
}

func (f *Fibonacci) Weights(*rand.Rand) ([]int64, error) {
	a, b, from := int64(1), int64(1), int64(f.From)
	for a < from {
		a, b = b, a+b
	}
	if a != from {
		return nil, fmt.Errorf("from = %d is not a Fibonacci number: the nearest are %d and %d",
			from, b-a, a)
	}
	weights := make([]int64, f.Terms)
	for i := range weights {
		if weights[i] = a; a > 1<<40 {
			return nil, errTooFine
		}
		a, b = b, a+b
	}
	return weights, nil
}

func (f *Fibonacci) draw(most int, chance *rand.Rand) {
	f.From = []int{1, 2, 3, 5}[chance.IntN(4)]
	f.Terms = drawn(3, min(7, most), chance)
	f.Direction = directions[chance.IntN(len(directions))]
}

// Random is stripes of whole weights drawn from Narrowest to Widest.
type Random struct{ Stripes, Narrowest, Widest int }

func (r *Random) Spec() Spec {
	return Spec{Name: "random", Words: "{stripes} random stripes, {narrowest} to {widest}",
		Chance: true, Parameters: []Parameter{
			stripes("9", &r.Stripes),
			count("narrowest", "Narrowest", "the least weight", "1", MaxWeight, &r.Narrowest),
			count("widest", "Widest", "the greatest weight", "8", MaxWeight, &r.Widest),
		}}
}

func (r *Random) Weights(chance *rand.Rand) ([]int64, error) {
	if err := between("widest", r.Widest, r.Narrowest, MaxWeight); err != nil {
		return nil, err
	}
	weights := make([]int64, r.Stripes)
	for i := range weights {
		weights[i] = int64(drawn(r.Narrowest, r.Widest, chance))
	}
	return weights, nil
}

func (r *Random) draw(most int, chance *rand.Rand) {
	r.Stripes = drawn(4, min(17, most), chance)
	r.Narrowest = drawn(1, 3, chance)
	r.Widest = r.Narrowest + drawn(2, 9, chance)
}

// Euclid spreads accents over places as evenly as can be: a stripe runs from
// accent to accent.
type Euclid struct{ Accents, Of int }

func (e *Euclid) Spec() Spec {
	return Spec{Name: "euclid", Words: "{accents} accents in {of}", Parameters: []Parameter{
		count("accents", "Accents", "how many accents", "5", MaxStripes, &e.Accents),
		count("of", "Places", "in how many places", "13", MaxStripes, &e.Of),
	}}
}

// Weights are the distances from accent to accent, which sum to the places.
//
// These are the patterns of G. T. Toussaint, "The Euclidean Algorithm Generates
// Traditional Musical Rhythms", Bridges 2005, as printed there: silent places
// are dealt out among the accents, then what is left over again among the rows,
// until at most one row is left over. The first dealing is always made.
func (e *Euclid) Weights(*rand.Rand) ([]int64, error) {
	if err := between("accents", e.Accents, 1, e.Of); err != nil {
		return nil, err
	}
	many := slices.Repeat([]string{"x"}, e.Accents)
	few := slices.Repeat([]string{"."}, e.Of-e.Accents)
	for first := true; len(few) > 1 || first && len(few) > 0; first = false {
		n := min(len(many), len(few))
		rest := slices.Concat(many[n:], few[n:]) // one of them is used up
		for i, row := range few[:n] {
			many[i] += row
		}
		many, few = many[:n], rest
	}
	places := strings.Join(slices.Concat(many, few), "")
	var weights []int64
	for _, silent := range strings.Split(places, "x")[1:] {
		weights = append(weights, int64(1+len(silent)))
	}
	return weights, nil
}

func (e *Euclid) draw(most int, chance *rand.Rand) {
	e.Of = drawn(5, max(min(24, most), 5), chance)
	e.Accents = drawn(2, e.Of-2, chance)
}
