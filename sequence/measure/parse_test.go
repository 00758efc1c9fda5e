package measure_test

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

func rat(num, den int64) *big.Rat { return big.NewRat(num, den) }

func assertRat(t *testing.T, want, got *big.Rat, what string) {
	t.Helper()
	if assert.NotNil(t, got, what) {
		assert.Equal(t, want.RatString(), got.RatString(), what)
	}
}

// The yard is 0.9144 m exactly (international yard and pound agreement, 1959);
// inch and foot are parts of it.
func TestLengthsAreExact(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"46 cm":          rat(460, 1),
		"46cm":           rat(460, 1),
		"6 mm":           rat(6, 1),
		"3 m":            rat(3000, 1),
		"3 Metres":       rat(3000, 1),
		"18 in":          rat(4572, 10),
		"18 inches":      rat(4572, 10),
		"1 inch":         rat(254, 10),
		`4"`:             rat(1016, 10),
		"4″":             rat(1016, 10),
		"18 in.":         rat(4572, 10),
		"1 1/2 in":       rat(381, 10),
		"18½ in":         rat(4699, 10),
		"1⁄3 yd":         rat(3048, 10),
		"3/4 yard":       rat(6858, 10),
		"4.5 yd":         rat(41148, 10),
		"2 feet":         rat(6096, 10),
		"1 ft":           rat(3048, 10),
		".5 m":           rat(500, 1),
		"0 cm":           rat(0, 1),
		"0.1 mm":         rat(1, 10),
		"\t46\u00a0cm\n": rat(460, 1),
		"46\u202fCM":     rat(460, 1),
		"1\u20091/2 in":  rat(381, 10),
		"27 1/4 in":      rat(69215, 100),
		"27.25 in":       rat(69215, 100),
		"27-1/4 in":      rat(69215, 100),
		"27¼ in":         rat(69215, 100),
		"4 yd 18 in":     rat(41148, 10),
		"4 yd. 18 in.":   rat(41148, 10),
		"1 yd 2 ft":      rat(15240, 10),
		"1 yd 1 ft 1 in": rat(12446, 10),
		`2' 3"`:          rat(6858, 10),
		"1 1/2 ft 3 in":  rat(5334, 10),
	} {
		got, err := measure.ParseLength(text)
		if assert.NoError(t, err, text) {
			assertRat(t, want, got.MM, text)
		}
	}
}

// The pound is 453.59237 g exactly, the ounce a sixteenth of it.
func TestWeightsAreExact(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"225 g":    rat(225, 1),
		"1.5 kg":   rat(1500, 1),
		"1 lb":     rat(45359237, 100000),
		"2 pounds": rat(45359237, 50000),
		"16 oz":    rat(45359237, 100000),
		"1/2 lbs":  rat(45359237, 200000),
		"8 ounces": rat(45359237, 200000),
	} {
		got, err := measure.ParseWeight(text)
		if assert.NoError(t, err, text) {
			assertRat(t, want, got.Grams, text)
		}
	}
}

func TestDensitiesAreExact(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"8/cm":                rat(8, 10),
		"20/in":               rat(200, 254),
		"80/10cm":             rat(8, 10),
		"80/10 cm":            rat(8, 10),
		"80 / 10 cm":          rat(8, 10),
		"7.5/cm":              rat(75, 100),
		"13 1/3 /in":          rat(400, 3*254),
		"13 1/3 per inch":     rat(400, 3*254),
		"24 per 2 in":         rat(120, 254),
		`20/"`:                rat(200, 254),
		"1/mm":                rat(1, 1),
		"\u00a08\u00a0/\tcm ": rat(8, 10),
	} {
		got, err := measure.ParseDensity(text)
		if assert.NoError(t, err, text) {
			assertRat(t, want, got.PerMM, text)
		}
	}
}

func TestSharesAreExact(t *testing.T) {
	for text, want := range map[string]*big.Rat{
		"8%": rat(8, 100), "8 %": rat(8, 100), "0%": rat(0, 1), "100%": rat(1, 1),
		"12.5%": rat(1, 8), "33 1/3%": rat(1, 3), "½%": rat(1, 200),
	} {
		got, err := measure.ParseShare(text)
		if assert.NoError(t, err, text) {
			assertRat(t, want, got.Part, text)
		}
	}
}

