package yarn_test

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/yarn"
)

func rat(num, den int64) *big.Rat { return big.NewRat(num, den) }

func tex(t *testing.T, count string) *big.Rat {
	t.Helper()
	r, err := yarn.Tex(count)
	require.NoError(t, err, count)
	return r
}

func run(t *testing.T, text string) *big.Rat {
	t.Helper()
	r, err := yarn.TexOfRun(text)
	require.NoError(t, err, text)
	return r
}

func float(r *big.Rat) float64 { f, _ := r.Float64(); return f }

func same(t *testing.T, want, got *big.Rat, what string) {
	t.Helper()
	assert.Equal(t, want.RatString(), got.RatString(), what)
}

// ASTM D2260-03(2013), "Standard Tables of Conversion Factors and Equivalent Yarn Numbers
// Measured in Various Numbering Systems" (title from memory), table of factors: tex times
// count of each system, and the yards to the pound of its count 1.
func TestTexOfEachSystem(t *testing.T) {
	for _, c := range []struct {
		one      string
		texCount float64
		yards    string
	}{
		{"1 cotton", 590.5412, "840 yd/lb"},
		{"1 worsted", 885.8119, "560 yd/lb"},
		{"1 linen", 1653.5155, "300 yd/lb"},
		{"1 woollen run", 310.0342, "1600 yd/lb"},
	} {
		got := tex(t, c.one)
		assert.InDelta(t, c.texCount, float(got), 0.00005, c.one)
		same(t, run(t, c.yards), got, c.one)
	}
	same(t, rat(1000, 1), tex(t, "Nm 1"), "metric: metres to a gram")
	same(t, rat(30, 1), tex(t, "270 denier"), "denier = 9 tex")
	same(t, rat(30, 1), tex(t, "300 dtex"), "dtex = 10 tex")
}

// ASTM D2260-03(2013): tex x (yards a pound) = 496054.65; metres a kilogram =
// 2.015907 x yards a pound.
func TestFactorsOfCounts(t *testing.T) {
	assert.InDelta(t, 496054.65, float(run(t, "1 yd/lb")), 0.005)
	perKilogram := new(big.Rat).Quo(run(t, "1 m/kg"), run(t, "1 yd/lb"))
	assert.InDelta(t, 2.015907, float(perKilogram), 5e-7)
}

// ASTM D2260-03(2013), printed examples: 10 cotton = 15 worsted; 30 tex = 19.7
// cotton.
func TestCountsConvert(t *testing.T) {
	same(t, tex(t, "15 worsted"), tex(t, "10 cotton"), "10 cotton = 15 worsted")
	cotton := new(big.Rat).Quo(tex(t, "1 cotton"), tex(t, "tex 30"))
	assert.InDelta(t, 19.7, float(cotton), 0.05)
}

// C. P. Brooks, "Cotton Manufacturing", 1888: 20s cotton = 30s worsted = 56s
// linen; the last is exactly 56 of lea, 20 x 840 / 300.
func TestCountsThatAreTheSameYarn(t *testing.T) {
	same(t, tex(t, "30s worsted"), tex(t, "20s cotton"), "20s cotton = 30s worsted")
	same(t, tex(t, "56s linen"), tex(t, "20s cotton"), "20s cotton = 56s linen")
}

// Plied yarns, yards to the pound as labels and tables print them (common
// practice, no source): count over ply.
func TestPliedCounts(t *testing.T) {
	for count, yards := range map[string]string{
		"8/2 cotton":        "3360 yd/lb",
		"10/2 cotton":       "4200 yd/lb",
		"16/2 cotton":       "6720 yd/lb",
		"20/2 cotton":       "8400 yd/lb",
		"Ne 20/2":           "8400 yd/lb",
		"20/2 Ne":           "8400 yd/lb",
		"20/1 cotton":       "16800 yd/lb",
		"20/2 linen":        "3000 yd/lb",
		"16/2 linen":        "2400 yd/lb",
		"16/2\u00a0Linen":   "2400 yd/lb",
		"1.5 linen lea":     "450 yd/lb",
		"2/10 worsted":      "2800 yd/lb",
		"10/2 worsted":      "2800 yd/lb",
		"2/2 cotton":        "840 yd/lb",
		"3 run":             "4800 yd/lb",
		"2/3 woollen run":   "2400 yd/lb",
		"Nm 28/2":           "14000 m/kg",
		"28/2 Nm":           "14000 m/kg",
		"nm 2/28":           "14000 m/kg",
		"Nm 8.5/2":          "4250 m/kg",
		"tex 30":            "1000 m/30 g",
		"30 tex":            "1000 m/30 g",
		"  8/2   COTTON  ":  "3360 yd/lb",
		"6/3 cotton":        "1680 yd/lb",
		"3/6 metric":        "2000 m/kg",
		"2.5/2 woollen run": "2000 yd/lb",
		"1 woolen run":      "400 yards per 4 oz",
		"Nm\u202f28/2":      "14 m/g",
		"8/4 cotton":        "1680 yd per lb",
		"16/3 Nm":           "16000 m/3kg",
		"148 tex":           "1000 m / 148 g",
		"10/2 nec":          "4200 yards/pound",
		"Ne 30":             "25200 yd/1 lb",
		"tex 30.5":          "2000 m/61 g",
		"linen 16/2":        "2400 yd/lb",
		"cotton 8/2":        "3360 yd/lb",
		"worsted 2/10":      "2800 yd/lb",
		"woollen run 3":     "4800 yd/lb",
	} {
		same(t, run(t, yards), tex(t, count), count+" = "+yards)
	}
	assert.InDelta(t, 147.63, float(tex(t, "8/2 cotton")), 0.006) // printed cut off: 147.6353
}

