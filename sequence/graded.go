package sequence

import (
	"fmt"
	"math/big"
)

// graded gives an arithmetic (equal steps) or geometric (proportional steps)
// progression from the narrowest stripe to one Ratio times as wide.
func (r Rhythm) graded() ([]int64, error) {
	if err := between("stripes", r.Stripes, 1, MaxStripes); err != nil {
		return nil, err
	}
	if r.Ratio == nil || r.Ratio.Cmp(big.NewRat(1, 1)) < 0 || r.Ratio.Cmp(big.NewRat(MaxRatio, 1)) > 0 {
		return nil, fmt.Errorf("ratio must be from 1 to %d, the widest stripe to the narrowest", MaxRatio)
	}
	if r.Stripes == 1 {
		return []int64{1}, nil
	}
	switch r.Steps {
	case "", "equal":
		return r.equalSteps()
	case "proportional":
		return r.proportionalSteps()
	}
	return nil, fmt.Errorf("steps %q is neither equal nor proportional", r.Steps)
}

func (r Rhythm) equalSteps() ([]int64, error) {
	last := int64(r.Stripes - 1)
	step := new(big.Rat).Sub(r.Ratio, big.NewRat(1, 1))
	step.Quo(step, big.NewRat(last, 1))
	weights := make([]*big.Rat, r.Stripes)
	for i := range weights {
		weights[i] = new(big.Rat).Mul(step, big.NewRat(int64(i), 1))
		weights[i].Add(weights[i], big.NewRat(1, 1))
	}
	return Whole(weights)
}

// fine is how many binary places a proportional step is worked out to, and
// guard how many more are carried on the way.
const (
	fine  = 28
	guard = 100
)

// proportionalSteps multiplies on by the (stripes-1)-th root of the ratio. The
// root is taken in whole numbers, so that no floating-point power has a say;
// weights come in units of 2^-28 of the narrowest, rounded half up.
func (r Rhythm) proportionalSteps() ([]int64, error) {
	step := fixedRoot(r.Ratio, r.Stripes-1)
	at := new(big.Int).Lsh(big.NewInt(1), fine+guard)
	half := new(big.Int).Lsh(big.NewInt(1), guard-1)
	weights := make([]int64, r.Stripes)
	for i := range weights {
		rounded := new(big.Int).Add(at, half)
		weights[i] = rounded.Rsh(rounded, guard).Int64()
		at = fixedTimes(at, step)
	}
	return weights, nil
}

// fixedRoot is the n-th root of ratio >= 1 in units of 2^-(fine+guard), found
// by halving the interval from 1 to the ratio.
func fixedRoot(ratio *big.Rat, n int) *big.Int {
	low := new(big.Int).Lsh(big.NewInt(1), fine+guard)
	whole := new(big.Int).Quo(new(big.Int).Lsh(ratio.Num(), fine+guard), ratio.Denom())
	high := new(big.Int).Add(whole, big.NewInt(1))
	for new(big.Int).Sub(high, low).BitLen() > 1 {
		middle := new(big.Int).Add(low, high)
		middle.Rsh(middle, 1)
		if fixedPower(middle, n).Cmp(whole) <= 0 {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

func fixedPower(x *big.Int, n int) *big.Int {
	power := new(big.Int).Lsh(big.NewInt(1), fine+guard)
	for square := new(big.Int).Set(x); n > 0; n >>= 1 {
		if n&1 == 1 {
			power = fixedTimes(power, square)
		}
		square = fixedTimes(square, square)
	}
	return power
}

func fixedTimes(a, b *big.Int) *big.Int {
	product := new(big.Int).Mul(a, b)
	return product.Rsh(product, fine+guard)
}
