package instead

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

const text = `# mine
title = "one yarn"
units = "cm"
[set]
pieces = 2
width = "40 cm"
length = "60 cm"
hem = "3 cm"
[cloth]
sett = "12/cm"          # close
ground = "8/cm"
hem_ground = "10/cm"
draw_in = "5%"
take_up = "8%"
shrink_width = "10%"
shrink_length = "10%"
weft_extra = "10%"
[yarn.cotton]
count = "16/2 cotton"
package = "225 g"
price = "10"
[yarn.linen]
run = "9000 m/kg"
package = "250 g"
[[colour]]
name = "oat"
hex = "#efe6d2"
yarn = "cotton"
on_hand = "5000 m"
[[colour]]
name = "moss"
hex = "#24492f"
yarn = "linen"
on_hand = "900 m"
[warp]
colours = ["oat"]
rhythm = { kind = "even", stripes = 5 }
[weft]
ground = "oat"
colours = ["moss"]
rhythm = { kind = "even", stripes = 3 }
`

func read(text []byte) (*brief.Brief, error) { return brief.Parse("b.toml", text, brief.Options{}) }

func made(t *testing.T, text string, q Question) (*Answer, error) {
	t.Helper()
	b, err := read([]byte(text))
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return Make(context.Background(), Source{"b.toml", []byte(text), read}, b, p, q)
}

// value is what an answer sets a key to; "-" where it leaves it alone.
func value(a *Answer, key string) string {
	for _, c := range a.Changes {
		if c.Key == key {
			return c.Value
		}
	}
	return "-"
}

// TestAnotherGrist, worked by hand: 8/2 is twice as heavy as 16/2, so a yarn is 1.4142
// times as thick. 12 ends to the centimetre lie as close at 8.49, to the nearest half
// 8.5; 10 hem picks at 7.07, 7. In a weft unit lie two ground and two pattern picks,
// 73.8 and 111.1 tex (9000 m to the kilogram), as thick as 8.59 and 10.54 in roots of
// tex; with the other 12.15 and 10.54, so that the unit is 1.1861 times as long and 8
// picks become 6.74, 6.5.
func TestAnotherGrist(t *testing.T) {
	a, err := made(t, text,
		Question{Yarn: "cotton", Count: "8/2 cotton", Package: "225 g", Price: "12.50"})
	require.NoError(t, err)
	assert.Equal(t, `"8.5/cm"`, value(a, "cloth.sett"))
	assert.Equal(t, `"6.5/cm"`, value(a, "cloth.ground"))
	assert.Equal(t, `"7/cm"`, value(a, "cloth.hem_ground"))
	assert.Equal(t, `"8/2 cotton"`, value(a, "yarn.cotton.count"))
	assert.Equal(t, `"12.50"`, value(a, "yarn.cotton.price"))
	assert.Empty(t, value(a, "colour[0].on_hand"), "what is on hand is the yarn as it was")
	assert.Equal(t, "-", value(a, "colour[1].on_hand"))
	// 40 cm are 46.78 cm in the reed: 561 ends, 140 units; at 8.5 398 ends, 99 units
	assert.Equal(t, 560, a.Before.Warp.Ends)
	assert.Equal(t, 396, a.After.Warp.Ends)
	rows := map[string]Row{}
	for _, r := range a.Rows {
		rows[r.What] = r
	}
	assert.Equal(t, Row{"cotton", "16/2 cotton, 74 tex", "8/2 cotton, 148 tex"}, rows["cotton"])
	assert.Equal(t, Row{"sett", "12/cm", "8.5/cm"}, rows["sett"])
	assert.Equal(t, Row{"ends", "560", "396"}, rows["ends"])
	assert.Equal(t, "0", rows["cost of what is to buy"].Before)
	assert.Equal(t, a.After.Cost.Buy, rows["cost of what is to buy"].After)
	after, err := brief.Edit("b.toml", []byte(text), a.Changes)
	require.NoError(t, err)
	assert.Contains(t, string(after), "sett = \"8.5/cm\"          # close")
}

