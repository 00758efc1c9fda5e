package yarn

import (
	"math/big"

	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// Grams is the weight of metres of a yarn, exact. Tex is grams to 1000 m.
func Grams(metres, tex *big.Rat) *big.Rat {
	return exact.Over(exact.Times(metres, tex), exact.Whole(1000))
}

// Metres is the length of grams of a yarn, exact. The tex must not be 0.
func Metres(grams, tex *big.Rat) *big.Rat {
	return exact.Over(exact.Times(grams, exact.Whole(1000)), tex)
}

// MetresOf is the metres in an amount of a yarn that was told as a length or
// as a weight, exact; nil where nothing was told.
func MetresOf(a measure.Amount, tex *big.Rat) *big.Rat {
	switch {
	case a.MM != nil:
		return exact.Over(a.MM, exact.Whole(1000))
	case a.Grams != nil:
		return Metres(a.Grams, tex)
	}
	return nil
}

// Packages is how many packages of metres each hold the metres needed,
// rounded up; 0 where nothing is needed. A package must hold something.
func Packages(need, each *big.Rat) int {
	if need.Sign() <= 0 {
		return 0
	}
	return exact.Ceil(exact.Over(need, each))
}
