package whole

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var errFull = errors.New("no space left")

func one(name, text string) func(Put) error {
	return func(put Put) error { return put(name, []byte(text)) }
}

func anyone(string) error { return nil }

// names lists what is in a folder, hidden rooms too.
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

func TestFolderIsMadeWithItsParents(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, Folder(filepath.Join(dir, "a", "b"), anyone, one("x", "new")))
	assert.Equal(t, "new", read(t, dir, "a", "b", "x"))
	assert.Equal(t, []string{"b"}, names(t, filepath.Join(dir, "a")), "no room is left")
}

func TestFolderReplacesItsOwn(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	require.NoError(t, Folder(out, anyone, one("x", "old")))
	require.NoError(t, Folder(out, anyone, one("y", "new")))
	assert.Equal(t, []string{"y"}, names(t, out), "what the old one held is gone")
	assert.Equal(t, []string{"out"}, names(t, dir))
}

func TestFolderThatFailsChangesNothing(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	require.NoError(t, Folder(out, anyone, one("x", "old")))
	fail := func(put Put) error { return errors.Join(put("x", []byte("half")), errFull) }

	assert.ErrorIs(t, Folder(out, anyone, fail), errFull)
	assert.Equal(t, "old", read(t, out, "x"))
	assert.ErrorIs(t, Folder(filepath.Join(dir, "p", "q"), anyone, fail), errFull)
	assert.Equal(t, []string{"out"}, names(t, dir), "neither a room nor an empty parent is left")
}

func TestFolderLeavesWhatIsNotItsOwn(t *testing.T) {
	dir := t.TempDir()
	file, link, theirs := filepath.Join(dir, "file"), filepath.Join(dir, "link"), filepath.Join(dir, "theirs")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	require.NoError(t, os.Mkdir(theirs, 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(theirs, "diary"), []byte("mine"), 0o600))
	require.NoError(t, os.Symlink(theirs, link))
	refuse := func(string) error { return errFull }

	for path, want := range map[string]string{file: "is a file", link: "is a link", theirs: "no space"} {
		assert.ErrorContains(t, Folder(path, refuse, one("x", "new")), want)
	}
	assert.Equal(t, "mine", read(t, file))
	assert.Equal(t, []string{"diary"}, names(t, theirs))
	assert.ErrorContains(t, Folder(filepath.Join(file, "sub"), anyone, one("x", "new")), "not a directory")
}

func TestFolderRefusesTheOneItRunsIn(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, path := range []string{".", "..", "../.", string(filepath.Separator)} {
		assert.ErrorContains(t, Folder(path, anyone, one("x", "new")), "holds the folder you are in", path)
	}
	assert.NoError(t, Folder("..sub", anyone, one("x", "new")), "a name may begin with dots")
}

func TestFolderTakesAnEmptyOne(t *testing.T) {
	dir := t.TempDir()
	never := func(string) error { return errFull }
	require.NoError(t, Folder(dir, never, one("x", "new")))
	assert.Equal(t, "new", read(t, dir, "x"))
}

func TestFileNamesAreNeverPaths(t *testing.T) {
	out := filepath.Join(t.TempDir(), "out")
	for _, name := range []string{"", ".", "..", "a/b", "/a", "../a"} {
		assert.ErrorContains(t, Folder(out, anyone, one(name, "")), "not the name of a file", name)
	}
}

func TestSwapInTwoSteps(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	require.NoError(t, Folder(out, anyone, one("x", "old")))
	r, err := openRoom(dir)
	require.NoError(t, err)
	require.NoError(t, os.Mkdir(r.path("new"), 0o777))
	require.NoError(t, r.put("x", []byte("new")))
	require.NoError(t, r.swap(out))
	r.close()
	assert.Equal(t, "new", read(t, out, "x"))
	assert.Equal(t, []string{"out"}, names(t, dir))
}

// ended gives the number of a process that has ended.
func ended(t *testing.T) int {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run=^$")
	require.NoError(t, cmd.Run())
	return cmd.Process.Pid
}

func TestStaleRoomsAreClearedAway(t *testing.T) {
	dir := t.TempDir()
	dead := prefix + strconv.Itoa(ended(t)) + "-"
	live := prefix + strconv.Itoa(os.Getppid()) + "-1"
	for _, d := range []string{dead + "1/new", live + "/new", dead + "2/diary", dead + "x/new", "other/new"} {
		require.NoError(t, os.MkdirAll(filepath.Join(dir, d), 0o700))
	}
	require.NoError(t, Create(filepath.Join(dir, "file"), nil))
	left := names(t, dir)
	assert.NotContains(t, left, dead+"1")
	assert.Subset(t, left, []string{live, dead + "2", dead + "x", "other"}, "living, foreign and other folders stay")
}

func TestUnfinishedSwapIsUndone(t *testing.T) {
	dir := t.TempDir()
	stale := filepath.Join(dir, prefix+strconv.Itoa(ended(t))+"-7")
	require.NoError(t, os.MkdirAll(filepath.Join(stale, "old"), 0o700))
	require.NoError(t, os.WriteFile(filepath.Join(stale, "name"), []byte("out"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(stale, "old", "x"), []byte("old"), 0o600))
	sweep(dir)
	assert.Equal(t, []string{"out"}, names(t, dir))
	assert.Equal(t, "old", read(t, dir, "out", "x"))
}

func TestCreateNeverOverwrites(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "brief.toml")
	require.NoError(t, Create(path, []byte("first")))
	assert.ErrorIs(t, Create(path, []byte("second")), fs.ErrExist)
	assert.Equal(t, "first", read(t, path))
	assert.ErrorIs(t, createHere(path, []byte("second"), 0o666), fs.ErrExist)
	assert.Equal(t, []string{"brief.toml"}, names(t, dir))

	dangling := filepath.Join(dir, "link")
	require.NoError(t, os.Symlink("nowhere", dangling))
	assert.ErrorIs(t, Create(dangling, nil), fs.ErrExist)
	assert.Error(t, Create(filepath.Join(dir, "missing", "x"), nil))
}

func TestReplaceKeepsPermissionsAndLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are a matter of Unix")
	}
	dir := t.TempDir()
	path, link := filepath.Join(dir, "brief.toml"), filepath.Join(dir, "link.toml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	require.NoError(t, os.Symlink("brief.toml", link))
	require.NoError(t, Replace(link, []byte("new")))
	assert.Equal(t, "new", read(t, path))
	info, err := os.Lstat(path)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode())
	assert.ErrorContains(t, Replace(dir, nil), "not an ordinary file")
	require.NoError(t, Replace(filepath.Join(dir, "fresh"), []byte("x")))
}
