package whole

import (
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/lock"
)

// stopped makes a working folder as a program leaves it that was killed.
func stopped(t *testing.T, parent string, files map[string]string) string {
	t.Helper()
	dir, err := os.MkdirTemp(parent, prefix+"*")
	require.NoError(t, err)
	write(t, "", dir, "lock")
	for name, text := range files {
		write(t, text, dir, name)
	}
	return filepath.Base(dir)
}

func TestStoppedWorkIsClearedAway(t *testing.T) {
	dir := t.TempDir()
	dead := stopped(t, dir, map[string]string{"new/x": "half"})
	deadFile := stopped(t, dir, map[string]string{"new": "half"})
	empty, err := os.MkdirTemp(dir, prefix+"*")
	require.NoError(t, err)
	mine, err := begin(dir)
	require.NoError(t, err)
	withDiary := stopped(t, dir, map[string]string{"diary": "hers"})
	noLock := stopped(t, dir, map[string]string{"new/x": "of a disk without locks"})
	require.NoError(t, os.Remove(filepath.Join(dir, noLock, "lock")))
	write(t, "hers", dir, prefix+"x", "new")
	write(t, "hers", dir, prefix[:len(prefix)-1], "new")
	require.NoError(t, Create(filepath.Join(dir, "file"), nil))
	left := names(t, dir)
	for _, gone := range []string{dead, deadFile, filepath.Base(empty)} {
		assert.NotContains(t, left, gone)
	}
	assert.ElementsMatch(t, left,
		[]string{"file", filepath.Base(mine.dir), withDiary, noLock, prefix + "x",
			prefix[:len(prefix)-1]})
	assert.Equal(t, "hers", read(t, dir, withDiary, "diary"))
	mine.close()
	assert.NoDirExists(t, mine.dir)
}

// TestWorkOfALivingProgram: its lock tells, not its number, and a program that is
// killed lets go of it.
func TestWorkOfALivingProgram(t *testing.T) {
	if dir := os.Getenv("STRIPESONG_WORK"); dir != "" { // the program that is killed
		w, err := begin(dir)
		require.NoError(t, err)
		write(t, "half", w.path("new"), "x")
		os.Stdout.WriteString("begun\n")
		os.Stdin.Read(make([]byte, 1)) // which never comes
		return
	}
	dir := t.TempDir()
	other := exec.Command(os.Args[0], "-test.run=^TestWorkOfALivingProgram$")
	other.Env = append(os.Environ(), "STRIPESONG_WORK="+dir)
	_, err := other.StdinPipe()
	require.NoError(t, err)
	out, err := other.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, other.Start())
	said := make([]byte, 6)
	_, err = io.ReadFull(out, said)
	require.NoError(t, err)
	require.Equal(t, "begun\n", string(said))
	sweep(dir)
	assert.Len(t, names(t, dir), 1, "it is still there")
	other.Process.Kill()
	other.Wait()
	assert.Len(t, names(t, dir), 1)
	sweep(dir)
	assert.Empty(t, names(t, dir))
}

// TestNoLockToBeHad: a work without one is written all the same, and nobody who
// can have locks takes it for abandoned.
func TestNoLockToBeHad(t *testing.T) {
	dir := t.TempDir()
	path, err := os.MkdirTemp(dir, prefix+"*")
	require.NoError(t, err)
	w := &work{dir: path}
	write(t, "", path, "lock")
	require.NoError(t, w.withoutLock())
	sweep(dir)
	assert.Equal(t, []string{"unlock"}, names(t, path))
	w.close()
	assert.Empty(t, names(t, dir))
}

// TestLockIsNoLink: a work made to look so does not make files elsewhere.
func TestLockIsNoLink(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, prefix+"1"), 0o777))
	require.NoError(t, os.Symlink(filepath.Join(dir, "target"),
		filepath.Join(dir, prefix+"1", "lock")))
	sweep(dir)
	assert.NoFileExists(t, filepath.Join(dir, "target"))
	_, err := lock.TryThere(filepath.Join(dir, prefix+"1", "lock"))
	assert.Error(t, err)
}

// TestStoppedBetweenTwoSteps: the old folder goes back.
func TestStoppedBetweenTwoSteps(t *testing.T) {
	dir := t.TempDir()
	stopped(t, dir, map[string]string{"name": "out", "old/x": "old", "new/x": "new",
		"new/" + listName: string(list{"x": sumOf([]byte("new"))}.text())})
	assert.Empty(t, sweep(dir))
	assert.Equal(t, []string{"out"}, names(t, dir))
	assert.Equal(t, "old", read(t, dir, "out", "x"))
}

// TestStoppedBeforeTheExchange and after it: a folder that nobody saw goes, and
// from one that stood there what was saved into it goes back.
func TestStoppedAtTheExchange(t *testing.T) {
	ours := string(list{"x": sumOf([]byte("ours"))}.text())
	t.Run("before", func(t *testing.T) {
		dir := t.TempDir()
		make1(t, filepath.Join(dir, "out"), "x", "old")
		stopped(t, dir, map[string]string{"name": "out", "new/x": "ours", "new/" + listName: ours})
		assert.Empty(t, sweep(dir))
		assert.Equal(t, []string{"out"}, names(t, dir))
		assert.Equal(t, "old", read(t, dir, "out", "x"))
	})
	for _, step := range []string{"old", "new"} {
		t.Run("after it, in "+step, func(t *testing.T) {
			dir := t.TempDir()
			make1(t, filepath.Join(dir, "out"), "x", "new")
			stopped(t, dir, map[string]string{"name": "out", step + "/x": "ours",
				step + "/diary": "hers", step + "/" + listName: ours})
			assert.Equal(t, []string{filepath.Join(dir, "out", "diary")}, sweep(dir))
			assert.Equal(t, []string{"out"}, names(t, dir))
			assert.Equal(t, "hers", read(t, dir, "out", "diary"))
			assert.Equal(t, "new", read(t, dir, "out", "x"))
		})
	}
	t.Run("in the midst of saying the name", func(t *testing.T) {
		dir := t.TempDir()
		make1(t, filepath.Join(dir, "out"), "x", "old")
		stopped(t, dir, map[string]string{"name.new": "", "new/x": "ours", "new/" + listName: ours})
		assert.Empty(t, sweep(dir))
		assert.Equal(t, []string{"out"}, names(t, dir))
	})
	t.Run("a name that is a path", func(t *testing.T) {
		dir := t.TempDir()
		left := stopped(t, dir, map[string]string{"name": "../out", "old/x": "hers"})
		assert.Empty(t, sweep(dir))
		assert.Equal(t, "hers", read(t, dir, left, "old", "x"))
	})
}

// TestWorkOfAnotherUser is left alone, even by root: what lies in it may be meant to
// be moved somewhere.
func TestWorkOfAnotherUser(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("only root can give a folder away")
	}
	dir := t.TempDir()
	left := stopped(t, dir, map[string]string{"name": "out", "new/x": "theirs"})
	require.NoError(t, os.Chown(filepath.Join(dir, left), 4321, 4321))
	assert.Empty(t, sweep(dir))
	assert.Equal(t, []string{left}, names(t, dir))
	assert.Equal(t, "theirs", read(t, dir, left, "new", "x"))
}
