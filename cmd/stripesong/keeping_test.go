package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// filesBeside are the names in a brief's folder.
func filesBeside(t *testing.T, brief string) (names []string) {
	t.Helper()
	entries, err := os.ReadDir(filepath.Dir(brief))
	require.NoError(t, err)
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestUnsavedWorkIsFoundAgain(t *testing.T) {
	name := briefIn(t)
	onDisk := string(read(t, name))
	unsaved := filepath.Join(filepath.Dir(name), "towels-unsaved.toml")
	p := openPage(t, name)
	assert.Equal(t, unsaved, p.title("Not saved").Kept.Where)
	assert.Contains(t, string(read(t, unsaved)), `title = "Not saved"`, "while the page is open")
	info, err := os.Stat(unsaved)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "as private as the brief")
	require.NoError(t, p.close())
	assert.Equal(t,
		fmt.Sprintf("what is not saved is kept in %s\nwhat was not saved is kept in %s; the page "+
			"offers it when it opens the brief again\n", unsaved, unsaved), p.said.String())
	assert.Equal(t, []string{"towels-unsaved.toml", "towels.toml"}, filesBeside(t, name))
	assert.Equal(t, onDisk, string(read(t, name)))

	p = openPage(t, name)
	t.Run("offered", func(t *testing.T) {
		got := p.view()
		assert.Equal(t, "Two for the test", got.View.Title, "the brief on the disk is shown")
		require.Len(t, got.Left, 1)
		assert.Regexp(t,
			`^left unsaved on \d+ \w+ \d{4} at \d\d:\d\d, kept in .*towels-unsaved\.toml$`,
			got.Left[0].Says)
	})
	t.Run("both are kept while one goes on", func(t *testing.T) {
		assert.Contains(t, p.title("Another").Kept.Where, "towels-unsaved-2.toml")
		assert.Contains(t, string(read(t, unsaved)), "Not saved")
	})
	t.Run("taken up and saved", func(t *testing.T) {
		got := p.post("left", fmt.Sprintf(`{"left":%d,"take":true}`, p.view().Left[0].ID))
		assert.Equal(t, "Not saved", got.View.Title)
		assert.Empty(t, got.Left)
		assert.Equal(t, 200, p.post("save", "{}").status)
		assert.Equal(t, []string{"towels-before.toml", "towels.toml"}, filesBeside(t, name))
		assert.Equal(t, strings.Replace(onDisk, "Two for the test", "Not saved", 1),
			string(read(t, name)))
	})
	require.NoError(t, p.close())
	assert.Contains(t, p.said.String(), "towels-unsaved.toml: the page offers it\n",
		"the terminal says so too")
	assert.Equal(t, []string{"towels-before.toml", "towels.toml"}, filesBeside(t, name))
}

func TestUnsavedWorkIsThrownAway(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	p.title("Not saved")
	require.NoError(t, p.close())
	appendTo(t, name, "# by hand\n")
	p = openPage(t, name)
	left := p.view().Left
	require.Len(t, left, 1)
	assert.Contains(t, left[0].Says, "the brief has been changed since it was begun")
	assert.Empty(t, p.post("left", fmt.Sprintf(`{"left":%d,"take":false}`, left[0].ID)).Left)
	assert.Equal(t, []string{"towels.toml"}, filesBeside(t, name))
	assert.Equal(t, "Two for the test", p.view().View.Title)
}

// takeUp opens a page and takes up the only work that was left.
func takeUp(t *testing.T, name string) *livePage {
	t.Helper()
	p := openPage(t, name)
	left := p.view().Left
	require.Len(t, left, 1)
	require.Equal(t, 200, p.post("left", fmt.Sprintf(`{"left":%d,"take":true}`, left[0].ID)).status)
	return p
}

