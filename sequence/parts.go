package sequence

import (
	"fmt"
	"math/big"
)

// fineness is into how many parts a whole is divided at most, so that units can be
// shared by the weights.
const fineness = 1 << 40

// AbsentError says that a group that is to have a share, counted from 0, is not laid.
type AbsentError struct{ Group int }

func (e *AbsentError) Error() string {
	return fmt.Sprintf("group %d is to have a share, and has no stripe", e.Group+1)
}

// InShares scales the weights of stripes or blocks so that those of one group take one
// share together, and among themselves keep their proportions. Groups tells the group of
// each, numbered from 0 like shares. Mirrored weights are turned on the last. It fails
// with an [AbsentError] where a group has no member.
func InShares(weights []int64, groups []int, shares []int64, mirrored bool) ([]int64, error) {
	sums := make([]int64, len(shares))
	for i, w := range weights {
		if mirrored && i < len(weights)-1 {
			w *= 2
		}
		sums[groups[i]] += w
	}
	for g, sum := range sums {
		if sum == 0 {
			return nil, &AbsentError{Group: g}
		}
	}
	scaled := make([]*big.Rat, len(weights))
	for i, w := range weights {
		share := big.NewRat(shares[groups[i]], sums[groups[i]])
		scaled[i] = share.Mul(share, big.NewRat(w, 1))
	}
	return wholeEnough(scaled)
}

// Centred shares out a width of 1 among an odd number of blocks: their weights, but
// those before and after the middle one scaled so that its own middle lies at a part of
// the width, 0 to 1. It fails where there is no middle, or no room beside it.
func Centred(weights []int64, at *big.Rat) ([]int64, error) {
	middle := len(weights) / 2
	if len(weights)%2 == 0 || len(weights) < 3 {
		return nil, fmt.Errorf("centre wants a middle block: " +
			"an odd number of letters, three at least")
	}
	left, right := added(weights[:middle]), added(weights[middle+1:])
	sum := left + weights[middle] + right
	half := big.NewRat(weights[middle], 2*sum)
	before := new(big.Rat).Sub(at, half)
	after := new(big.Rat).Sub(big.NewRat(1, 1), new(big.Rat).Add(at, half))
	if before.Sign() <= 0 || after.Sign() <= 0 {
		return nil, fmt.Errorf("centre leaves no room beside the middle block, "+
			"which is %s of the width", percent(2*weights[middle], 2*sum))
	}
	scaled := make([]*big.Rat, len(weights))
	for i, w := range weights {
		switch {
		case i < middle:
			scaled[i] = times(before, w, left)
		case i > middle:
			scaled[i] = times(after, w, right)
		default:
			scaled[i] = big.NewRat(w, sum)
		}
	}
	return wholeEnough(scaled)
}

func added(weights []int64) (sum int64) {
	for _, w := range weights {
		sum += w
	}
	return sum
}

// times is the part w of sum of a number.
func times(r *big.Rat, w, sum int64) *big.Rat { return new(big.Rat).Mul(r, big.NewRat(w, sum)) }

// percent is a part of a sum in whole per cent, rounded half up.
func percent(part, sum int64) string { return fmt.Sprintf("%d %%", (200*part+sum)/(2*sum)) }

// wholeEnough is weights as whole numbers: exactly, or, where that takes large ones,
// as parts of a whole that is finely divided, rounded half up, one at least.
func wholeEnough(weights []*big.Rat) ([]int64, error) {
	if exact, err := Whole(weights); err == nil && added(exact) <= fineness {
		return exact, nil
	}
	sum := new(big.Rat)
	for _, w := range weights {
		sum.Add(sum, w)
	}
	whole := make([]int64, len(weights))
	for i, w := range weights {
		part := new(big.Rat).Quo(w, sum)
		part.Mul(part, big.NewRat(fineness, 1)).Add(part, big.NewRat(1, 2))
		whole[i] = max(1, new(big.Int).Quo(part.Num(), part.Denom()).Int64())
	}
	return whole, nil
}
