package whole

import (
	"errors"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var errFull = errors.New("no space left")

func one(name, text string) func(Put) error {
	return func(put Put) error { return put(name, []byte(text)) }
}

// make1 makes a folder with one file, and nothing may have to be kept.
func make1(t *testing.T, path, name, text string) {
	t.Helper()
	kept, err := Folder(path, "", one(name, text))
	require.NoError(t, err)
	require.Empty(t, kept)
}

// names lists what is in a folder, hidden folders too.
func names(t *testing.T, dir string) (list []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		list = append(list, e.Name())
	}
	return list
}

func read(t *testing.T, parts ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(parts...))
	require.NoError(t, err)
	return string(text)
}

func write(t *testing.T, text string, parts ...string) string {
	t.Helper()
	path := filepath.Join(parts...)
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o777))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o666))
	return path
}

func TestFolderIsMadeWithItsParents(t *testing.T) {
	dir := t.TempDir()
	make1(t, filepath.Join(dir, "a", "b"), "x", "new")
	assert.Equal(t, "new", read(t, dir, "a", "b", "x"))
	assert.Equal(t, []string{"b"}, names(t, filepath.Join(dir, "a")), "no working folder is left")
	// the sum of "new" as sha256sum prints it
	assert.Equal(t, "11507a0e2f5e69d5dfa40a62a1bd7b6ee57e6bcd85c67c9b8431b36fff21c437  x\n",
		read(t, dir, "a", "b", listName))
}

func TestFolderReplacesItsOwn(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	make1(t, out, "x", "old")
	write(t, "", out, ".DS_Store")
	make1(t, out, "y", "new")
	assert.Equal(t, []string{listName, "y"}, names(t, out), "what the old one held is gone")
	assert.Equal(t, []string{"out"}, names(t, dir))
}

func TestFolderThatFailsChangesNothing(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	make1(t, out, "x", "old")
	fail := func(put Put) error { return errors.Join(put("x", []byte("half")), errFull) }

	_, err := Folder(out, "", fail)
	assert.ErrorIs(t, err, errFull)
	assert.Equal(t, "old", read(t, out, "x"))
	_, err = Folder(filepath.Join(dir, "p", "q"), "", fail)
	assert.ErrorIs(t, err, errFull)
	assert.Equal(t, []string{"out"}, names(t, dir),
		"neither a working folder nor an empty parent is left")
}

func TestFolderLeavesWhatIsNotItsOwn(t *testing.T) {
	dir := t.TempDir()
	for what, make := range map[string]func(path string){
		"is a file":     func(path string) { write(t, "mine", path) },
		"is a link":     func(path string) { require.NoError(t, os.Symlink(t.TempDir(), path)) },
		"nothing in it": func(path string) { write(t, "mine", path, "plan.json") },
		`holds "diary", which is no part of it`: func(path string) {
			make1(t, path, "x", "old")
			write(t, "mine", path, "diary")
		},
		`holds "sub", which is no part of it`: func(path string) {
			make1(t, path, "x", "old")
			require.NoError(t, os.Mkdir(filepath.Join(path, "sub"), 0o777))
		},
		`"x" in it is no longer a file of its own`: func(path string) {
			make1(t, path, "x", "old")
			require.NoError(t, os.Rename(filepath.Join(path, "x"), filepath.Join(dir, "hers")))
			require.NoError(t, os.Symlink(filepath.Join(dir, "hers"), filepath.Join(path, "x")))
		},
		`"x" in it was changed since it was written`: func(path string) {
			make1(t, path, "x", "old")
			write(t, "mine", path, "x")
		},
	} {
		t.Run(what, func(t *testing.T) {
			path := filepath.Join(dir, filepath.Base(t.Name()))
			make(path)
			before, _ := os.ReadDir(path)
			kept, err := Folder(path, "", one("x", "new"))
			assert.ErrorContains(t, err, what)
			assert.Empty(t, kept)
			after, _ := os.ReadDir(path)
			assert.Equal(t, len(before), len(after))
		})
	}
	_, err := Folder(filepath.Join(write(t, "", dir, "file"), "sub"), "", one("x", "new"))
	assert.ErrorContains(t, err, "not a directory")
}

