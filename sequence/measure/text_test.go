package measure_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

// reads are texts of each kind, and the seeds of the fuzz test.
var reads = []string{"46 cm", "18½ in", "1 1/3 yd", `4"`, "0 mm", "8/cm", "80/10cm",
	"13 1/3 per inch", "8%", "33 1/3%", "225 g", "1/2 lb"}

// parsers reads a text as each kind and gives its value and its print.
var parsers = map[string]func(string) (*big.Rat, fmt.Stringer, error){
	"length": func(s string) (*big.Rat, fmt.Stringer, error) {
		q, err := measure.ParseLength(s)
		return q.MM, q, err
	},
	"density": func(s string) (*big.Rat, fmt.Stringer, error) {
		q, err := measure.ParseDensity(s)
		return q.PerMM, q, err
	},
	"share": func(s string) (*big.Rat, fmt.Stringer, error) {
		q, err := measure.ParseShare(s)
		return q.Part, q, err
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
