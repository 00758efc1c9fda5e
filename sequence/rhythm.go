package sequence

import (
	"fmt"
	"math/big"
	"math/rand/v2"
)

// Kinds are the rhythms there are, in the order they are listed.
var Kinds = []string{"even", "repeat", "fibonacci", "graded", "random", "euclid"}

// Limits that keep work bounded before it is begun.
const (
	MaxStripes = 1000
	MaxTerms   = 30
	MaxRatio   = 1000
	MaxWeight  = 1_000_000
)

// Rhythm is a rule for the widths of stripes. Only the fields of its Kind are
// read. See the contract's table of kinds.
type Rhythm struct {
	Kind      string
	Stripes   int        // even, graded, random
	Weights   []*big.Rat // repeat: the motif
	Times     int        // repeat; 0 is read as 1
	Terms     int        // fibonacci
	From      int        // fibonacci: the first term; 0 is read as 1
	Direction string     // fibonacci, graded: "rising" (or ""), "falling", "out-and-back"
	Ratio     *big.Rat   // graded: widest to narrowest
	Steps     string     // graded: "equal" (or "") or "proportional"
	Narrowest int        // random
	Widest    int        // random
	Accents   int        // euclid
	Of        int        // euclid
	Mirror    bool
	Seed      *int64 // random: its own seed, in place of the one it would get
}

// Base gives the whole-number weights of the rule before it is turned on its
// centre, and whether it is to be turned. Chance is used by kind "random" only.
func (r Rhythm) Base(chance *rand.Rand) (weights []int64, mirrored bool, err error) {
	weights, err = r.weights(chance)
	if err != nil {
		return nil, false, err
	}
	switch r.Direction {
	case "", "rising":
	case "falling":
		reverse(weights)
	case "out-and-back":
		return weights, true, bounded(2*len(weights) - 1)
	default:
		return nil, false, fmt.Errorf("direction %q is none of rising, falling, out-and-back", r.Direction)
	}
	if r.Mirror {
		return weights, true, bounded(2*len(weights) - 1)
	}
	return weights, false, bounded(len(weights))
}

func (r Rhythm) weights(chance *rand.Rand) ([]int64, error) {
	switch r.Kind {
	case "even":
		return r.even()
	case "repeat":
		return r.repeat()
	case "fibonacci":
		return r.fibonacci()
	case "graded":
		return r.graded()
	case "random":
		return r.random(chance)
	case "euclid":
		return r.euclid()
	}
	return nil, fmt.Errorf("rhythm kind %q is none of even, repeat, fibonacci, graded, random, euclid", r.Kind)
}

func (r Rhythm) even() ([]int64, error) {
	if err := between("stripes", r.Stripes, 1, MaxStripes); err != nil {
		return nil, err
	}
	weights := make([]int64, r.Stripes)
	for i := range weights {
		weights[i] = 1
	}
	return weights, nil
}

func (r Rhythm) repeat() ([]int64, error) {
	times := r.Times
	if times == 0 {
		times = 1
	}
	if err := between("times", times, 1, MaxStripes); err != nil {
		return nil, err
	}
	if err := bounded(len(r.Weights) * times); err != nil {
		return nil, err
	}
	motif, err := Whole(r.Weights)
	if err != nil {
		return nil, err
	}
	weights := make([]int64, 0, len(motif)*times)
	for range times {
		weights = append(weights, motif...)
	}
	return weights, nil
}

// fibonacci gives terms of 1 1 2 3 5 8 ... (OEIS A000045 without its 0), from
// the first that equals From.
func (r Rhythm) fibonacci() ([]int64, error) {
	if err := between("terms", r.Terms, 1, MaxTerms); err != nil {
		return nil, err
	}
	a, b := int64(1), int64(1)
	from := int64(max(r.From, 1))
	for a < from {
		a, b = b, a+b
	}
	if a != from {
		return nil, fmt.Errorf("from = %d is not a Fibonacci number: the nearest are %d and %d", r.From, b-a, a)
	}
	weights := make([]int64, r.Terms)
	for i := range weights {
		if weights[i] = a; a > 1<<40 {
			return nil, errTooFine
		}
		a, b = b, a+b
	}
	return weights, nil
}

func (r Rhythm) random(chance *rand.Rand) ([]int64, error) {
	if err := between("stripes", r.Stripes, 1, MaxStripes); err != nil {
		return nil, err
	}
	if err := between("narrowest", r.Narrowest, 1, MaxWeight); err != nil {
		return nil, err
	}
	if err := between("widest", r.Widest, r.Narrowest, MaxWeight); err != nil {
		return nil, err
	}
	if r.Seed != nil {
		chance = Chance(*r.Seed, 0)
	}
	weights := make([]int64, r.Stripes)
	for i := range weights {
		weights[i] = int64(r.Narrowest) + chance.Int64N(int64(r.Widest-r.Narrowest)+1)
	}
	return weights, nil
}

func (r Rhythm) euclid() ([]int64, error) {
	if err := between("of", r.Of, 1, MaxStripes); err != nil {
		return nil, err
	}
	if err := between("accents", r.Accents, 1, r.Of); err != nil {
		return nil, err
	}
	return Euclid(r.Accents, r.Of), nil
}

// Chance is the generator for one purpose: seed is the weaver's, stream tells
// the purposes apart. It is the PCG of math/rand/v2, whose sequence is pinned
// by a test.
func Chance(seed int64, stream uint64) *rand.Rand {
	return rand.New(rand.NewPCG(uint64(seed), stream))
}

// Whole multiplies weights up to whole numbers in the same proportions.
func Whole(weights []*big.Rat) ([]int64, error) {
	if len(weights) == 0 {
		return nil, fmt.Errorf("weights is empty: give at least one")
	}
	common := big.NewInt(1)
	for _, w := range weights {
		if w.Sign() <= 0 {
			return nil, fmt.Errorf("a weight must be more than 0, not %s", w.RatString())
		}
		step := new(big.Int).GCD(nil, nil, common, w.Denom())
		common.Mul(common, new(big.Int).Quo(w.Denom(), step))
		if common.BitLen() > 40 {
			return nil, errTooFine
		}
	}
	whole := make([]int64, len(weights))
	for i, w := range weights {
		n := new(big.Int).Mul(w.Num(), new(big.Int).Quo(common, w.Denom()))
		if n.BitLen() > 50 {
			return nil, errTooFine
		}
		whole[i] = n.Int64()
	}
	return whole, nil
}

func between(what string, n, low, high int) error {
	if n < low || n > high {
		return fmt.Errorf("%s must be from %d to %d, not %d", what, low, high, n)
	}
	return nil
}

func bounded(stripes int) error {
	if stripes > MaxStripes {
		return fmt.Errorf("%d stripes are more than the %d a rhythm may have", stripes, MaxStripes)
	}
	return nil
}

func reverse[T any](s []T) {
	for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
		s[i], s[j] = s[j], s[i]
	}
}
