package measure_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/measure"
)

func TestRounding(t *testing.T) {
	for _, c := range []struct {
		r                      *big.Rat
		halfUp, even, up, down int
	}{
		{rat(0, 1), 0, 0, 0, 0},
		{rat(1, 2), 1, 0, 1, 0},
		{rat(49, 100), 0, 0, 1, 0},
		{rat(1, 1), 1, 2, 1, 1}, // a tie between 0 and 2 goes up
		{rat(999, 1000), 1, 0, 1, 0},
		{rat(5, 2), 3, 2, 3, 2},
		{rat(3, 1), 3, 4, 3, 3},
		{rat(35, 10), 4, 4, 4, 3},
		{rat(5, 1), 5, 6, 5, 5},
		{rat(-1, 2), 0, 0, 0, -1},
		{rat(-3, 2), -1, -2, -1, -2},
		{rat(-1, 1), -1, 0, -1, -1},
	} {
		assert.Equal(t, c.halfUp, measure.HalfUp(c.r), "half up of %v", c.r)
		assert.Equal(t, c.even, measure.NearestEven(c.r), "nearest even of %v", c.r)
		assert.Equal(t, c.up, measure.Ceil(c.r), "up from %v", c.r)
		assert.Equal(t, c.down, measure.Floor(c.r), "down from %v", c.r)
	}
}

// No other whole (or even) number lies nearer, and of two as near the greater
// is taken.
func TestRoundingIsNearest(t *testing.T) {
	distance := func(r *big.Rat, n int) *big.Rat {
		d := new(big.Rat).Sub(r, rat(int64(n), 1))
		return d.Abs(d)
	}
	for den := int64(1); den <= 8; den++ {
		for num := -5 * den; num <= 5*den; num++ {
			r := rat(num, den)
			whole, even := measure.HalfUp(r), measure.NearestEven(r)
			assert.Zero(t, even%2)
			assert.Negative(t, distance(r, whole).Cmp(distance(r, whole+1)), "%v", r)
			assert.LessOrEqual(t, distance(r, whole).Cmp(distance(r, whole-1)), 0, "%v", r)
			assert.Negative(t, distance(r, even).Cmp(distance(r, even+2)), "%v", r)
			assert.LessOrEqual(t, distance(r, even).Cmp(distance(r, even-2)), 0, "%v", r)
		}
	}
}

func TestRoundingIsBounded(t *testing.T) {
	huge := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(40), nil))
	assert.Equal(t, 1<<50, measure.Floor(huge))
	assert.Equal(t, -1<<50, measure.Floor(new(big.Rat).Neg(huge)))
	assert.Equal(t, 1<<50, measure.HalfUp(rat(math.MaxInt64, 1)))
}

func TestPrintingForPeople(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{measure.FormatLength(460, "cm"), "46.0 cm"},
		{measure.FormatLength(460, "in"), "18.1 in"}, // 18.110
		{measure.FormatLength(3870, "cm"), "3.87 m"},
		{measure.FormatLength(3877.056, "in"), "4.24 yd"},
		{measure.FormatLength(1999, "cm"), "199.9 cm"},
		{measure.FormatLength(2000, "cm"), "2.00 m"},
		{measure.FormatLength(1828, "in"), "72.0 in"}, // 71.97
		{measure.FormatLength(1828.8, "in"), "2.00 yd"},
		{measure.FormatLength(0, "cm"), "0.0 cm"},
		{measure.FormatLength(-0.01, "cm"), "0.0 cm"},
		{measure.FormatLength(-12, "cm"), "-1.2 cm"},
		{measure.FormatLength(2.5, "cm"), "0.3 cm"}, // a tie goes up
		{measure.FormatWeight(224.6, "cm"), "225 g"},
		{measure.FormatWeight(1250, "cm"), "1.25 kg"},
		{measure.FormatWeight(225, "in"), "7.9 oz"}, // 7.937
		{measure.FormatWeight(453.59237, "in"), "1.00 lb"},
		{measure.FormatYarn(968, "cm"), "968 m"},
		{measure.FormatYarn(968, "in"), "1059 yd"}, // 1058.6
		{measure.FormatDensity(0.8, "cm"), "8.0/cm"},
		{measure.FormatDensity(0.8, "in"), "20.3/in"}, // 20.32
		{measure.FormatLength(math.NaN(), "cm"), "NaN cm"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}