func TestAmountIsALengthOrAWeight(t *testing.T) {
	length, err := measure.ParseAmount("900 m")
	require.NoError(t, err)
	assertRat(t, rat(900000, 1), length.MM, "900 m")
	assert.Nil(t, length.Grams)

	weight, err := measure.ParseAmount("225 g")
	require.NoError(t, err)
	assertRat(t, rat(225, 1), weight.Grams, "225 g")
	assert.Nil(t, weight.MM)
}

// Every error says what to do; each row is the whole of one.
func TestErrorsSayWhatToWrite(t *testing.T) {
	length := func(s string) error { _, err := measure.ParseLength(s); return err }
	weight := func(s string) error { _, err := measure.ParseWeight(s); return err }
	density := func(s string) error { _, err := measure.ParseDensity(s); return err }
	share := func(s string) error { _, err := measure.ParseShare(s); return err }
	amount := func(s string) error { _, err := measure.ParseAmount(s); return err }
	for _, c := range []struct {
		parse      func(string) error
		text, want string
	}{
		{length, "46", `46 has no unit: write "46 cm" or "46 in"`},
		{length, "1 1/2", `1 1/2 has no unit: write "1 1/2 cm" or "1 1/2 in"`},
		{length, "", `a length is missing: write for instance "46 cm" or "18 in"`},
		{length, "\u00a0", `a length is missing: write for instance "46 cm" or "18 in"`},
		{length, "wide", `"wide" is not a length: write for instance "46 cm" or "18 in"`},
		{length, "NaN cm", `"NaN cm" is not a length: write for instance "46 cm" or "18 in"`},
		{length, "inf", `"inf" is not a length: write for instance "46 cm" or "18 in"`},
		{length, "-4 cm", `length "-4 cm": "-4" is negative: write a number from 0 up`},
		{length, "−4 cm", `length "−4 cm": "−4" is negative: write a number from 0 up`},
		{length, "1e3 cm", `length "1e3 cm": write the number out, without an exponent`},
		{length, "1e999999999", `length "1e999999999": write the number out, without an exponent`},
		{length, "1E-3 m", `length "1E-3 m": write the number out, without an exponent`},
		{length, "46 kg",
			`"46 kg" is a weight, not a length: write for instance "46 cm" or "18 in"`},
		{length, "46 ells",
			`length "46 ells": unknown unit "ells": write it in mm, cm, m, in, ft or yd, for instance "46 cm" or "18 in"`},
		{length, "1,5 cm",
			`length "1,5 cm": "1,5" has a comma: write "1.5"`},
		{length, "1,500 m",
			`length "1,500 m": "1,500" has a comma: write "1.5" for a decimal, "1000" for a thousand`},
		{length, "80/10cm",
			`length "80/10cm": fraction "80/10" is not less than one: write "1 1/2", not "3/2"`},
		{length, "1/0 cm",
			`length "1/0 cm": fraction "1/0" is not less than one: write "1 1/2", not "3/2"`},
		{length, "1.5 1/2 in",
			`length "1.5 1/2 in": "1.5 1/2" mixes a decimal and a fraction: write "1.5" or "1 1/2"`},
		{length, "1 2 in",
			`length "1 2 in": "2" is not a number: write it as "8", "0.5" or "1 1/2"`},
		{length, "1.2.3 in",
			`length "1.2.3 in": "1.2.3" is not a number: write it as "8", "0.5" or "1 1/2"`},
		{length, "5. cm",
			`length "5. cm": "5." is not a number: write it as "8", "0.5" or "1 1/2"`},
		{length, "1 1/ in",
			`length "1 1/ in": "1/" is not a number: write it as "8", "0.5" or "1 1/2"`},
		{length, "8-10 cm",
			`length "8-10 cm": "8-10" is not a number: write it as "8", "0.5" or "1 1/2"`},
		{length, "1234567890123 cm",
			`length "1234567890123 cm": number "1234567890123" is too long: write at most 12 digits`},
		{length, "0.1234567890123 cm",
			`length "0.1234567890123 cm": number "0.1234567890123" is too long: write at most 12 digits`},
		{length, "1/1234567890123 cm",
			`length "1/1234567890123 cm": number "1234567890123" is too long: write at most 12 digits`},
		{length, "1234567890123/2 cm",
			`length "1234567890123/2 cm": number "1234567890123" is too long: write at most 12 digits`},
		{length, "1234567890123 1/2 cm",
			`length "1234567890123 1/2 cm": number "1234567890123" is too long: write at most 12 digits`},
		{weight, "225", `225 has no unit: write "225 g" or "225 oz"`},
		{weight, "900 m",
			`"900 m" is a length, not a weight: write for instance "225 g" or "8 oz"`},
		{amount, "900", `900 has no unit: write "900 m" or "900 g"`},
		{amount, "2 cones",
			`length or weight "2 cones": unknown unit "cones": write it in mm, cm, m, in, ft, yd, g, kg, oz or lb, for instance "900 m" or "225 g"`},
		{density, "20", `20 has no unit: write "20/cm" or "20/in"`},
		{density, "", `a thread count is missing: write for instance "8/cm" or "20/in"`},
		{density, "80/10", `"80/10" has no unit: write "80/10cm" or "80/10in"`},
		{density, "8/", `"8/" has no unit: write "8/cm" or "8/in"`},
		{density, "20 cm", `"20 cm" is a length, not a thread count: write "20/cm"`},
		{density, "24 epi", `"24 epi": write "24/in"`},
		{density, "24 per",
			`thread count "24 per": unknown unit "per": write it in threads to a length, for instance "8/cm" or "20/in"`},
		{density, "0/cm", `thread count "0/cm" is not above 0: write for instance "8/cm" or "20/in"`},
		{density, "8/0cm", `thread count "8/0cm" is not above 0: write for instance "8/cm" or "20/in"`},
		{density, "8/kg",
			`thread count "8/kg": threads lie on a length: write for instance "8/cm" or "20/in"`},
		{density, "/cm", `thread count "/cm": the number is missing: write it as "8", "0.5" or "1 1/2"`},
		{density, "x/cm", `thread count "x/cm": "x" is not a number: write it as "8", "0.5" or "1 1/2"`},
		{share, "8", `8 has no unit: write "8%"`},
		{share, "0.08", `0.08 has no unit: write "0.08%" or "8%"`},
		{share, "", `a percentage is missing: write for instance "8%"`},
		{share, "8 cm", `"8 cm" is a length, not a percentage: write for instance "8%"`},
		{share, "8 percent",
			`percentage "8 percent": unknown unit "percent": write it in percent, for instance "8%"`},
		{share, "-5%", `percentage "-5%": "-5" is negative: write a number from 0 up`},
		{share, "120%", `percentage "120%" is more than the whole: write "0%" to "100%"`},
	} {
		assert.EqualError(t, c.parse(c.text), c.want, "%q", c.text)
	}
}

