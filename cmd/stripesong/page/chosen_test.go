package page_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

// chosenSet is a brief of six pieces, of which the program chooses four.
func chosenSet(t *testing.T) []byte {
	t.Helper()
	text := string(brief.Default())
	at := strings.Index(text, "[[piece]]\nname    = \"windfall\"")
	require.Positive(t, at)
	return []byte(text[:at] + "[vary]\ncandidates = 60\n")
}

// labels are the blocks of each piece, in words.
func labels(v workbench.View) (all []string) {
	for _, p := range v.Pieces {
		all = append(all, strings.Join(runLabels(p.Runs), ", "))
	}
	return all
}

// A piece that the program chose keeps its place when it is changed, and no other that it
// chose is changed by that.
func TestChosenPiecesInABrowser(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, chosenSet(t))
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	before := labels(bench.View())
	b.enter("#strip", "0")
	b.click("#turn")
	for range 3 {
		b.click("#out")
	}
	assert.Equal(t, before[1:], labels(bench.View())[1:])
	for eval[bool](b, `!document.getElementById("undo").disabled`) {
		b.click("#undo")
	}
	require.Equal(t, before, labels(bench.View()))

	b.enter("#strip", "4")
	b.drag("#pieces .edges .edge", 0, -15)
	assert.Equal(t, 4, eval[int](b, `look.strip`), "it stays where it is")
	moved := bench.View().Pieces[4]
	was := strings.SplitN(before[4], ", ", 3)
	assert.NotEqual(t, was[0], moved.Runs[0].Label, "its edge was moved")
	assert.Equal(t, was[2], strings.Join(runLabels(moved.Runs[2:]), ", "), "and nothing else of it")
	steps := eval[[]int](b, `view.steps`)
	assert.Equal(t, 1, steps[0], "one drag is one step")

	b.click("#undo")
	b.enter("#strip", "4")
	b.focus("#pieces .edges .edge")
	b.press(kb.ArrowUp)
	b.press(kb.ArrowUp)
	assert.Equal(t, 4, eval[int](b, `look.strip`))
	assert.Equal(t, was[2], strings.Join(runLabels(bench.View().Pieces[4].Runs[2:]), ", "), "both presses meant one edge")
	b.quiet()
}

func runLabels(runs []workbench.Run) (all []string) {
	for _, r := range runs {
		all = append(all, r.Label)
	}
	return all
}
