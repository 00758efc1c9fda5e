package plan_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// mended is the default brief with some of its text replaced: old, new, ...
func mended(t *testing.T, pairs ...string) string {
	t.Helper()
	text := string(brief.Default())
	for i := 0; i < len(pairs); i += 2 {
		require.Equal(t, 1, strings.Count(text, pairs[i]), pairs[i])
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// planned reads and plans a brief.
func planned(text string) (*plan.Plan, error) {
	b, err := brief.Parse("towels.toml", []byte(text), brief.Options{})
	if err != nil {
		return nil, err
	}
	return plan.Make(context.Background(), b)
}

// repeated is n members, made by a format of their number.
func repeated(n int, format string) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, format, i)
	}
	return b.String()
}

const (
	warpRuns  = `# runs  = ["A 12 oat", "B 6 barley", "A 12 oat"]`
	weftRuns  = `runs = ["A 30 damson", "plain 4",`
	warpOrder = `["oat", "barley"]` +
		"\nrhythm  = { kind = \"fibonacci\", terms = 5, from = 2, direction = \"falling\", " +
		"mirror = true }\n" + `order   = "cycle"`
)

// TestWorkIsBounded: what no loom could hold is refused, with what to change.
// Each of these once ran for long, panicked or gave a number that was
// not so.
func TestWorkIsBounded(t *testing.T) {
	const far = "\"999999999999 yd\""
	shelf := repeated(300, "[[colour]]\nname = \"c%d\"\nhex = \"#24463c\"\nyarn = \"linen\"\n")
	for name, c := range map[string]struct{ text, want string }{
		"waste": {mended(t, `waste    = "75 cm"`, "waste = "+far),
			"loom.waste: 999999999999 yd is more than the 10 km that are worked on"},
		"sample": {mended(t, `sample   = "15 cm"`, "sample = "+far),
			"loom.sample: 999999999999 yd is more than the 10 km"},
		"fringe": {mended(t, `fringe    = "0 cm"`, "fringe = "+far),
			"set.fringe: 999999999999 yd is more than the 10 km"},
		"hem": {mended(t, `hem       = "4 cm"`, "hem = "+far),
			"set.hem: 999999999999 yd is more than the 10 km"},
		"long hem": {mended(t, `hem       = "4 cm"`, `hem = "9000 m"`),
			"set.hem: \"first light\" comes to 201172 picks or more; over 540 ends no more " +
				"than 100000"},
		"sett": {mended(t, `sett          = "10/cm"`, `sett = "99999/mm"`),
			"cloth.sett: 99999/mm is not between 1/10cm and 1000/cm"},
		"thin sett": {mended(t, `sett          = "10/cm"`, `sett = "1/50 m"`),
			"cloth.sett: 1/50 m is not between"},
		"wide": {mended(t, `width     = "46 cm"`, `width = "46 m"`),
			"set.width: the warp comes to 13450 units, more than the 10000"},
		"long": {mended(t, `length    = "66 cm"`, `length = "66 m"`),
			"the body of \"first light\" comes to 29333 units, more than the 10000"},
		"ends": {mended(t, warpRuns, `runs = ["A 9999 oat"]`) + eightEnds,
			"warp.runs: the warp comes to 79992 ends, more than the 40000"},
		"stock": {mended(t, `on_hand = "5200 m"`, `on_hand = "99999999 m"`),
			"on_hand: 99999999 m comes to more than the 10 000 km"},
		"package": {mended(t, `package = "225 g"`, `package = "1 mm"`),
			"package: 1 mm comes to less than a metre"},
		"keys":     {repeated(10_001, "k%d = 1\n"), "more than the 10000 keys"},
		"headings": {repeated(10_002, "[k%d]\n"), "more than the 10000 keys"},
		"dots":     {strings.Repeat("a.", 200_000) + "a = 1", "more than the 10000 keys"},
		"nested":   {"a = " + strings.Repeat("[", 500_000), "nested more than"},
		"runs": {mended(t, warpRuns, "runs = ["+strings.Repeat(`"A 1 oat", `, 2001)+"]"),
			"warp.runs: are 2001 runs, more than 2000"},
		"colours": {mended(t, weftRuns, "runs = ["+repeated(300, `"A 1 c%d", `)+`"plain 4",`) +
			shelf, "the plan uses 307 colours, more than the 256"},
		"trios": {mended(t, weftRuns, "runs = ["+repeated(200, `"A 1 c%d", `)+`"plain 4",`,
			warpRuns, "runs = ["+repeated(100, `"A 1 c%d", `)+"]") + shelf,
			"combine warp and pattern colours in 21400 ways, more than the 10000"},
	} {
		_, err := planned(c.text)
		var problems brief.Problems
		if assert.True(t, errors.As(err, &problems), "%s: %v", name, err) {
			assert.Contains(t, err.Error(), c.want, name)
			assert.NotEmpty(t, problems[0].Hint, name)
		}
	}
}

// TestLargestWorkIsDone: what stays within the limits is worked out, shares of
// many colours too, of which all ways were kept once.
func TestLargestWorkIsDone(t *testing.T) {
	shelf := repeated(200, "[[colour]]\nname = \"c%d\"\nhex = \"#24463c\"\nyarn = \"linen\"\n")
	for name, text := range map[string]string{
		"shares": mended(t, warpOrder,
			"["+repeated(200, `"c%d", `)+
				"]\nrhythm = { kind = \"even\", stripes = 100 }\norder = \"shares\"\nshares = ["+
				strings.Repeat("1, ", 200)+"]") + shelf,
		"runs": mended(t, warpRuns, "runs = ["+strings.Repeat(`"A 1 oat", "B 1 barley", `, 1000)+
			"]", `pieces    = 6`, "pieces = 200",
			"[weft]                          #",
			"[weft]\nruns = ["+strings.Repeat(`"A 1 damson", "B 1 rosehip", `, 1000)+"]\n#"),
		"pixels": mended(t, warpRuns, `runs = ["A 1000 oat"]`, `length    = "66 cm"`,
			`length = "10 m"`),
	} {
		_, err := planned(text)
		assert.NoError(t, err, name)
	}
}

// eightEnds is a structure with eight ends in a unit.
const eightEnds = `
[structure]
name   = "halvdrall"
shafts = 4
order  = "P a P b"
units  = { A = [1, 2, 3, 2, 1, 2, 3, 2], B = [3, 4, 1, 4, 3, 4, 1, 4] }
sheds  = { A = [1, 2], B = [3, 4] }
tabby  = { a = [1, 3], b = [2, 4] }
`