// Work that is taken up again goes on from the file as it was then: what another
// program did to the file since is not written over unasked.
func TestTakenUpOverAChangedFile(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	p.title("Not saved")
	require.NoError(t, p.close())
	appendTo(t, name, "# by hand\n")
	byHand := string(read(t, name))

	p = takeUp(t, name)
	t.Run("saving asks", func(t *testing.T) {
		got := p.post("save", "{}")
		assert.Equal(t, 409, got.status)
		assert.Equal(t, "older", got.Asks.Why)
		assert.Equal(t, byHand, string(read(t, name)))
	})
	p.title("Still not saved")
	require.NoError(t, p.close())
	p = takeUp(t, name)
	t.Run("so it does when it was kept once more", func(t *testing.T) {
		assert.Equal(t, "Still not saved", p.view().View.Title)
		assert.Equal(t, 409, p.post("save", "{}").status)
		assert.Equal(t, byHand, string(read(t, name)))
	})
	t.Run("and writes over it when that is agreed to", func(t *testing.T) {
		assert.Equal(t, 200, p.post("save", `{"over":true}`).status)
		assert.Contains(t, string(read(t, name)), "Still not saved")
		p.title("And on")
		assert.Equal(t, 200, p.post("save", "{}").status, "the file is known now")
	})
}

// What was left is taken up as it was found, though its file can't be taken away.
func TestTakenUpFromAChangedFileOfUnsavedWork(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	where := p.title("Not saved").Kept.Where
	require.NoError(t, p.close())
	p = openPage(t, name)
	appendTo(t, where, "# by hand\n")
	got := p.post("left", fmt.Sprintf(`{"left":%d,"take":true}`, p.view().Left[0].ID))
	assert.Equal(t, 200, got.status)
	assert.Equal(t, "Not saved", got.View.Title)
	assert.Contains(t, got.Said, "it is not as it was found any more, so it is left as it is")
	assert.Contains(t, string(read(t, where)), "# by hand")
	assert.NotEqual(t, where, got.Kept.Where)
}

// Work that is taken up after something else was saved was begun before that.
func TestTakenUpAfterSaving(t *testing.T) {
	name := briefIn(t)
	p := openPage(t, name)
	p.title("Not saved")
	require.NoError(t, p.close())
	p = openPage(t, name)
	p.title("Saved")
	require.Equal(t, 200, p.post("save", "{}").status)
	saved := string(read(t, name))
	got := p.post("left", fmt.Sprintf(`{"left":%d,"take":true}`, p.view().Left[0].ID))
	assert.Equal(t, "Not saved", got.View.Title)
	assert.Equal(t, 409, p.post("save", "{}").status)
	assert.Equal(t, saved, string(read(t, name)))
	assert.Equal(t, 200, p.post("undo", "{}").status)
	assert.Equal(t, "Saved", p.view().View.Title)
}

// Two pages of one brief keep two files, and neither offers the other's.
func TestTwoPagesOfOneBrief(t *testing.T) {
	name := briefIn(t)
	first, second := openPage(t, name), openPage(t, name)
	one, two := first.title("One").Kept.Where, second.title("Two").Kept.Where
	assert.NotEqual(t, one, two)
	third := openPage(t, name)
	assert.Empty(t, third.view().Left)
	assert.Contains(t, string(read(t, one)), `title = "One"`)
	assert.Contains(t, string(read(t, two)), `title = "Two"`)
	assert.Equal(t, 200, first.post("save", "{}").status)
	assert.NoFileExists(t, one)
	assert.Contains(t, string(read(t, two)), `title = "Two"`, "the other's stays")
	require.NoError(t, second.close())
	require.NoError(t, third.close())
	assert.Contains(t, third.said.String(),
		"another page is at work on this brief; what it has not saved is in "+one)
	assert.Len(t, openPage(t, name).view().Left, 1)
}

// A program that is killed leaves what was kept, and the next one finds it.
func TestUnsavedWorkOutlivesAKill(t *testing.T) {
	name := briefIn(t)
	page := exec.Command(binary(t), "page", name)
	out, err := page.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, page.Start())
	p := &livePage{t: t}
	lines := bufio.NewScanner(out)
	for p.address == "" && lines.Scan() {
		if line := strings.TrimSpace(lines.Text()); strings.HasPrefix(line, "http://127.0.0.1:") {
			p.address = line
		}
	}
	require.NotEmpty(t, p.address)
	assert.Equal(t, 200, p.title("Not saved").status)
	require.NoError(t, page.Process.Kill())
	page.Wait()
	appendTo(t, name, "# by hand\n")
	again := openPage(t, name)
	left := again.view().Left
	require.Len(t, left, 1)
	assert.Equal(t, "Not saved",
		again.post("left", fmt.Sprintf(`{"left":%d,"take":true}`, left[0].ID)).View.Title)
	assert.Equal(t, 409, again.post("save", "{}").status, "the file was changed after the kill")
	assert.Equal(t, 200, again.post("undo", "{}").status)
	assert.Equal(t, []string{"towels.toml"}, filesBeside(t, name),
		"nothing unsaved, and nothing of the killed one either")
}

