package measure_test

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

// TestFormats: each scale, and where the next begins. Worked by hand from the
// inch of 25.4 mm, the yard of 914.4 mm and the pound of 453.59237 g
// (international yard and pound agreement of 1959), 16 ounces to the pound.
func TestFormats(t *testing.T) {
	for want, got := range map[string]string{
		"199.9 cm":   measure.FormatLength(1999, "cm"),
		"2.00 m":     measure.FormatLength(2000, "cm"),
		"10.00 m":    measure.FormatLength(10_000, "cm"),
		"10 in":      measure.FormatLength(254, "in"),
		"27 1/4 in":  measure.FormatLength(27.3*25.4, "in"), // 218.4 eighths
		"7/8 in":     measure.FormatLength(22, "in"),        // 6.93 eighths
		"5/16 in":    measure.FormatLength(7.7, "in"),       // 4.85 sixteenths
		"1/2 in":     measure.FormatLength(12.7, "in"),
		"0.02 in":    measure.FormatLength(0.5, "in"),
		"0 in":       measure.FormatLength(0.1, "in"),
		"71 7/8 in":  measure.FormatLength(71.9*25.4, "in"),
		"108 in":     measure.FormatLength(2743.2, "in"),
		"3 yd 1 in":  measure.FormatLength(2743.2+20, "in"),
		"20 yd":      measure.FormatLength(18_288, "in"),
		"4 yd 18 in": measure.FormatWarpPart(4.5*914.4+10, "in"),
		"6.53 m":     measure.FormatWarpPart(6531, "cm"),
		"16 in":      measure.FormatDistance(0.4, "in"),   // 15.7
		"6 1/2 ft":   measure.FormatDistance(2, "in"),     // 6.56
		"15 ft":      measure.FormatDistance(4.572, "in"), // 5 yd
		"33 ft":      measure.FormatDistance(10, "in"),    // 32.8
		"0.4 m":      measure.FormatDistance(0.4, "cm"),
		"4.57 m":     measure.FormatDistance(4.572, "cm"),
		"333 g/m²":   measure.FormatCloth(332.957, "cm"), // and in ounces, 332.957 / 33.906
		"9.8 oz/yd²": measure.FormatCloth(332.957, "in"),
		"999 g":      measure.FormatWeight(999, "cm"),
		"1.00 kg":    measure.FormatWeight(1000, "cm"),
		"20.00 kg":   measure.FormatWeight(20_000, "cm"),
		"15.0 oz":    measure.FormatWeight(425.24284875, "in"),
		"1.00 lb":    measure.FormatWeight(453.59237, "in"),
		"100.00 m":   measure.FormatLength(100_000, "cm"),
		"1000 yd":    measure.FormatYarn(914.4, "in"),
	} {
		assert.Equal(t, want, got)
	}
}

// TestNumbersThatAreNone: a fraction is digits over digits, and a mixed number
// is whole digits before one.
func TestNumbersThatAreNone(t *testing.T) {
	for _, text := range []string{"1/2.5", "1.5/2", "1.0 1/2", "1. 1/2", "x/2", "1/x", "/2", "1/"} {
		_, err := measure.ParseNumber(text)
		assert.Error(t, err, text)
	}
	n, err := measure.ParseNumber("1 1/2")
	require.NoError(t, err)
	assert.Zero(t, n.Cmp(big.NewRat(3, 2)))
}

// TestFormatWarpRoundsUp by hand: to the next whole cm, mm below 2 m, or inch: 4114.8 mm are
// 162 in, 3657.6 four yards, 762 30 in.
func TestFormatWarpRoundsUp(t *testing.T) {
	for _, c := range []struct {
		mm    float64
		units string
		want  string
	}{
		{4421.1957, "cm", "4.43 m"},
		{4420, "cm", "4.42 m"},
		{4420.0001, "cm", "4.43 m"},
		{1500.01, "cm", "150.1 cm"},
		{1500, "cm", "150.0 cm"},
		{4114.8, "in", "4 yd 18 in"},
		{4114.9, "in", "4 yd 19 in"},
		{3657.6, "in", "4 yd"},
		{762, "in", "30 in"},
		{0, "cm", "0.0 cm"},
	} {
		assert.Equal(t, c.want, measure.FormatWarp(c.mm, c.units), "%v %s", c.mm, c.units)
	}
}

func TestPrintingForPeople(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{measure.FormatLength(460, "cm"), "46.0 cm"},
		{measure.FormatLength(460, "in"), "18 1/8 in"}, // 18.110
		{measure.FormatLength(3870, "cm"), "3.87 m"},
		{measure.FormatLength(3877.056, "in"), "4 yd 9 in"}, // 152.64,
		{measure.FormatLength(1999, "cm"), "199.9 cm"},
		{measure.FormatLength(2000, "cm"), "2.00 m"},
		{measure.FormatLength(1828, "in"), "72 in"}, // 71.97
		{measure.FormatLength(1828.8, "in"), "72 in"},
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

// TestFormatLeastRoundsUp by hand: 203 dents of ten to the inch are 20.3 in, of which eighths are
// 162.4; 54.41 cm are 545 mm in whole ones.
func TestFormatLeastRoundsUp(t *testing.T) {
	for want, got := range map[string]string{
		"20 3/8 in": measure.FormatLeast(20.3*25.4, "in"),
		"20 1/4 in": measure.FormatLeast(20.25*25.4, "in"),
		"3/16 in":   measure.FormatLeast(0.13*25.4, "in"),
		"3 yd 1 in": measure.FormatLeast(108.2*25.4, "in"),
		"54.5 cm":   measure.FormatLeast(544.1, "cm"),
		"54.4 cm":   measure.FormatLeast(544, "cm"),
		"2.01 m":    measure.FormatLeast(2000.5, "cm"),
	} {
		assert.Equal(t, want, got)
	}
}
