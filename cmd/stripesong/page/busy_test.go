package page_test

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/page"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// answered is what a test looks at of a reply.
type answered struct {
	status   int
	Said     string
	Problems []struct{ What, Hint string }
	Busy     *struct {
		Job  int
		What string
	}
	Kept struct{ Where, Wrong string }
	Left []struct {
		ID   int
		Says string
	}
	View struct {
		Title   string
		Saved   bool
		Edition int
	}
}

func ask(t testing.TB, server *page.Server, path, body string) answered {
	t.Helper()
	var a answered
	text := ""
	if body == "" {
		a.status, text = get(t, server.Address()+path, nil)
	} else {
		a.status, text = post(t, server.Address(), path, body, nil)
	}
	require.NoError(t, json.Unmarshal([]byte(text), &a), "%s", text)
	return a
}

// later sends a request and gives its answer when there is one.
func later(t testing.TB, server *page.Server, path, body string) <-chan answered {
	answer := make(chan answered, 1)
	go func() { answer <- ask(t, server, path, body) }()
	return answer
}

// slow is storage whose drawing goes on until it is let go of or stopped.
type slow struct {
	shelf
	begun, goOn, stopped chan struct{}
}

func newSlow() *slow {
	return &slow{begun: make(chan struct{}), goOn: make(chan struct{}),
		stopped: make(chan struct{})}
}

func (s *slow) Publish(ctx context.Context, _ *plan.Plan) (string, error) {
	close(s.begun)
	select {
	case <-ctx.Done():
		close(s.stopped)
		return "", ctx.Err()
	case <-s.goOn:
		return "towels", nil
	}
}

func TestThePageAnswersDuringLongWork(t *testing.T) {
	storage := newSlow()
	server, bench := serveAt(t, brief.Default(), storage)
	before := string(bench.Text())
	drawing := later(t, server, "publish", "{}")
	<-storage.begun
	status := ask(t, server, "status", "")
	t.Run("it says so", func(t *testing.T) {
		require.NotNil(t, status.Busy)
		assert.Equal(t, "drawing sheets and pictures", status.Busy.What)
		assert.Equal(t, "Orchard kitchen towels", ask(t, server, "view", "").View.Title)
		assert.Equal(t, status.Busy, ask(t, server, "view", "").Busy,
			"a second window is told as well")
	})
	t.Run("all that only looks is answered", func(t *testing.T) {
		for _, path := range []string{"", "app/main.js", "lists", "status", "wait?edition=0"} {
			code, _ := get(t, server.Address()+path, nil)
			assert.Equal(t, http.StatusOK, code, path)
		}
	})
	t.Run("another job is not stopped", func(t *testing.T) {
		assert.Equal(t, "that has come to an end already",
			ask(t, server, "stop", fmt.Sprintf(`{"job":%d}`, status.Busy.Job-1)).Said)
		assert.NotNil(t, ask(t, server, "status", "").Busy)
	})
	waiting := later(t, server, "do", rename)
	t.Run("it can be stopped", func(t *testing.T) {
		assert.Equal(t, http.StatusOK,
			ask(t, server, "stop", fmt.Sprintf(`{"job":%d}`, status.Busy.Job)).status)
		<-storage.stopped
		got := <-drawing
		assert.Equal(t, http.StatusUnprocessableEntity, got.status)
		assert.Equal(t, "stopped, and nothing was changed", got.Said)
		assert.Empty(t, got.Problems, "she wanted it")
	})
	t.Run("what waited is done", func(t *testing.T) {
		got := <-waiting
		assert.Equal(t, http.StatusOK, got.status)
		assert.NotEqual(t, before, string(bench.Text()))
		assert.Nil(t, ask(t, server, "status", "").Busy)
		assert.Equal(t, "that has come to an end already",
			ask(t, server, "stop", `{"job":99}`).Said)
	})
}

// Ending the program stops what is worked on, whoever waits for it.
func TestTheEndStopsLongWork(t *testing.T) {
	storage := newSlow()
	server, _, end := serving(t, brief.Default(), storage)
	server.Patient()
	drawing := later(t, server, "publish", "{}")
	<-storage.begun
	assert.NoError(t, end())
	<-storage.stopped
	assert.Equal(t, http.StatusUnprocessableEntity, (<-drawing).status)
}

// A choice from as many candidates as there may be, for as many pieces, takes
// minutes; stopped, it changes nothing, and work goes on.
func TestALongChoiceIsStopped(t *testing.T) {
	server, bench, storage := serve(t, brief.Default())
	long := strings.Replace(string(brief.Default()), "\n[[piece]]",
		"\n[vary]\ncandidates = 100_000\nkinship = \"none\"\n\n[[piece]]", 1)
	require.NotEqual(t, long, string(brief.Default()))
	storage.saved = []byte(strings.Replace(long, "pieces    = 6", "pieces    = 200", 1))
	require.NotEqual(t, long, string(storage.saved))
	before := string(bench.Text())
	choosing := later(t, server, "reread", "{}")
	busy := ask(t, server, "status", "").Busy
	for busy == nil && len(choosing) == 0 {
		busy = ask(t, server, "status", "").Busy
	}
	require.NotNil(t, busy, "it came to an end by itself")
	assert.Equal(t, http.StatusOK,
		ask(t, server, "stop", fmt.Sprintf(`{"job":%d}`, busy.Job)).status)
	got := <-choosing
	assert.Equal(t, "stopped, and nothing was changed", got.Said)
	assert.Equal(t, before, string(bench.Text()))
	assert.Equal(t, http.StatusOK, ask(t, server, "do", rename).status)
}

// The page says what is worked on and has a button that stops it; so has a
// second window, which shows what came of it when it is done.
func TestLongWorkInABrowser(t *testing.T) {
	t.Parallel()
	storage := newSlow()
	server, bench := serveAt(t, brief.Default(), storage)
	b := newBrowser(t, 1440, 900)
	b.open(server.Address())
	eval[bool](b, `(document.getElementById("publish").click(), true)`)
	<-storage.begun
	shown :=
		`new Promise(done => { const look = () => document.getElementById("busy").hidden ? setTimeout(look, 5) : done(document.getElementById("busy-what").textContent); look(); })`
	assert.Equal(t, "drawing sheets and pictures", eval[string](b, shown))
	b.shot("busy")
	b.click("#busy-stop")
	<-storage.stopped
	assert.Equal(t, "stopped, and nothing was changed",
		eval[string](b, `document.getElementById("said").textContent`))
	assert.True(t, eval[bool](b, `document.getElementById("busy").hidden`))
	assert.True(t, eval[bool](b, `document.getElementById("wrong").hidden`), "it is no mistake")
	b.click("#sizes")
	b.enter("#settings input", "Evening towels")
	assert.Equal(t, "Evening towels", bench.Plan().Title, "and work goes on")
	b.quiet("422")
}
