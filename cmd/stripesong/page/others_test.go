package page_test

import (
	"net/http"
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

const byHand = `{"op":{"do":"rhythm","strip":0,"rhythm":{"kind":"even","stripes":"5"}}}`

func TestAnswersSayWhichOtherPiecesChanged(t *testing.T) {
	server, bench, _ := serve(t, chosenSet(t))
	before := labels(bench.View())
	answer := ask(t, server, "do", byHand)
	require.Equal(t, http.StatusOK, answer.status)
	require.NotEmpty(t, answer.View.Others, "the program chose anew")
	for _, o := range answer.View.Others {
		assert.NotEqual(t, before[o.Strip], labels(bench.View())[o.Strip])
		assert.Equal(t, bench.Plan().Pieces[o.Strip].Name, o.Name)
	}
	assert.Equal(t, answer.View.Others, ask(t, server, "view", "").View.Others, "after a reload too")
	first := labels(bench.View())[0]
	answer = ask(t, server, "hold", "{}")
	assert.Regexp(t, "^held as before: ", answer.Said)
	assert.Empty(t, answer.View.Others)
	assert.Equal(t, before[1:], labels(bench.View())[1:])
	assert.Equal(t, first, labels(bench.View())[0])
	assert.Equal(t, http.StatusUnprocessableEntity, ask(t, server, "hold", "{}").status)
	ask(t, server, "undo", "{}")
	assert.Equal(t, before, labels(bench.View()))
}

// The page shows what else was changed and puts it back; and a piece that the program
// chose keeps its place when it is changed.
func TestOthersInABrowser(t *testing.T) {
	t.Parallel()
	server, bench, _ := serve(t, chosenSet(t))
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	before := labels(bench.View())
	b.enter("#strip", "0")
	b.click("#turn")
	for i := 0; i < 20 && eval[bool](b, `document.getElementById("others").hidden`); i++ {
		b.click("#out")
	}
	b.shot("others")
	assert.Contains(t, eval[string](b, `document.getElementById("others-what").textContent`), "This changed other pieces too: ")
	b.click("#others-hold")
	assert.True(t, eval[bool](b, `document.getElementById("others").hidden`))
	b.click("#undo")
	for i, p := range labels(bench.View())[1:] {
		assert.Contains(t, before, p, i)
	}
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
