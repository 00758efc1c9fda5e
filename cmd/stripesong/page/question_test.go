package page_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// words are what something on the page says; "" where it does not show.
func (b *browser) words(id string) string {
	b.t.Helper()
	return eval[string](b,
		`(e => e.checkVisibility() ? e.innerText.trim() : "")(document.getElementById(`+
			quote(id)+`))`)
}

// begun has the whole program at work on a brief, and a window on its page.
func begun(t *testing.T) (b *browser, r *running, file string) {
	t.Helper()
	stripesong, dir := program(t), t.TempDir()
	file = filepath.Join(dir, "my towels.toml")
	require.NoError(t, os.WriteFile(file, brief.Default(), 0o644))
	b = newBrowser(t, 1440, 900)
	r = start(t, stripesong, dir, "my towels.toml")
	b.open(r.address)
	b.click("#sizes")
	return b, r, file
}

// An editor's change that was taken over is not written over after an undo, unless
// that is agreed to.
func TestUndoBehindTheFileInABrowser(t *testing.T) { onBoth(t, undoBehindTheFileInABrowser) }

func undoBehindTheFileInABrowser(t *testing.T, on target) {
	b := newBrowser(t, 1440, 900)
	file := on.onFile(t, b, brief.Default())
	b.enter("#settings input", "On the page")
	byHand := string(brief.Default()) + "# by hand\n"
	file.write(byHand)
	b.click("#save")
	b.shot("asks-changed")
	assert.Equal(t, "The file has changed", b.words("changed-title"))
	assert.Equal(t, "Something else wrote to my towels.toml since it was read here. Nothing has "+
		"been saved.", b.words("changed-why"))
	assert.Equal(t, "Saving over it would lose these lines of the file:", b.words("changed-lost"))
	assert.Equal(t, "title = \"Orchard kitchen towels\"\n# by hand", b.words("changed-lines"))
	b.click("#changed-read")
	assert.Equal(t, "Orchard kitchen towels", b.words("title"))

	b.click("#undo")
	assert.Equal(t, "On the page", b.words("title"))
	b.click("#save")
	b.shot("asks-older")
	assert.Equal(t, "The file holds changes that this version does not", b.words("changed-title"))
	assert.Contains(t, b.words("changed-lines"), "# by hand")
	b.click("#changed-close")
	assert.Equal(t, byHand, file.read())
	b.click("#save")
	b.click("#changed-over")
	assert.Contains(t, file.read(), `"On the page"`)
	assert.NotContains(t, file.read(), "# by hand", "now it was agreed to")
	b.quiet("409", "422")
}

// What another window asks about the file is of the version it shows.
func TestTwoWindowsAskAboutTheFile(t *testing.T) {
	t.Parallel()
	b, r, file := begun(t)
	b.enter("#settings input", "On the page")
	byHand := string(brief.Default()) + "# by hand\n"
	require.NoError(t, os.WriteFile(file, []byte(byHand), 0o644))
	onDisk := func() string { return string(must(os.ReadFile(file))) }
	b.click("#save")
	b.click("#changed-read")
	b.click("#undo")

	second := newBrowser(t, 1440, 900)
	second.open(r.address)
	second.click("#save")
	assert.Equal(t, "The file holds changes that this version does not",
		second.words("changed-title"), "in another window too")
	b.click("#redo")
	assert.True(t, eval[bool](second,
		`new Promise(done => { const look = () => document.getElementById("changed").open ? setTimeout(look, 5) : done(true); look(); })`), "what it asked is of before")
	assert.Contains(t, second.words("said"), "another window has changed this")
	assert.Equal(t, byHand, onDisk())
	second.click("#undo")
	second.click("#save")
	second.click("#changed-over")
	assert.Contains(t, onDisk(), `"On the page"`)
	assert.NotContains(t, onDisk(), "# by hand", "now it was agreed to")
	b.quiet("409", "422")
	second.quiet("409", "422")
	r.interrupt(t)
}

func TestAFileThatIsGoneInABrowser(t *testing.T) { onBoth(t, aFileThatIsGoneInABrowser) }

