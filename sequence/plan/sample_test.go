package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSampleByHand: a sample of 10 cm at 10 ground picks a cm. A weft unit of
// halvdräll has 2 ground and 2 pattern picks, so it is 2 mm long: 50 units, 25 of
// each block. A pick is 11 cm of yarn (10 % extra): 100 ground and 100 pattern
// picks are 11 m each, 22 m of the one colour that is both.
func TestSampleByHand(t *testing.T) {
	text := strings.Replace(beaten, "[yarn.fine]", "[loom]\nsample = \"10 cm\"\n[yarn.fine]", 1)
	p := makePlan(t, "sampled", []byte(text))
	require.NotNil(t, p.Sample)
	assert.Equal(t, []WeftRun{
		{Block: "A", Units: 25, PatternPicks: 50, GroundPicks: 50, Pattern: "dark",
			Ground: "light"},
		{Block: "B", Units: 25, PatternPicks: 50, GroundPicks: 50, Pattern: "dark",
			Ground: "light"},
	}, p.Sample.Runs)
	assert.Zero(t, p.Sample.HemPicks)
	assert.Equal(t, 100.0, p.Sample.WovenMM)
	without := makePlan(t, "beaten", []byte(beaten))
	for i, y := range p.Yarn {
		assert.Equal(t, 11.0, y.SampleM, y.Colour)
		weft := y.GroundM + y.PatternM
		assert.Equal(t, without.Yarn[i].GroundM+without.Yarn[i].PatternM, weft, "not in the total")
		assert.InDelta(t, 1.1*(y.TotalM+11), y.ShortM, 1e-9, "in what must be there")
	}
}

// TestSampleWithHems: a fifth of 10 cm is hem, the rest 40 units; three pattern
// colours over two blocks share them 7 7 7 7 6 6.
func TestSampleWithHems(t *testing.T) {
	text := strings.Replace(beaten, "[yarn.fine]", "[loom]\nsample = \"10 cm\"\n[yarn.fine]", 1)
	text = strings.Replace(text, `hem = "0 cm"`, `hem = "1 cm"`, 1)
	text = strings.Replace(text, `name = "dark"
hex = "#101010"`, `name = "dark"
hex = "#101010"
[[colour]]
name = "red"
hex = "#a01010"
[[colour]]
name = "green"
hex = "#106010"`, 1)
	text = strings.Replace(text, `"A 25 dark", "B 25 dark"`,
		`"A 25 red", "B 10 dark", "A 5 green"`, 1)
	p := makePlan(t, "sampled", []byte(text))
	var words []string
	var sizes []int
	for _, r := range p.Sample.Runs {
		words, sizes = append(words, r.Block+" "+r.Pattern), append(sizes, r.Units)
	}
	assert.Equal(t, []int{7, 7, 7, 7, 6, 6}, sizes)
	assert.Equal(t, []string{"A dark", "B dark", "A red", "B red", "A green", "B green"}, words)
	assert.Equal(t, 20, p.Sample.HemPicks)
	assert.Equal(t, 100.0, p.Sample.WovenMM)
}

// TestRetie: warp lost to tying on again comes on top after the division by
// take-up, and only where there is a sample.
func TestRetie(t *testing.T) {
	wound := func(loom string) *Plan {
		text := strings.Replace(beaten, `take_up = "0%"`, `take_up = "20%"`, 1)
		return makePlan(t, "retied",
			[]byte(strings.Replace(text, "[yarn.fine]",
				"[loom]\nwaste = \"0 cm\"\n"+loom+"[yarn.fine]", 1)))
	}
	assert.Equal(t, 125.0, wound("").Warp.WoundMM)
	assert.Equal(t, 125.0, wound("retie = \"25 cm\"\n").Warp.WoundMM,
		"no sample, nothing to tie on again")
	assert.Equal(t, 250.0, wound("sample = \"10 cm\"\n").Warp.WoundMM)
	p := wound("sample = \"10 cm\"\nretie = \"25 cm\"\n")
	assert.Equal(t, 500.0, p.Warp.WoundMM)
	assert.Contains(t, p.Warp.MakeUp, Part{What: "retie", WoundMM: 250})
	assert.Nil(t, code(p, "retie-none"))
}

// TestSampleNeedsItsTreadles: the piece has block A alone, the sample both blocks.
func TestSampleNeedsItsTreadles(t *testing.T) {
	text := strings.Replace(beaten, `"A 25 dark", "B 25 dark"`, `"A 50 dark"`, 1)
	assert.Equal(t, 3, makePlan(t, "one block", []byte(text)).Loom.TreadlesUsed)
	text = strings.Replace(text, "[yarn.fine]", "[loom]\nsample = \"10 cm\"\n[yarn.fine]", 1)
	assert.Equal(t, 4, makePlan(t, "sampled", []byte(text)).Loom.TreadlesUsed)
}
