package measure

import (
	"math"
	"math/big"
)

var half = big.NewRat(1, 2)

// HalfUp rounds to the nearest whole number, a tie towards plus infinity.
func HalfUp(r *big.Rat) int { return Floor(new(big.Rat).Add(r, half)) }

// NearestEven rounds to the nearest even number, a tie (an odd whole number)
// to the greater.
func NearestEven(r *big.Rat) int { return 2 * HalfUp(new(big.Rat).Mul(r, half)) }

// Ceil rounds up to a whole number.
func Ceil(r *big.Rat) int { return -Floor(new(big.Rat).Neg(r)) }

// Floor rounds down to a whole number. What lies beyond 2^50 comes back as
// 2^50, so that sums and doubles of a few still fit.
func Floor(r *big.Rat) int {
	q := new(big.Int).Div(r.Num(), r.Denom()) // Euclidean: down, since the divisor is positive
	const limit = min(1<<50, math.MaxInt)
	if !q.IsInt64() {
		return limit * q.Sign()
	}
	return int(min(max(q.Int64(), -limit), limit, math.MaxInt))
}

// RoundTo rounds half away from zero to so many decimals.
func RoundTo(v float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(float64(v*scale)) / scale
}