// TestTheSameGrist leaves sett and picks alone.
func TestTheSameGrist(t *testing.T) {
	// 71.4 tex beside 73.8: 1.6 % thinner
	a, err := made(t, text, Question{Yarn: "cotton", Count: "Nm 28/2"})
	require.NoError(t, err)
	assert.Equal(t, "-", value(a, "cloth.ground"), "the body lies 0.7 % more open")
	same, err := made(t, text, Question{Yarn: "cotton", Count: "16/2 cotton"})
	require.NoError(t, err)
	for _, key := range []string{"cloth.sett", "cloth.ground", "cloth.hem_ground"} {
		assert.Equal(t, "-", value(same, key))
	}
	assert.Equal(t, same.Before.Warp.Ends, same.After.Warp.Ends)
}

// TestOnlyThePattern: a finer pattern weft moves the ground picks together, not the sett.
func TestOnlyThePattern(t *testing.T) {
	a, err := made(t, text, Question{Yarn: "linen", Like: "cotton"})
	require.NoError(t, err)
	// 8.59 + 10.54 becomes 8.59 + 8.59: 8 x 1.1135 is 8.91, 9
	assert.Equal(t, `"9/cm"`, value(a, "cloth.ground"))
	assert.Equal(t, "-", value(a, "cloth.sett"))
	assert.Equal(t, "-", value(a, "cloth.hem_ground"))
	assert.Equal(t, `"16/2 cotton"`, value(a, "yarn.linen.count"))
	assert.Empty(t, value(a, "yarn.linen.run"))
	assert.Equal(t, `"10"`, value(a, "yarn.linen.price"))
	b, err := read([]byte(text))
	require.NoError(t, err)
	after, err := brief.Edit("b.toml", []byte(text), a.Changes)
	require.NoError(t, err)
	changed, err := read(after)
	require.NoError(t, err)
	assert.Zero(t, changed.Yarns[1].Tex.Cmp(b.Yarns[0].Tex))
	assert.InDelta(t, 1, ratio(changed, b), 1e-3)
}

// ratio is how a package of the second yarn compares with one of the first.
func ratio(a, b *brief.Brief) float64 {
	x, _ := a.Yarns[1].PackageM.Float64()
	y, _ := b.Yarns[0].PackageM.Float64()
	return x / y
}

// TestWhatTheReedGives: 8.49 ends in a reed of 6 dents to the centimetre are 1.41 a dent;
// the nearest is 1-1-2, 8 to the centimetre (1-2 would be 9).
func TestWhatTheReedGives(t *testing.T) {
	a, err := made(t, strings.Replace(text, "[yarn.cotton]",
		"[loom]\nreed = \"60/10cm\"\n[yarn.cotton]", 1),
		Question{Yarn: "cotton", Count: "8/2 cotton"})
	require.NoError(t, err)
	assert.Equal(t, `"8/cm"`, value(a, "cloth.sett"))
}

// TestHemsKeepTheirPicks where the brief does not say them and only the body's change.
func TestHemsKeepTheirPicks(t *testing.T) {
	a, err := made(t, strings.Replace(text, "hem_ground = \"10/cm\"\n", "", 1),
		Question{Yarn: "linen", Count: "16/2 cotton"})
	require.NoError(t, err)
	assert.Equal(t, `"9/cm"`, value(a, "cloth.ground"))
	assert.Equal(t, `"8/cm"`, value(a, "cloth.hem_ground"))
}

func TestRefusals(t *testing.T) {
	for says, q := range map[string]Question{
		`no yarn "wool"`:         {Yarn: "wool", Count: "8/2 cotton"},
		`no other yarn "hemp"`:   {Yarn: "cotton", Like: "hemp"},
		`no other yarn "cotton"`: {Yarn: "cotton", Like: "cotton"},
		`yarn.cotton.price`:      {Yarn: "cotton", Count: "8/2 cotton", Price: "much"},
	} {
		_, err := made(t, text, q)
		assert.ErrorContains(t, err, says)
	}
	_, err := made(t, strings.ReplaceAll(strings.ReplaceAll(text, "[yarn.cotton]", `[yarn."a.b"]`),
		`yarn = "cotton"`, `yarn = "a.b"`), Question{Yarn: "a.b", Count: "8/2 cotton"})
	assert.ErrorContains(t, err, `the name "a.b" of a yarn can't be written here`)
}
