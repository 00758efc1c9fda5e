package fit

import (
	"context"
	"encoding/json"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// towels is a brief with a [set], a [cloth] and a [loom] of the test's own.
const towels = `units = "in"
[set]
pieces = 6
width = "18 in"
%s
[cloth]
sett = "20/in"
ground = "20/in"
draw_in = "5%%"
shrink_width = "10%%"
shrink_length = "10%%"
weft_extra = "10%%"
%s
[loom]
%s
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "white"
hex = "#ffffff"
[[colour]]
name = "blue"
hex = "#204080"
[warp]
colours = ["white"]
rhythm = { kind = "even", stripes = 3 }
[weft]
ground = "white"
colours = ["blue"]
rhythm = { kind = "even", stripes = 5 }
`

func read(t *testing.T, set, cloth, loom string) (*brief.Brief, *plan.Plan) {
	t.Helper()
	b, err := brief.Parse("test", fmt.Appendf(nil, towels, set, cloth, loom), brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return b, p
}

func mm(t *testing.T, text string) *big.Rat {
	t.Helper()
	l, err := measure.ParseLength(text)
	require.NoError(t, err)
	return l.MM
}

// TestSixTowelsOfAWarp: six towels of 22 in on the loom and 30 in of waste are
// 6 x 22 + 30 = 162 in, which is four and a half yards (common practice, no
// source): 0.9144 m to the yard makes 4.1148 m and 558.8 mm.
func TestSixTowelsOfAWarp(t *testing.T) {
	b, p := read(t, `woven = "22 in"`+"\nseparator = 0\nhem = \"1 in\"", `take_up = "0%"`,
		`waste = "30 in"`)
	a, err := Make(b, p, Question{WarpMM: mm(t, "4.5 yd")})
	require.NoError(t, err)
	assert.Equal(t, 6, a.Pieces)
	assert.InDelta(t, 558.8, a.PieceWovenMM, 1e-9)
	assert.Zero(t, a.LeftMM)
	assert.InDelta(t, 4114.8, a.WoundMM, 1e-9)
	assert.Nil(t, a.Short)

	less, err := Make(b, p, Question{WarpMM: mm(t, "161.99 in")})
	require.NoError(t, err)
	assert.Equal(t, 5, less.Pieces, "a hundredth of an inch short is short")
	// 161.99 - (5 x 22 + 30) = 21.99 in
	assert.InDelta(t, 21.99*25.4, less.LeftMM, 1e-9)
	require.NotNil(t, less.Short)
	assert.InDelta(t, 21.99*25.4, less.Short.WovenMM, 1e-9)
}

// TestPiecesByHand works one warp out with every loss: 5000 mm wound, less 500 of
// waste is 4500, less 10 % take-up is 4050, less 100 of sample is 3950. A piece
// of 360 mm finished and no hem is 400 woven, 157.48 units of 2.54 mm: the plan
// weaves 157, 398.78 mm. Two separator picks at 20/in are 2.54. n pieces take
// 401.32 n - 2.54, so nine take 3609.34 and ten would take 4010.66. Nine pieces
// wound: (3609.34 + 100)/0.9 + 500 = 4621.4889.
func TestPiecesByHand(t *testing.T) {
	b, p := read(t, `length = "360 mm"`, `take_up = "10%"`,
		"waste = \"500 mm\"\nsample = \"100 mm\"")
	a, err := Make(b, p, Question{WarpMM: mm(t, "5 m")})
	require.NoError(t, err)
	assert.Equal(t, 9, a.Pieces)
	assert.InDelta(t, 398.78, a.PieceWovenMM, 1e-9)
	assert.InDelta(t, 4621.4889, a.WoundMM, 1e-4)
	assert.InDelta(t, 5000-4621.4889, a.LeftMM, 1e-4)
	// what is left, 378.5111 wound, is 340.66 woven less a separator: 338.12, finished 304.308
	require.NotNil(t, a.Short)
	assert.InDelta(t, 338.12, a.Short.WovenMM, 1e-3)
	assert.InDelta(t, 304.308, a.Short.FinishedMM, 1e-3)

	ten, err := Make(b, p, Question{WarpMM: mm(t, "5 m"), Pieces: 10})
	require.NoError(t, err)
	// (3950 - 9 x 2.54) / 10
	assert.InDelta(t, 392.714, ten.PieceWovenMM, 1e-9)
	assert.Equal(t, 9, ten.Fits)
	assert.Zero(t, ten.LeftMM)
	assert.Equal(t, 154, ten.Units, "a unit is two ground picks, 2.54 mm: 154.6 of them")
}

// TestPlanAgrees: a plan of as many pieces as fit, each as long in whole units
// as was told, takes no more warp than there is; one unit more in each takes
// more.
func TestPlanAgrees(t *testing.T) {
	for _, warp := range []string{"3 m", "4.7 m", "9 m", "11 yd"} {
		for _, n := range []int{1, 3, 8} {
			b, p := read(t, "length = \"14 in\"\nhem = \"3 cm\"\nfringe = \"1 cm\"",
				`take_up = "7%"`, "waste = \"50 cm\"\nsample = \"4 in\"")
			a, err := Make(b, p, Question{WarpMM: mm(t, warp), Pieces: n})
			require.NoError(t, err)
			for extra, fits := range map[int]bool{0: true, 1: false} {
				set := fmt.Sprintf("pieces = %d\nhem = \"3 cm\"\nfringe = \"1 cm\"\n"+
					"width = \"18 in\"", n)
				text := fmt.Sprintf(towels, "", `take_up = "7%"`,
					"waste = \"50 cm\"\nsample = \"4 in\"")
				text = replaceSet(text, set) +
					fmt.Sprintf("\nruns = [\"A %d blue\"]\n", a.Units+extra)
				text = dropRules(text)
				made := planOf(t, text)
				assert.Equal(t, fits, made.Warp.WoundMM <= a.WarpMM+1e-3, "%s, %d pieces, %d more",
					warp, n, extra)
			}
		}
	}
}

// TestTradeOff: the rows hold the answer, each piece shrinks as pieces are
// added, and their sum with what goes off is the warp: (5000 - 500) x 0.9 = 4050 woven,
// between pieces two picks at 20/in, 2.54 mm.
func TestTradeOff(t *testing.T) {
	b, p := read(t, `length = "360 mm"`, `take_up = "10%"`, `waste = "500 mm"`)
	a, err := Make(b, p, Question{WarpMM: mm(t, "5 m")})
	require.NoError(t, err)
	require.Len(t, a.TradeOff, 7)
	for i, row := range a.TradeOff {
		assert.InDelta(t, 4050, float64(row.Pieces)*row.WovenMM+float64(row.Pieces-1)*2.54, 1e-2)
		assert.Equal(t, row.Pieces <= a.Fits, row.OfAsked >= 1)
		if i > 0 {
			assert.Less(t, row.WovenMM, a.TradeOff[i-1].WovenMM)
		}
	}
}

// TestTooShort: the waste alone is 50 cm, and 60 cm take no piece of 40.
func TestTooShort(t *testing.T) {
	b, p := read(t, `length = "360 mm"`, `take_up = "10%"`, `waste = "500 mm"`)
	_, err := Make(b, p, Question{WarpMM: mm(t, "50 cm")})
	assert.ErrorContains(t, err, "use up the whole warp")
	a, err := Make(b, p, Question{WarpMM: mm(t, "60 cm")})
	require.NoError(t, err)
	assert.Zero(t, a.Pieces)
	assert.InDelta(t, 600, a.LeftMM, 1e-9)
}

// TestSizeFromRuns: where no size is asked for, that of the longest piece counts.
// By hand: 80 units of two ground picks at 20 to the inch are 8 in.
func TestSizeFromRuns(t *testing.T) {
	text := strings.Replace(fmt.Sprintf(towels, `hem = "0 in"`, `take_up = "0%"`,
		`waste = "20 in"`),
		`rhythm = { kind = "even", stripes = 5 }`, `runs = ["A 30 blue", "B 50 blue"]`, 1)
	b, err := brief.Parse("test", []byte(text), brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	a, err := Make(b, p, Question{WarpMM: mm(t, "100 in")})
	require.NoError(t, err)
	assert.InDelta(t, 203.2, a.AskedWovenMM, 1e-9)
	assert.Equal(t, 9, a.Fits, "80 in are left, and between pieces there are separators")
	out, err := plan.JSON(a)
	require.NoError(t, err)
	var read Answer
	require.NoError(t, json.Unmarshal(out, &read))
	assert.Equal(t, *a, read)
}