// Where nothing can be kept beside the brief it is in the state folder, and
// then in the one for what is temporary.
func TestUnsavedWorkElsewhere(t *testing.T) {
	name, elsewhere := briefIn(t), t.TempDir()
	// no lock to be had
	require.NoError(t, os.Mkdir(filepath.Join(filepath.Dir(name), ".towels-unsaved.toml.lock"),
		0o700))
	t.Run("in the state folder", func(t *testing.T) {
		p := openPageWith(t, name, elsewhere)
		assert.Equal(t, filepath.Join(elsewhere, "state", "stripesong", "towels-unsaved.toml"),
			p.title("In the state folder").Kept.Where)
		require.NoError(t, p.close())
		require.Len(t, openPageWith(t, name, elsewhere).view().Left, 1)
		assert.Empty(t, openPageWith(t, briefIn(t), elsewhere).view().Left, "it is another brief's")
	})
	var where string
	t.Run("in the temporary folder, where there is no state folder", func(t *testing.T) {
		require.NoError(t, os.RemoveAll(filepath.Join(elsewhere, "state")))
		require.NoError(t, os.WriteFile(filepath.Join(elsewhere, "state"), nil, 0o600))
		p := openPageWith(t, name, elsewhere)
		where = p.title("In the temporary folder").Kept.Where
		assert.Equal(t, "towels-unsaved.toml", filepath.Base(where))
		assert.Equal(t, elsewhere, filepath.Dir(filepath.Dir(where)))
		require.NoError(t, p.close())
		require.Len(t, openPageWith(t, name, elsewhere).view().Left, 1)
	})
	t.Run("nowhere, where anybody may write", func(t *testing.T) {
		if runtime.GOOS == "windows" {
			t.Skip("permissions are another matter there")
		}
		require.NoError(t, os.Chmod(filepath.Dir(where), 0o777))
		p := openPageWith(t, name, elsewhere)
		assert.Empty(t, p.view().Left, "anybody may have put it there")
		got := p.title("Nowhere")
		assert.Equal(t, 200, got.status)
		assert.NotEmpty(t, got.Kept.Wrong)
		assert.ErrorContains(t, p.close(), "what was not saved is lost")
		assert.Contains(t, p.said.String(), "what is not saved can't be kept")
	})
}

func TestPrivateFolder(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("each user has a temporary folder there")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, "stripesong")
	assert.Error(t, privateFolder(path, false), "it is not there")
	require.NoError(t, privateFolder(path, true))
	assert.NoError(t, privateFolder(path, true))
	assert.NoError(t, privateFolder(path, false))
	link := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink(path, link))
	assert.Error(t, privateFolder(link, true), "a link may lead anywhere")
	require.NoError(t, os.Chmod(path, 0o750))
	assert.Error(t, privateFolder(path, true))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "file"), nil, 0o600))
	assert.Error(t, privateFolder(filepath.Join(dir, "file"), true))
}

func TestStateFolder(t *testing.T) {
	if runtime.GOOS == "windows" || runtime.GOOS == "darwin" {
		t.Skip("they have folders of their own")
	}
	for _, one := range []struct{ state, home, want string }{
		{"/s", "/h", "/s"}, {"", "/h", "/h/.local/state"},
		{"not/from/the/root", "/h", "/h/.local/state"}, {"", "", ""}, {"", "h", ""},
	} {
		w := &world{env: func(name string) string {
			return map[string]string{"XDG_STATE_HOME": one.state, "HOME": one.home}[name]
		}}
		assert.Equal(t, one.want, w.stateFolder())
	}
}