func aFileThatIsGoneInABrowser(t *testing.T, on target) {
	b := newBrowser(t, 1440, 900)
	file := on.onFile(t, b, brief.Default())
	b.enter("#settings input", "On the page")
	file.remove()
	b.click("#save")
	b.shot("asks-gone")
	assert.Equal(t, "The file is gone", b.words("changed-title"))
	assert.Equal(t, "my towels.toml is no longer there: it was deleted, moved or given "+
		"another name. "+
		"Nothing has been saved. Saving writes the file again, as the brief is here.",
		b.words("changed-why"))
	assert.Empty(t, b.words("changed-lost")+b.words("changed-lines")+b.words("changed-read"))
	assert.Equal(t, "Save it again", b.words("changed-over"))
	assert.False(t, file.exists())
	b.click("#changed-over")
	assert.Contains(t, file.read(), "On the page")
	b.quiet("409")
}

// Where the program has ended the page tells the command that it was started with.
func TestAProgramThatEndedInABrowser(t *testing.T) {
	t.Parallel()
	b, r, _ := begun(t)
	b.enter("#settings input", "On the page")
	require.Contains(t, r.interrupt(t), "my-towels-unsaved.toml")
	b.enter("#settings input", "And on")
	b.shot("ended")
	assert.Equal(t, "the program does not answer", b.words("wrong-what"))
	assert.Equal(t, "Is it still running? Start it again, in the same folder, and open the "+
		"address that it prints: stripesong page 'my towels.toml' "+
		"(what is not saved is kept in my-towels-unsaved.toml, up to your last change before the "+
		"program ended, and offered then)", b.words("wrong-hint"))
	b.quiet("ERR_CONNECTION_REFUSED")
}

// So it does where all was saved, and what is changed after that is only in the window.
func TestAProgramThatEndedAfterSavingInABrowser(t *testing.T) {
	t.Parallel()
	b, r, file := begun(t)
	b.enter("#settings input", "On the page")
	b.click("#save")
	assert.Equal(t, "saved in my towels.toml; the brief as it was: my towels-before.toml",
		b.words("said"))
	assert.FileExists(t, filepath.Join(filepath.Dir(file), "my towels-before.toml"))
	r.interrupt(t)
	b.enter("#settings input", "And on")
	assert.Equal(t, "Is it still running? Start it again, in the same folder, and open the "+
		"address that it prints: stripesong page 'my towels.toml' "+
		"(what you changed here since it ended is not kept)", b.words("wrong-hint"))
	b.quiet("ERR_CONNECTION_REFUSED")
}

// A page of an earlier run says so, where the program answers at the same port again.
func TestAProgramThatWasStartedAnewInABrowser(t *testing.T) {
	t.Parallel()
	b, r, file := begun(t)
	b.enter("#settings input", "On the page")
	r.interrupt(t)
	port := strings.Split(strings.Split(r.address, "/")[2], ":")[1]
	again := start(t, r.Path, filepath.Dir(file), "my towels.toml", "--port", port)
	b.click("#save")
	b.shot("started-anew")
	assert.Equal(t, "the program was started again, and this page belongs to its earlier run",
		b.words("wrong-what"))
	assert.Equal(t, "Open the address that it printed when it was started last. What is not "+
		"saved is kept in "+
		"my-towels-unsaved.toml, up to your last change before the program ended, and "+
		"offered there.", b.words("wrong-hint"))
	b.quiet("404", "ERR_CONNECTION_REFUSED")
	b.open(again.address)
	b.click("#left .main")
	assert.Equal(t, "On the page", b.words("title"))
	again.interrupt(t)
}

// What is drawn from work that is not saved is said to be.
func TestDrawingsOfUnsavedWork(t *testing.T) {
	server, _, _ := serve(t, brief.Default())
	assert.Equal(t, "drawings and lists are in the folder towels",
		ask(t, server, "publish", "{}").Said)
	ask(t, server, "do", `{"op":{"do":"rhythm","strip":0,"rhythm":{"kind":"even","stripes":"5"}}}`)
	assert.Equal(t, "drawings and lists are in the folder towels; they show your work as it is "+
		"here, which is not saved yet",
		ask(t, server, "publish", "{}").Said)
	ask(t, server, "save", "{}")
	assert.Equal(t, "drawings and lists are in the folder towels",
		ask(t, server, "publish", "{}").Said)
}