// What an error proposes must itself be accepted.
func TestWhatErrorsProposeIsRead(t *testing.T) {
	quoted := func(err error) []string {
		var list []string
		for i, part := range strings.Split(err.Error()[strings.Index(err.Error(), "write"):], `"`) {
			if i%2 == 1 {
				list = append(list, part)
			}
		}
		return list
	}
	for text, parse := range map[string]func(string) error{
		"46":    func(s string) error { _, err := measure.ParseLength(s); return err },
		"1 1/2": func(s string) error { _, err := measure.ParseLength(s); return err },
		"225":   func(s string) error { _, err := measure.ParseWeight(s); return err },
		"900":   func(s string) error { _, err := measure.ParseAmount(s); return err },
		"80/10": func(s string) error { _, err := measure.ParseDensity(s); return err },
		"24ppi": func(s string) error { _, err := measure.ParseDensity(s); return err },
		"0.08":  func(s string) error { _, err := measure.ParseShare(s); return err },
	} {
		proposals := quoted(parse(text))
		require.NotEmpty(t, proposals, text)
		for _, p := range proposals {
			assert.NoError(t, parse(p), "proposed for %q", text)
		}
	}
}

func TestNumber(t *testing.T) {
	n, err := measure.ParseNumber(" 2 3/8 ")
	require.NoError(t, err)
	assertRat(t, rat(19, 8), n, "2 3/8")
	_, err = measure.ParseNumber("")
	assert.EqualError(t, err, `the number is missing: write it as "8", "0.5" or "1 1/2"`)
	_, err = measure.ParseNumber("1 a/b")
	assert.Error(t, err)
}
