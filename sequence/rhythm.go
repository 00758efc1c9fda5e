package sequence

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
)

// Limits that keep work bounded before it is begun.
const (
	MaxStripes = 1000
	MaxTerms   = 30
	MaxRatio   = 1000
	MaxWeight  = 1_000_000
)

// Rhythm is a rule for the widths of stripes, and what any rule may have.
type Rhythm struct {
	Kind
	Mirror bool
	Seed   *int64 // of a kind with chance in it: its own, in place of the one it would get
}

// Base gives the whole-number weights of the rule before it is turned on its
// centre, and whether it is to be turned. Chance is used by a kind that has it in
// its [Spec], and no seed of its own.
func (r Rhythm) Base(chance *rand.Rand) (weights []int64, mirrored bool, err error) {
	spec := r.Spec()
	for _, p := range spec.Parameters {
		if err := p.check(); err != nil {
			return nil, false, err
		}
	}
	if r.Seed != nil {
		chance = Chance(*r.Seed, 0)
	}
	if weights, err = r.Weights(chance); err != nil {
		return nil, false, err
	}
	stripes := len(weights)
	if mirrored = r.Mirror || spec.Direction == outAndBack; mirrored {
		stripes = 2*stripes - 1
	}
	if spec.Direction == falling {
		slices.Reverse(weights)
	}
	return weights, mirrored, bounded(stripes)
}

// String is the rhythm as a weaver would say it, without its seed.
func (r Rhythm) String() string {
	spec := r.Spec()
	said := spec.Words
	for _, p := range spec.Parameters {
		said = strings.ReplaceAll(said, "{"+p.Key+"}", p.Text(3, " "))
	}
	if r.Mirror && spec.Direction != outAndBack {
		said += ", mirrored"
	}
	return said
}

// Draw draws a rhythm of the kind of that name for so many units: few enough
// stripes to be seen as such, and numbers a weaver would choose herself.
func Draw(kind string, units int, chance *rand.Rand) *Rhythm {
	r := &Rhythm{Kind: NewKind(kind)}
	r.draw(max(units/3, 2), chance) // three units on average can still be seen
	if r.Spec().Direction != outAndBack {
		r.Mirror = chance.IntN(3) == 0
	}
	return r
}

// drawn draws a number from low to high, or low.
func drawn(low, high int, chance *rand.Rand) int {
	return low + chance.IntN(max(high-low, 0)+1)
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
