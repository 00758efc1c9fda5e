package exact

import (
	"math"
	"math/big"
)

var half = big.NewRat(1, 2)

// HalfUp rounds to the nearest whole number, a tie towards plus infinity.
func HalfUp(r *big.Rat) int { return Floor(Plus(r, half)) }

// NearestEven rounds to the nearest even number, a tie (an odd whole number)
// to the greater.
func NearestEven(r *big.Rat) int { return 2 * HalfUp(Times(r, half)) }

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

var tenThousand = big.NewRat(10_000, 1)

// Rounded is a value to four decimals, a tie towards plus infinity.
func Rounded(r *big.Rat) float64 {
	n := Plus(Times(r, tenThousand), half)
	return float64(new(big.Int).Div(n.Num(), n.Denom()).Int64()) / 10_000
}

// Float is the nearest floating-point number.
func Float(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}

// RoundTo rounds a value that was never exact to so many decimals, half away from
// zero; there is no minus before nothing.
func RoundTo(v float64, decimals int) float64 {
	scale := math.Pow10(decimals)
	return math.Round(float64(v*scale))/scale + 0
}
