package main

import (
	"context"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
	"stripesong/sequence/workbench"
)

// alternate is a kind of rhythm that does not come with the program: every other
// stripe is so many times as wide. Its stripes are drawn as those of even.
type alternate struct {
	sequence.Even
	Wide int
}

func (a *alternate) Spec() sequence.Spec {
	wide := sequence.Parameter{Key: "wide", Label: "Wide", Usage: "of two stripes the wider",
		Start: "4", Most: 9, Value: &a.Wide}
	return sequence.Spec{Name: "alternate",
		Words:      "{stripes} stripes, every other {wide} times as wide",
		Parameters: append(a.Even.Spec().Parameters, wide)}
}

func (a *alternate) Weights(*rand.Rand) ([]int64, error) {
	weights := slices.Repeat([]int64{1}, a.Stripes)
	for i := 1; i < len(weights); i += 2 {
		weights[i] = int64(a.Wide)
	}
	return weights, nil
}

// TestAddARhythm: with one entry in the table of kinds a rhythm is known all over
// the program.
func TestAddARhythm(t *testing.T) {
	table := sequence.Kinds
	t.Cleanup(func() { sequence.Kinds = table })
	entry := func() sequence.Kind { return &alternate{Wide: 2} }
	sequence.Kinds = append(slices.Clone(table), entry)

	edited := func(rhythm string) []byte {
		text, err := brief.Edit("b.toml", brief.Default(), []brief.Change{
			{Key: "warp.rhythm", Value: rhythm},
			{Key: "piece[1].rhythm", Value: `{ kind = "alternate", stripes = 7, mirror = true }`},
		})
		require.NoError(t, err)
		return text
	}
	text := edited(`{ kind = "alternate", stripes = 5, wide = 3 }`)
	b, err := brief.Parse("b.toml", text, brief.Options{})
	require.NoError(t, err)

	t.Run("it is planned", func(t *testing.T) {
		p, err := plan.Make(context.Background(), b)
		require.NoError(t, err)
		require.Equal(t, 135, p.Warp.Units) // 1 3 1 3 1 of 9 parts of 15 units
		var units []int
		for _, r := range p.Warp.Runs {
			units = append(units, r.Units)
		}
		assert.Equal(t, []int{15, 45, 15, 45, 15}, units)
		assert.Equal(t, "7 stripes, every other 2 times as wide, mirrored", p.Pieces[1].Rhythm)
	})
	t.Run("it is written", func(t *testing.T) {
		assert.Contains(t, b.RuleKeys(b.Warp.Rule),
			brief.Change{Key: "rhythm", Value: `{ kind = "alternate", stripes = 5, wide = 3 }`})
		assert.Contains(t, b.RuleKeys(b.Pieces[1].Weft.Rule), brief.Change{Key: "rhythm",
			Value: `{ kind = "alternate", stripes = 7, wide = 2, mirror = true }`})
	})
	for _, c := range []struct{ rhythm, what, hint string }{
		{`{ kind = "alternate", stripes = 5, wide = 10 }`,
			"must be from 1 to 9, not 10", "write a whole number from 1 to 9"},
		{`{ kind = "alternate", wide = 3 }`,
			"is missing", `a rhythm of kind "alternate" has the keys stripes, wide`},
		{`{ kind = "alternate", of = 3 }`,
			`does not go with a rhythm of kind "alternate"`, "its keys are: mirror, stripes, wide"},
		{`{ kind = "even", wide = 3 }`,
			`does not go with a rhythm of kind "even"`, "its keys are: mirror, stripes"},
		{`{ kind = "alternat" }`,
			`"alternat" is none of even, repeat, fibonacci, graded, random, euclid, alternate`,
			`did you mean "alternate"?`},
	} {
		t.Run("mistakes of "+c.rhythm, func(t *testing.T) {
			_, err := brief.Parse("b.toml", edited(c.rhythm), brief.Options{})
			var problems brief.Problems
			require.ErrorAs(t, err, &problems)
			assert.Equal(t, c.what, problems[0].What)
			assert.Equal(t, c.hint, problems[0].Hint)
		})
	}
	t.Run("it has flags", func(t *testing.T) {
		folder := filepath.Join(t.TempDir(), "plan")
		code, out, mistakes := call("plan", "--out", folder,
			"--warp-rhythm", "alternate", "--stripes", "3", "--wide", "4")
		require.Equal(t, exitGood, code, mistakes)
		assert.Contains(t, out, "A 23 oat, B 90 barley, A 22 oat")
	})
	t.Run("it is in the help", func(t *testing.T) {
		_, help, _ := call("help", "rhythms")
		for _, line := range []string{
			"--warp-rhythm KIND   even, repeat, fibonacci, graded, random, euclid\n" +
				"                           or alternate\n",
			"--stripes N          even, graded, random, alternate: how many stripes\n",
			"--wide N             alternate: of two stripes the wider\n",
		} {
			assert.Contains(t, help, line)
		}
	})
	t.Run("it is completed", func(t *testing.T) {
		_, script, _ := call("completion", "bash")
		kinds := "words='even repeat fibonacci graded random euclid alternate'"
		assert.Contains(t, script, "plan:--weft-rhythm:*) "+kinds)
		assert.Contains(t, script, " --of --wide --edges ")
	})
	t.Run("it is on the page", func(t *testing.T) {
		bench, err := workbench.Open(context.Background(), "b.toml", text, brief.Options{})
		require.NoError(t, err)
		shown := bench.View()
		form := map[string]string{
			"kind": "alternate", "stripes": "5", "wide": "3", "mirror": "false",
		}
		assert.Equal(t, form, shown.Warp.Rhythm)
		assert.Equal(t, "alternate", workbench.AllLists().Kinds[len(table)].Name)
		assert.Equal(t, "Wide", workbench.AllLists().Kinds[len(table)].Parameters[1].Label)
		chosen := workbench.Op{Do: "rhythm", Rhythm: map[string]string{"kind": "alternate"}}
		_, err = bench.Do(context.Background(), chosen)
		require.NoError(t, err)
		rhythm := `rhythm = { kind = "alternate", stripes = 7, wide = 4 }`
		assert.Contains(t, string(bench.Text()), rhythm)
	})
	t.Run("it is drawn and tried", func(t *testing.T) {
		sheet, err := plan.Try(context.Background(), b, plan.Trying{Count: 24})
		require.NoError(t, err)
		var told string
		for _, trial := range sheet.Cells {
			told += fmt.Sprintln(trial.Rhythm)
		}
		assert.Contains(t, told, " stripes, every other 2 times as wide")
	})
}