func TestFolderRefusesTheOneItRunsIn(t *testing.T) {
	dir := t.TempDir()
	here, link := filepath.Join(dir, "a", "here"), filepath.Join(dir, "link")
	require.NoError(t, os.MkdirAll(here, 0o777))
	require.NoError(t, os.Symlink(filepath.Join(dir, "a"), link))
	t.Chdir(here)
	t.Setenv("PWD", filepath.Join(link, "here")) // as a shell has it that came by the link
	for _, path := range []string{".", "..", "../.", string(filepath.Separator), here,
		filepath.Join(dir, "a"), filepath.Join(link, "here")} {
		_, err := Folder(path, "", one("x", "new"))
		assert.ErrorContains(t, err, "holds the folder you are in", path)
	}
	make1(t, "..sub", "x", "a name may begin with dots")
}

func TestFolderTakesAnEmptyOne(t *testing.T) {
	dir := t.TempDir()
	make1(t, dir, "x", "new")
	assert.Equal(t, "new", read(t, dir, "x"))
}

func TestFileNamesAreNeverPaths(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	for _, name := range []string{"", ".", "..", "a/b", "/a", "../a", listName} {
		_, err := Folder(out, "", one(name, ""))
		assert.ErrorContains(t, err, "not the name of a file", name)
	}
}

// What is taken away when something fails is what was made, and nothing that was
// there: not a link to a disk that is not in, not a folder that came meanwhile.
func TestOnlyWhatWasMadeIsUndone(t *testing.T) {
	dir := t.TempDir()
	usb := filepath.Join(dir, "usb")
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), usb))
	for _, path := range []string{filepath.Join(usb, "towels"), filepath.Join(usb, "a", "b")} {
		_, err := Folder(path, "", one("x", "new"))
		assert.ErrorContains(t, err, "usb\" is a link to what is not there")
		assert.Equal(t, []string{"usb"}, names(t, dir))
		to, err := os.Readlink(usb)
		require.NoError(t, err)
		assert.Equal(t, filepath.Join(dir, "nowhere"), to)
	}
	t.Run("what came meanwhile stays", func(t *testing.T) {
		undo, err := MakeFolders(filepath.Join(dir, "a", "b", "c"))
		require.NoError(t, err)
		require.NoError(t, os.Remove(filepath.Join(dir, "a", "b", "c")))
		write(t, "hers", dir, "a", "b", "c")
		undo()
		assert.Equal(t, "hers", read(t, dir, "a", "b", "c"))
	})
	t.Run("and what was made goes", func(t *testing.T) {
		undo, err := MakeFolders(filepath.Join(dir, "p", "q"))
		require.NoError(t, err)
		assert.DirExists(t, filepath.Join(dir, "p", "q"))
		undo()
		assert.NoDirExists(t, filepath.Join(dir, "p"))
	})
}

// TestFolderKeepsItsPermissions: one that is closed to others stays so.
func TestFolderKeepsItsPermissions(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are a matter of Unix")
	}
	out := filepath.Join(t.TempDir(), "out")
	make1(t, out, "x", "old")
	require.NoError(t, os.Chmod(out, 0o770))
	make1(t, out, "x", "new")
	info, err := os.Stat(out)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o770), info.Mode().Perm())
}

// TestFolderLeavesTheProtected: what she has protected, the folder or a file in
// it, is not replaced.
func TestFolderLeavesTheProtected(t *testing.T) {
	for _, what := range []string{"", "x"} {
		out := filepath.Join(t.TempDir(), "out")
		make1(t, out, "x", "old")
		path := filepath.Join(out, what)
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.NoError(t, os.Chmod(path, info.Mode().Perm()&^0o222))
		_, err = Folder(out, "", one("x", "new"))
		assert.ErrorContains(t, err, "protected from being written to")
		assert.Equal(t, "old", read(t, out, "x"))
		require.NoError(t, os.Chmod(path, info.Mode().Perm()))
	}
}
