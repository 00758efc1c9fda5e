package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// save saves and gives why the page asks first; "" where it does not.
func (p *livePage) save() string {
	p.t.Helper()
	got := p.post("save", "{}")
	if got.status == 200 {
		return ""
	}
	require.Equal(p.t, 409, got.status, got.Said)
	return got.Asks.Why
}

func (p *livePage) must(path, body string) {
	p.t.Helper()
	got := p.post(path, body)
	require.Equal(p.t, 200, got.status, got.Said)
}

// takenOver has a page with an edit of its own, then the file's of another program
// taken over: two steps can be undone.
func takenOver(t *testing.T) (p *livePage, name, byHand string) {
	t.Helper()
	name = briefIn(t)
	p = openPage(t, name)
	p.title("Before")
	appendTo(t, name, "# by hand\n")
	require.Equal(t, "changed", p.save())
	p.must("reread", "{}")
	return p, name, string(read(t, name))
}

// A version from before the file was taken over does not take its place unasked,
// by whatever way the version came back.
func TestOlderVersionsAreNotSavedUnasked(t *testing.T) {
	t.Run("after an undo", func(t *testing.T) {
		p, name, byHand := takenOver(t)
		p.must("undo", "{}")
		require.Equal(t, "Before", p.view().View.Title)
		got := p.post("save", "{}")
		assert.Equal(t, 409, got.status)
		assert.Equal(t, "older", got.Asks.Why)
		assert.Contains(t, got.Asks.Lost, "# by hand", "what would be lost is told")
		assert.Equal(t, byHand, string(read(t, name)))
		t.Run("agreed to, it is saved", func(t *testing.T) {
			p.must("save", `{"over":true}`)
			assert.Contains(t, string(read(t, name)), `"Before"`)
			assert.NotContains(t, string(read(t, name)), "# by hand")
			p.title("And on")
			assert.Empty(t, p.save(), "that was agreed to")
		})
		t.Run("what goes on from the other is saved without asking", func(t *testing.T) {
			p.must("undo", "{}")
			p.must("reread", "{}")
			assert.Empty(t, p.save(), "it is the file")
		})
	})
	t.Run("after more undoing, and edits then", func(t *testing.T) {
		p, name, byHand := takenOver(t)
		p.must("undo", "{}")
		p.must("undo", "{}")
		assert.Equal(t, "older", p.save())
		p.title("Elsewhere")
		assert.Equal(t, "older", p.save())
		assert.Equal(t, byHand, string(read(t, name)))
	})
	t.Run("by a version that was pinned", func(t *testing.T) {
		name := briefIn(t)
		p := openPage(t, name)
		p.must("pin", "{}")
		appendTo(t, name, "# by hand\n")
		p.must("reread", "{}")
		p.must("pin", `{"pinned":1,"take":true}`)
		assert.Equal(t, "older", p.save())
		assert.Contains(t, string(read(t, name)), "# by hand")
	})
	t.Run("after what goes on from the file was saved", func(t *testing.T) {
		p, name, _ := takenOver(t)
		p.title("After")
		assert.Empty(t, p.save())
		saved := string(read(t, name))
		for range 3 {
			p.must("undo", "{}")
		}
		assert.Equal(t, "older", p.save())
		assert.Equal(t, saved, string(read(t, name)))
		p.must("save", `{"over":true}`)
		for range 3 {
			p.must("redo", "{}")
		}
		assert.Empty(t, p.save(), "only the page's own is written over")
		assert.Equal(t, saved, string(read(t, name)))
		for range 2 {
			p.must("undo", "{}")
		}
		assert.Equal(t, "older", p.save(), "and asked again")
	})
	t.Run("where something else wrote twice", func(t *testing.T) {
		p, name, _ := takenOver(t)
		appendTo(t, name, "# and more\n")
		require.Equal(t, "changed", p.save())
		p.must("reread", "{}")
		p.must("undo", "{}")
		assert.Equal(t, "older", p.save(), "from between the two")
		p.must("redo", "{}")
		assert.Empty(t, p.save())
	})
	t.Run("after a kill", func(t *testing.T) {
		p, name, byHand := takenOver(t)
		p.must("undo", "{}")
		require.NoError(t, p.close())
		p = takeUp(t, name)
		require.Equal(t, "Before", p.view().View.Title)
		assert.Equal(t, "older", p.save())
		assert.Equal(t, byHand, string(read(t, name)))
		p.must("undo", "{}")
		p.title("On from the file")
		assert.Empty(t, p.save(), "that goes on from the file")
	})
}

// The page's own versions may take each other's place in the file: undoing brings
// back what was there.
func TestOwnVersionsAreSavedUnasked(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	p.title("One")
	require.Empty(t, p.save())
	p.title("Two")
	require.Empty(t, p.save())
	p.must("undo", "{}")
	assert.Empty(t, p.save())
	p.must("undo", "{}")
	assert.Empty(t, p.save())
	p.must("redo", "{}")
	p.must("redo", "{}")
	assert.Empty(t, p.save())
	assert.Contains(t, string(read(t, name)), `"Two"`)
}

// In a second window nothing is agreed to that another one was asked.
func TestAWindowAnswersOnlyForWhatItShows(t *testing.T) {
	p, name, byHand := takenOver(t)
	p.must("undo", "{}")
	asked := p.view().View.Edition
	require.Equal(t, "older", p.save())
	p.must("undo", "{}")
	got := p.post("save", fmt.Sprintf(`{"over":true,"edition":%d}`, asked))
	assert.Equal(t, 422, got.status)
	assert.Contains(t, got.Said, "another window has changed the brief")
	assert.Equal(t, byHand, string(read(t, name)))
}

func TestSavingWhereTheFileIsGone(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	p.title("On the page")
	require.NoError(t, os.Rename(name, filepath.Join(filepath.Dir(name), "moved.toml")))
	assert.Equal(t, 409, p.post("save", `{"over":true}`).status, "nobody was asked")
	assert.Equal(t, "gone", p.save())
	assert.NoFileExists(t, name)
	p.must("save", `{"over":true}`)
	assert.Contains(t, string(read(t, name)), "On the page")
	p.title("And on")
	assert.Empty(t, p.save())
}

// What starts the page again is what was typed, for a shell.
func TestTheCommandAsItWasTyped(t *testing.T) {
	for _, one := range []struct {
		args []string
		want string
	}{
		{nil, "stripesong page"},
		{[]string{"towels.toml"}, "stripesong page towels.toml"},
		{[]string{"grandma's towels.toml", "--open"},
			`stripesong page 'grandma'\''s towels.toml' --open`},
		{[]string{"--port", "8080", "--", "-towels.toml"},
			"stripesong page --port 8080 -- -towels.toml"},
		{[]string{"tow\x1b[31mels.toml"}, "stripesong page 'tow␛[31mels.toml'"},
	} {
		got := (&world{args: one.args}).typed("page")
		assert.Equal(t, one.want, got)
	}
}