// By hand, once: 8/2 cotton is 4 x 840 = 3360 yd = 3072.384 m to 453.59237 g,
// so 147.635 g to 1000 m, exactly 453592370/3072384.
func TestTexByHand(t *testing.T) {
	same(t, rat(45359237*10*1000, 3072384*1000), tex(t, "8/2 cotton"), "8/2 cotton")
}

func TestCountErrorsSayWhatToWrite(t *testing.T) {
	const askRun = `: give the run from the label instead, as in run = "6770 m/kg" or run = "3360 yd/lb"; ` +
		`or write cotton, linen, worsted, run, Nm or tex`
	for count, want := range map[string]string{
		"22/2 cottolin": `yarn count "22/2 cottolin": labels do not agree on what "cottolin" counts` + askRun,
		"2/8 wool": `yarn count "2/8 wool": labels do not agree on what "wool" counts` +
			askRun,
		"8/2":            `yarn count "8/2" does not say what is counted: write "8/2 cotton", "Nm 8/2" or "8/2 linen"`,
		"30":             `yarn count "30" does not say what is counted: write "30 cotton", "Nm 30" or "tex 30"`,
		"8-2 cotton":     `yarn count "8-2 cotton": size and ply have a stroke between them: write "8/2 cotton"`,
		" Nm 28:2":       `yarn count " Nm 28:2": size and ply have a stroke between them: write "Nm 28/2"`,
		"cotton":         `yarn count "cotton" has no number: write it as "8/2 cotton", "Nm 28/2" or "tex 30"`,
		"":               `yarn count "" has no number: write it as "8/2 cotton", "Nm 28/2" or "tex 30"`,
		"0/2 cotton":     `yarn count "0/2 cotton" has a nought: write it as "8/2 cotton"`,
		"8/0 cotton":     `yarn count "8/0 cotton" has a nought: write it as "8/2 cotton"`,
		"8/1.5 cotton":   `yarn count "8/1.5 cotton": a ply is a whole number, as in "8/2 cotton"`,
		"30/2 tex":       `yarn count "30/2 tex": write the tex of all plies together, as in "tex 60"`,
		"-8/2 cotton":    `yarn count "-8/2 cotton": "-8" is negative: write a number from 0 up`,
		"8/x2 cotton":    `yarn count "8/x2 cotton": "x2" is not a number: write it as "8", "0.5" or "1 1/2"`,
		"1e9 tex":        `yarn count "1e9 tex": "1e9" is not a number: write it as "8", "0.5" or "1 1/2"`,
		"8/ cotton":      `yarn count "8/ cotton": the number is missing: write it as "8", "0.5" or "1 1/2"`,
		"8/2/2 cotton":   `yarn count "8/2/2 cotton": a count has one stroke, as in "8/2 cotton"`,
		"8/2 16/2 linen": `yarn count "8/2 16/2 linen" has more than one number: write it as "8/2 cotton"`,
	} {
		_, err := yarn.Tex(count)
		assert.EqualError(t, err, want, count)
	}
}

func TestRunErrorsSayWhatToWrite(t *testing.T) {
	for text, want := range map[string]string{
		"6770":       `6770 has no unit: write "6770 m/kg" or "6770 yd/lb"`,
		"6770 m":     `run "6770 m" is not a length to a weight: write for instance "6770 m/kg" or "3360 yd/lb"`,
		"":           `run "" is not a length to a weight: write for instance "6770 m/kg" or "3360 yd/lb"`,
		"6770/kg":    `run "6770/kg": 6770 has no unit: write "6770 m/kg" or "6770 yd/kg"`,
		"6770 m/":    `run "6770 m/": a weight is missing: write for instance "225 g" or "8 oz"`,
		"6770 m/100": `run "6770 m/100": 100 has no unit: write "100 g" or "100 oz"`,
		"6770 m/yd":  `run "6770 m/yd": "1 yd" is a length, not a weight: write for instance "225 g" or "8 oz"`,
		"0 m/kg":     `run "0 m/kg" has a nought: write for instance "6770 m/kg"`,
		"6770 m/0kg": `run "6770 m/0kg" has a nought: write for instance "6770 m/kg"`,
	} {
		_, err := yarn.TexOfRun(text)
		assert.EqualError(t, err, want, text)
	}
}
