package measure

import (
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"stripesong/sequence/exact"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// quantitySeeds are right and wrong ways to write quantities, from the brief's format
// and from what is typed by habit.
var quantitySeeds = []string{"46 cm", "18 in", "4.5 yd", "3 m", "6 mm", "8/cm", "20/in", "80/10cm",
	"8%", "225 g", "8 oz", "1 lb", "1 1/2 yd", `4"`, "½ m", "13 1/3 per inch",
	"46", "20", "0.05", "1,5 m", "-3 cm", "1e3 m", "1/2", "3/2 yd", "0/0 m", "1/0 in",
	"999999999999 yd", "0.000000000001 mm", "20 epi", "８ cm", "8 / cm", "8/0cm", "", " ", "%",
	"/cm", "100%", "101%",
	"1 2 3 cm", "..5 m", "5. m", "0x10 m", "nan m", "inf m", "1\u00a0m", "4 yd 18 in", "27-1/4 in",
	"1 yd 1 yd", "1 in 1 yd", "1/2 yd/2 in", "2' 3\"", "1 cm\x00", "1 \u202em", "1 cm 2", "10⁄4 in",
	"½½ m"}

// FuzzQuantities reads any text as every quantity: what is read prints as
// something that reads the same, and what is not is told in one line.
func FuzzQuantities(f *testing.F) {
	for _, s := range quantitySeeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if !utf8.ValidString(s) {
			return // briefs and flags are UTF-8
		}
		length, err := ParseLength(s)
		again(t, length.MM, err, length.String(), Length{MM: length.MM}.String(),
			func(s string) (*big.Rat, error) { q, err := ParseLength(s); return q.MM, err })
		weight, err := ParseWeight(s)
		require.True(t, err != nil || weight.Grams.Sign() >= 0)
		density, err := ParseDensity(s)
		again(t, density.PerMM, err, density.String(), Density{PerMM: density.PerMM}.String(),
			func(s string) (*big.Rat, error) { q, err := ParseDensity(s); return q.PerMM, err })
		share, err := ParseShare(s)
		again(t, share.Part, err, share.String(), Share{Part: share.Part}.String(),
			func(s string) (*big.Rat, error) { q, err := ParseShare(s); return q.Part, err })
		if err == nil {
			require.True(t, share.Part.Sign() >= 0 && share.Part.Cmp(big.NewRat(1, 1)) <= 0)
		}
		amount, err := ParseAmount(s)
		require.Equal(t, err == nil, (amount.MM == nil) != (amount.Grams == nil),
			"a length or a weight")
		plain(t, err)
		rounds(t, length.MM)
	})
}

// again reads back both the text as typed and the value as reckoned; numbers of
// more digits than may be typed are printed all the same, and refused.
func again(t *testing.T, value *big.Rat, err error, typed, reckoned string,
	parse func(string) (*big.Rat, error)) {
	t.Helper()
	if err != nil {
		plain(t, err)
		require.Nil(t, value)
		require.Empty(t, typed)
		return
	}
	require.GreaterOrEqual(t, value.Sign(), 0)
	read, err := parse(typed)
	require.NoError(t, err, "%q", typed)
	require.Zero(t, value.Cmp(read), typed)
	if read, err = parse(reckoned); err != nil {
		require.Contains(t, err.Error(), "too long", "%q", reckoned)
		return
	}
	require.Zero(t, value.Cmp(read), "%q reads as %v", reckoned, read)
}

// plain holds errors to their form: one line, no full stop, something to do.
func plain(t *testing.T, err error) {
	t.Helper()
	if err == nil {
		return
	}
	require.NotContains(t, err.Error(), "\n")
	require.NotContains(t, err.Error(), "\x1b")
	require.False(t, strings.HasSuffix(err.Error(), "."), "%v", err)
	require.Regexp(t, `write|too long|more than`, err.Error())
}

// rounds checks that whole numbers lie where they should.
func rounds(t *testing.T, r *big.Rat) {
	t.Helper()
	if r == nil || r.Cmp(big.NewRat(1<<40, 1)) > 0 {
		return
	}
	down, up := exact.Floor(r), exact.Ceil(r)
	assert.True(t, big.NewRat(int64(down), 1).Cmp(r) <= 0 && big.NewRat(int64(up), 1).Cmp(r) >= 0 &&
		up-down <= 1)
	half := new(big.Rat).Sub(r, big.NewRat(int64(exact.HalfUp(r)), 1))
	assert.True(t, half.Cmp(big.NewRat(-1, 2)) >= 0 && half.Cmp(big.NewRat(1, 2)) < 0,
		"half up of %v", r)
	even := new(big.Rat).Sub(r, big.NewRat(int64(exact.NearestEven(r)), 1))
	assert.True(t, exact.NearestEven(r)%2 == 0 && even.Cmp(big.NewRat(-1, 1)) >= 0 &&
		even.Cmp(big.NewRat(1, 1)) < 0, "even of %v", r)
}
