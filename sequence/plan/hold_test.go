package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestHoldByHand: a body of 10 cm at 10 ground picks a cm is 50 units of halvdräll.
// Held runs of 30 and 20 units stay as they are at that size; at 7 cm, 35 units,
// they are 21 and 14; at 7.2 cm, 36 units, 21.6 and 14.4 make 22 and 14.
func TestHoldByHand(t *testing.T) {
	held := func(woven, runs string) []WeftRun {
		text := strings.Replace(beaten, `woven = "10 cm"`, `woven = "`+woven+`"`, 1)
		text = strings.Replace(text, "runs = [\"A 25 dark\", \"B 25 dark\"]\n", "", 1)
		text += "[[piece]]\nhold = true\nruns = " + runs + "\n"
		return makePlan(t, "held", []byte(text)).Pieces[0].Runs
	}
	units := func(runs []WeftRun) (all []int) {
		for _, r := range runs {
			all = append(all, r.Units)
		}
		return all
	}
	two := `["A 30 dark", "B 20 dark"]`
	assert.Equal(t, []int{30, 20}, units(held("10 cm", two)))
	assert.Equal(t, []int{21, 14}, units(held("7 cm", two)))
	assert.Equal(t, []int{22, 14}, units(held("7.2 cm", two)))
	assert.Equal(t, []int{9, 2, 9}, units(held("4 cm", `["A 23 dark", "plain 4", "A 23 dark"]`)),
		"a mirror image stays one")
	assert.Equal(t, []int{1, 1, 33}, units(held("7 cm", `["A 1 dark", "B 1 dark", "A 900 dark"]`)),
		"no run vanishes")
}

// TestHoldIsNoSize: runs that are not held set the length, as ever, and where no
// length is asked for nothing is scaled.
func TestHoldIsNoSize(t *testing.T) {
	text := beaten + "[[piece]]\nruns = [\"A 30 dark\"]\n"
	assert.Equal(t, 30, makePlan(t, "not held", []byte(text)).Pieces[0].BodyUnits)
	text = strings.Replace(beaten, "woven = \"10 cm\"\n", "", 1) +
		"[[piece]]\nhold = true\nruns = [\"A 30 dark\"]\n"
	assert.Equal(t, 30, makePlan(t, "no size", []byte(text)).Pieces[0].BodyUnits)
}

func TestHoldNeedsRuns(t *testing.T) {
	_, err := brief.Parse("held.toml", []byte(beaten+"[[piece]]\nhold = true\n"), brief.Options{})
	require.Error(t, err)
	assert.Contains(t, err.Error(),
		"held.toml:33:8: piece.hold: holds runs, and this piece has none")
	_, err = brief.Parse("held.toml", []byte(beaten+"[[piece]]\nchosen = true\n"), brief.Options{})
	assert.ErrorContains(t, err,
		"held.toml:33:10: piece.chosen: says that the program chose the runs")
	text := strings.Replace(beaten, `woven = "10 cm"`, `woven = "2 mm"`, 1)
	_, err = tryPlan(t,
		[]byte(text+"[[piece]]\nhold = true\nruns = [\"A 3 dark\", \"B 2 dark\"]\n"))
	assert.ErrorContains(t, err, "2 runs do not fit into 1 units")
}

// TestHeldPiecesStay through another seed and another choice.
func TestHeldPiecesStay(t *testing.T) {
	text := string(family(t))
	first := makePlan(t, "family", []byte(text))
	b, err := brief.Parse("family", []byte(text), brief.Options{})
	require.NoError(t, err)
	last := len(first.Pieces) - 1
	var all []int
	for i, piece := range b.Pieces {
		if piece.Open {
			all = append(all, i)
		}
	}
	require.Equal(t, last, all[len(all)-1])
	written, err := brief.Edit("family", []byte(text), HoldOf(b, first, all))
	require.NoError(t, err)
	assert.Contains(t, string(written), "hold")
	again := makePlan(t, "held", written)
	for i := range first.Pieces {
		assert.Equal(t, first.Pieces[i].Runs, again.Pieces[i].Runs, "holding changes none")
	}
	reseeded, err := brief.Edit("family", written, []brief.Change{{Key: "seed", Value: "4711"}})
	require.NoError(t, err)
	assert.Equal(t, first.Pieces[last].Runs, makePlan(t, "reseeded", reseeded).Pieces[last].Runs)
}
