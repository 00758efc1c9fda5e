package page_test

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/page"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

func TestEveryChangeIsKept(t *testing.T) {
	server, bench, storage := serve(t, brief.Default())
	t.Run("before it is answered", func(t *testing.T) {
		answer := ask(t, server, "do", rename)
		assert.Equal(t, string(bench.Text()), string(storage.unsaved))
		assert.Contains(t, string(storage.unsaved), "changed by a stranger")
		assert.Equal(t, "towels-unsaved.toml", answer.Kept.Where)
		assert.Equal(t, "towels-unsaved.toml", ask(t, server, "view", "").Kept.Where,
			"after a reload too")
		assert.Equal(t, "towels-unsaved.toml", ask(t, server, "status", "").Kept.Where)
	})
	t.Run("not when it is undone", func(t *testing.T) {
		assert.Empty(t, ask(t, server, "undo", "{}").Kept.Where)
		assert.Nil(t, storage.unsaved)
	})
	t.Run("not when it is saved", func(t *testing.T) {
		ask(t, server, "redo", "{}")
		require.NotNil(t, storage.unsaved)
		ask(t, server, "save", "{}")
		assert.Nil(t, storage.unsaved)
	})
	t.Run("still when a copy is saved", func(t *testing.T) {
		ask(t, server, "undo", "{}")
		ask(t, server, "save-as", `{"title":"a copy"}`)
		assert.NotNil(t, storage.unsaved, "the brief itself is not as it is here")
	})
	t.Run("it is said where it can't be", func(t *testing.T) {
		storage.cannot = errors.New("the disk is full")
		answer := ask(t, server, "do", `{"op":{"do":"setting","key":"title","value":"another"}}`)
		assert.Equal(t, http.StatusOK, answer.status, "the change holds")
		assert.Equal(t, "the disk is full", answer.Kept.Wrong)
	})
}

func TestACopyOfABriefWithoutAFileIsItsFile(t *testing.T) {
	server, _, storage := serve(t, brief.Default())
	storage.noFile = true
	ask(t, server, "do", rename)
	require.NotNil(t, storage.unsaved)
	assert.True(t, ask(t, server, "save-as", `{"title":"a copy"}`).View.Saved)
	assert.Nil(t, storage.unsaved)
}

// stubborn is storage whose drawing can't be stopped.
type stubborn struct {
	shelf
	begun, goOn chan struct{}
}

func (s *stubborn) Publish(context.Context, *plan.Plan) (string, error) {
	close(s.begun)
	<-s.goOn
	return "towels", nil
}

// Ctrl-C waits for what is under way; what is unsaved is kept before.
func TestKeptBeforeAnythingIsWaitedFor(t *testing.T) {
	storage := &stubborn{begun: make(chan struct{}), goOn: make(chan struct{})}
	storage.cannot, storage.keptOne = errors.New("not yet"), make(chan struct{}, 9)
	server, bench, end := serving(t, brief.Default(), storage)
	server.Patient()
	ask(t, server, "do", rename)
	drawing := later(t, server, "publish", "{}")
	<-storage.begun
	storage.mu.Lock()
	storage.cannot = nil
	storage.mu.Unlock()
	ended := make(chan error, 1)
	go func() { ended <- end() }()
	<-storage.keptOne
	assert.Equal(t, string(bench.Text()), string(storage.unsaved))
	close(storage.goOn)
	assert.NoError(t, <-ended)
	<-drawing
}

// What an earlier page left is offered, and the brief on the disk is shown until
// it is decided on.
func TestWhatWasLeft(t *testing.T) {
	begin := func(t *testing.T) (*page.Server, *shelf) {
		server, _, storage := serve(t, brief.Default())
		text := strings.Replace(string(brief.Default()), "Orchard kitchen towels", "Left behind", 1)
		storage.left = []engine.Left{{ID: 1, Says: "left yesterday", Text: []byte(text)},
			{ID: 2, Says: "no brief", Text: []byte("titel = [")}}
		return server, storage
	}
	t.Run("offered", func(t *testing.T) {
		server, _ := begin(t)
		shown := ask(t, server, "view", "")
		assert.Equal(t, "Orchard kitchen towels", shown.View.Title)
		require.Len(t, shown.Left, 2)
		assert.Equal(t, "left yesterday", shown.Left[0].Says)
		assert.Len(t, ask(t, server, "do", rename).Left, 2, "one may go on, and decide later")
	})
	t.Run("taken up", func(t *testing.T) {
		server, storage := begin(t)
		got := ask(t, server, "left", `{"left":1,"take":true}`)
		assert.Equal(t, "Left behind", got.View.Title)
		assert.False(t, got.View.Saved)
		assert.Len(t, got.Left, 1)
		assert.Contains(t, string(storage.unsaved), "Left behind", "kept anew")
		assert.Equal(t, []int{1}, storage.taken)
		assert.Equal(t, "Orchard kitchen towels", ask(t, server, "undo", "{}").View.Title)
		assert.Equal(t, "Left behind", ask(t, server, "redo", "{}").View.Title)
		assert.Equal(t, http.StatusUnprocessableEntity,
			ask(t, server, "left", `{"left":1,"take":true}`).status, "once")
	})
	t.Run("thrown away", func(t *testing.T) {
		server, _ := begin(t)
		got := ask(t, server, "left", `{"left":1,"take":false}`)
		assert.Equal(t, "Orchard kitchen towels", got.View.Title)
		assert.Len(t, got.Left, 1)
	})
	t.Run("no brief any more", func(t *testing.T) {
		server, _ := begin(t)
		got := ask(t, server, "left", `{"left":2,"take":true}`)
		assert.Equal(t, http.StatusUnprocessableEntity, got.status)
		assert.Len(t, got.Left, 2, "it is still there")
	})
	t.Run("where it can't be kept anew it stays", func(t *testing.T) {
		server, storage := begin(t)
		storage.cannot = errors.New("the disk is full")
		got := ask(t, server, "left", `{"left":1,"take":true}`)
		assert.Equal(t, "Left behind", got.View.Title)
		assert.Len(t, got.Left, 2)
	})
}

func TestWhatWasLeftInABrowser(t *testing.T) { onBoth(t, whatWasLeftInABrowser) }

func whatWasLeftInABrowser(t *testing.T, on target) {
	bench, b := on.work(t, brief.Default()), newBrowser(t, 1440, 900)
	bench.leave(b, titled("Left behind"), titled("And forgotten"))
	bench.open(b)
	b.shot("left")
	b.click("#left-1 .main")
	assert.Equal(t, "Left behind", bench.Plan().Title)
	assert.Contains(t, b.words("file"), "not saved yet · ")
	assert.Contains(t, eval[string](b, `document.getElementById("file").title`), ": kept in t")
	b.click("#left-2 button:last-child")
	assert.Equal(t, 1, bench.left(), "asked again")
	b.click("#left-2 button:last-child")
	assert.Zero(t, bench.left())
	assert.True(t, eval[bool](b, `document.getElementById("left").hidden`))
	b.quiet()
}
