package brief

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

const measurements = `ruler = "2 mm"
scale = "5 g"

[width]
reed     = "50 cm"
finished = "43 cm"
within   = "4 mm"

[warp]
wound    = "6 m"
leftover = "1 mm"

[[weft]]
colour = "oat"
picks  = 640
used   = "52 g"

[[weft]]
colour  = "plum"
picks   = 100
used    = "60 m"
strands = 2

[[weft]]
colour = "plum"
picks  = 100
used   = "60 m"
to     = "50 cm"
`

func TestParseMeasured(t *testing.T) {
	m, err := ParseMeasured("m.toml", []byte(measurements))
	require.NoError(t, err)
	of := func(mm, off int64, text string) *Reading {
		return &Reading{big.NewRat(mm, 1), big.NewRat(off, 1), text}
	}
	metres := func(n int64) measure.Amount { return measure.Amount{MM: big.NewRat(n, 1)} }
	t.Run("readings and how far they may be off", func(t *testing.T) {
		assert.Equal(t, of(500, 4, "50 cm"), m.Width.Reed)
		assert.Equal(t, of(430, 4, "43 cm"), m.Width.Finished)
		assert.Equal(t, of(6000, 2, "6 m"), m.Warp.Wound)
		assert.Equal(t, of(1, 2, "1 mm"), m.Warp.Leftover)
	})
	t.Run("what was not measured", func(t *testing.T) {
		assert.Nil(t, m.Width.Fell)
		assert.Nil(t, m.Long.Woven)
	})
	t.Run("weft", func(t *testing.T) {
		require.Len(t, m.Weft, 3)
		assert.Equal(t, "52", m.Weft[0].Used.Grams.RatString())
		assert.Equal(t, "5", m.Weft[0].Off.Grams.RatString(), "the scale's")
		assert.Equal(t, 2, m.Weft[1].Strands)
		assert.Equal(t, metres(1000).MM, m.Weft[1].Off.MM, "a metre, where it is not said")
		assert.Equal(t, metres(500).MM, m.Weft[2].Off.MM)
	})
	t.Run("the template has nothing measured yet", func(t *testing.T) {
		empty, err := ParseMeasured("m.toml", MeasuredTemplate())
		require.NoError(t, err)
		assert.Nil(t, empty.Width.Reed)
		assert.Empty(t, empty.Weft)
	})
	for _, one := range []struct{ name, text, says string }{
		{"no TOML", "= 3", "m.toml:1:1: invalid character at start of key: U+003D '='"},
		{"an unknown key", "[width]\nloom = \"1 m\"\n",
			"m.toml:2:1: width.loom: there is no such key"},
		{"less than the ruler tells", "[width]\nreed = \"1 mm\"\n",
			"m.toml:2:8: width.reed: must be more than it may be off"},
		{"weft without its colour", "[[weft]]\npicks = 1\nused = \"1 g\"\n",
			"m.toml:1:3: weft.colour: is missing"},
		{"metres to grams", "[[weft]]\ncolour = \"oat\"\npicks = 1\nused = \"1 m\"\nto = \"1 g\"\n",
			"m.toml:5:6: weft.to: is not of the kind of used"},
	} {
		t.Run(one.name+" is refused", func(t *testing.T) {
			_, err := ParseMeasured("m.toml", []byte(one.text))
			assert.EqualError(t, err, one.says)
		})
	}
	for _, one := range []struct{ name, key, says string }{
		{"a reading", "width.reed", "m.toml:5:12: width.reed: is wrong"},
		{"the weft", "weft", "m.toml:13:3: weft: is wrong"},
		{"what is not there", "length.woven", "m.toml: length.woven: is wrong"},
	} {
		t.Run("a problem found later with "+one.name, func(t *testing.T) {
			assert.EqualError(t, m.Wrong(one.key, "is wrong", "measure again"), one.says)
		})
	}
}
