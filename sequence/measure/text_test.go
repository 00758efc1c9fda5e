package measure_test

import (
	"encoding"
	"fmt"
	"math/big"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

var (
	_ encoding.TextUnmarshaler = (*measure.Length)(nil)
	_ encoding.TextUnmarshaler = (*measure.Density)(nil)
	_ encoding.TextUnmarshaler = (*measure.Share)(nil)
	_ encoding.TextUnmarshaler = (*measure.Weight)(nil)
	_ encoding.TextUnmarshaler = (*measure.Amount)(nil)
)

type quantities struct {
	Width   measure.Length
	Sett    measure.Density
	TakeUp  measure.Share `toml:"take_up"`
	Package measure.Weight
	OnHand  measure.Amount `toml:"on_hand"`
}

// The decoder skips UnmarshalText on named string types without a word; this
// notices if it ever skips ours.
func TestBriefDecoderReadsQuantities(t *testing.T) {
	var q quantities
	require.NoError(t, toml.Unmarshal([]byte(`
width = "46 cm"
sett = "8/cm"
take_up = "8%"
package = "225 g"
on_hand = "900 m"
`), &q))
	assertRat(t, rat(460, 1), q.Width.MM, "width")
	assertRat(t, rat(8, 10), q.Sett.PerMM, "sett")
	assertRat(t, rat(8, 100), q.TakeUp.Part, "take_up")
	assertRat(t, rat(225, 1), q.Package.Grams, "package")
	assertRat(t, rat(900000, 1), q.OnHand.MM, "on_hand")
}

func TestBriefDecoderPassesOurErrorsOn(t *testing.T) {
	for text, want := range map[string]string{
		`width = "46"`:    `46 has no unit: write "46 cm" or "46 in"`,
		`width = 46`:      `46 has no unit: write "46 cm" or "46 in"`,
		`width = nan`:     `"nan" is not a length`,
		`sett = 20`:       `20 has no unit: write "20/cm" or "20/in"`,
		`take_up = 0.08`:  `0.08 has no unit: write "0.08%" or "8%"`,
		`package = 225`:   `225 has no unit: write "225 g" or "225 oz"`,
		`on_hand = "900"`: `900 has no unit: write "900 m" or "900 g"`,
	} {
		err := toml.Unmarshal([]byte(text), new(quantities))
		assert.ErrorContains(t, err, want, text)
	}
}

// A position in the file comes with errors in strings.
func TestBriefDecoderGivesPositionOfText(t *testing.T) {
	var decode *toml.DecodeError
	err := toml.Unmarshal([]byte("\nwidth = \"46\"\n"), new(quantities))
	require.ErrorAs(t, err, &decode)
	row, _ := decode.Position()
	assert.Equal(t, 2, row)
}

// reads are texts of each kind, and the seeds of the fuzz test.
var reads = []string{"46 cm", "18½ in", "1 1/3 yd", `4"`, "0 mm", "8/cm", "80/10cm", "13 1/3 per inch", "8%", "33 1/3%", "225 g", "1/2 lb"}

// parsers reads a text as each kind and gives its value and its print.
var parsers = map[string]func(string) (*big.Rat, fmt.Stringer, error){
	"length": func(s string) (*big.Rat, fmt.Stringer, error) { q, err := measure.ParseLength(s); return q.MM, q, err },
	"density": func(s string) (*big.Rat, fmt.Stringer, error) {
		q, err := measure.ParseDensity(s)
		return q.PerMM, q, err
	},
	"share": func(s string) (*big.Rat, fmt.Stringer, error) { q, err := measure.ParseShare(s); return q.Part, q, err },
	"weight": func(s string) (*big.Rat, fmt.Stringer, error) {
		q, err := measure.ParseWeight(s)
		return q.Grams, q, err
	},
	"amount": func(s string) (*big.Rat, fmt.Stringer, error) {
		q, err := measure.ParseAmount(s)
		if q.Grams != nil {
			return q.Grams, q, err
		}
		return q.MM, q, err
	},
}

func roundTrips(t *testing.T, text string) (read bool) {
	for kind, parse := range parsers {
		value, printed, err := parse(text)
		if err != nil {
			continue
		}
		read = true
		again, twice, err := parse(printed.String())
		require.NoError(t, err, "%s %q printed as %q", kind, text, printed)
		assert.Zero(t, value.Cmp(again), "%s %q printed as %q", kind, text, printed)
		assert.Equal(t, printed.String(), twice.String())
		assert.GreaterOrEqual(t, value.Sign(), 0)
	}
	return read
}

func TestPrintThenReadGivesItBack(t *testing.T) {
	for _, text := range reads {
		assert.True(t, roundTrips(t, text), text)
	}
}

func FuzzPrintThenReadGivesItBack(f *testing.F) {
	for _, text := range reads {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) { roundTrips(t, text) })
}

// Values that were reckoned, not read, print exactly too.
func TestReckonedValuesPrintExactly(t *testing.T) {
	for _, c := range []struct {
		q    fmt.Stringer
		want string
	}{
		{measure.Length{MM: rat(3048, 10)}, "304.8 mm"},
		{measure.Length{MM: rat(4, 3)}, "1 1/3 mm"},
		{measure.Length{MM: rat(1, 3)}, "1/3 mm"},
		{measure.Density{PerMM: rat(4, 5)}, "0.8/mm"},
		{measure.Density{PerMM: rat(200, 254)}, "100/127/mm"},
		{measure.Share{Part: rat(1, 8)}, "12.5%"},
		{measure.Weight{Grams: rat(45359237, 100000)}, "453.59237 g"},
		{measure.Amount{Grams: rat(5, 2)}, "2.5 g"},
		{measure.Amount{MM: rat(5, 2)}, "2.5 mm"},
		{measure.Length{}, ""},
		{measure.Share{}, ""},
		{measure.Amount{}, ""},
	} {
		assert.Equal(t, c.want, c.q.String())
		if c.want != "" {
			assert.True(t, roundTrips(t, c.want), c.want)
		}
	}
}
