package whole

import (
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

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
	assert.ErrorIs(t, Create(filepath.Join(dir, "missing", "x"), nil), fs.ErrNotExist)
}

// TestDotsAfterALink go up from where the link leads, as everywhere else.
func TestDotsAfterALink(t *testing.T) {
	dir := t.TempDir()
	write(t, "", dir, "far", "below", "x")
	require.NoError(t, os.Symlink(filepath.Join(dir, "far", "below"), filepath.Join(dir, "link")))
	require.NoError(t, Create(filepath.Join(dir, "link")+"/../new", []byte("new")))
	assert.Equal(t, "new", read(t, dir, "far", "new"))
	assert.Equal(t, []string{"far", "link"}, names(t, dir))
}

func TestReplaceKeepsPermissionsAndLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("permissions are a matter of Unix")
	}
	dir := t.TempDir()
	path, link := filepath.Join(dir, "brief.toml"), filepath.Join(dir, "link.toml")
	require.NoError(t, os.WriteFile(path, []byte("old"), 0o600))
	require.NoError(t, os.Symlink("brief.toml", link))
	require.NoError(t, Replace(link, []byte("old"), []byte("new")))
	assert.Equal(t, "new", read(t, path))
	info, err := os.Lstat(path)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode())
	assert.ErrorContains(t, Replace(dir, nil, nil), "not an ordinary file")
	assert.Equal(t, []string{"brief.toml", "link.toml"}, names(t, dir))
}

// TestReplaceWhatWasRead: and nothing that was written since.
func TestReplaceWhatWasRead(t *testing.T) {
	dir := t.TempDir()
	path := write(t, "old\n# edit\n", dir, "brief.toml")
	for _, was := range []string{"old\n", "", "old\n# edit\n#", "old\n# edat\n"} {
		assert.ErrorIs(t, Replace(path, []byte(was), []byte("new")), ErrChanged)
		assert.Equal(t, "old\n# edit\n", read(t, path))
	}
	assert.ErrorIs(t, Replace(filepath.Join(dir, "gone"), nil, []byte("new")), ErrChanged)
	assert.Equal(t, []string{"brief.toml"}, names(t, dir))
	assert.ErrorIs(t, Remove(path, []byte("old\n")), ErrChanged)
	require.NoError(t, Remove(path, []byte("old\n# edit\n")))
	assert.Empty(t, names(t, dir))
}

// TestWrittenInTheVeryMoment: between the last look and the exchange. What comes
// out then is not what was read, and goes back.
func TestWrittenInTheVeryMoment(t *testing.T) {
	if runtime.GOOS != "linux" && runtime.GOOS != "darwin" {
		t.Skip("this system can't exchange two files")
	}
	dir := t.TempDir()
	path := write(t, "old\n# edit\n", dir, "brief.toml")
	w, err := begin(dir)
	require.NoError(t, err)
	write(t, "new", w.path("new"))
	assert.ErrorIs(t, w.exchangeFile(path, []byte("old\n"), []byte("new")), ErrChanged)
	w.close()
	assert.Equal(t, "old\n# edit\n", read(t, path))
	assert.Equal(t, []string{"brief.toml"}, names(t, dir))
}

// TestReplaceLeavesTheProtected: its folder would let it be replaced, and root may
// write to it.
func TestReplaceLeavesTheProtected(t *testing.T) {
	path := write(t, "old", t.TempDir(), "brief.toml")
	require.NoError(t, os.Chmod(path, 0o444))
	assert.ErrorContains(t, Replace(path, []byte("old"), []byte("new")),
		"protected from being written to")
	assert.Equal(t, "old", read(t, path))
	require.NoError(t, os.Chmod(path, 0o644))
}

// TestReplaceKeepsTheOwner: what root writes is not root's then.
func TestReplaceKeepsTheOwner(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("only root can give a file away")
	}
	path := write(t, "old", t.TempDir(), "brief.toml")
	require.NoError(t, os.Chown(path, 4321, 1234))
	require.NoError(t, os.Chmod(path, 0o640))
	before, err := os.Stat(path)
	require.NoError(t, err)
	require.NoError(t, Replace(path, []byte("old"), []byte("new")))
	after, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, ownerOf(before), ownerOf(after))
	assert.Equal(t, before.Mode(), after.Mode())
}

// TestRewriteLeavesHardLinks: two names of one file are not parted, but where the
// caller says so.
func TestRewriteLeavesHardLinks(t *testing.T) {
	dir := t.TempDir()
	path := write(t, "old", dir, "brief.toml")
	require.NoError(t, Rewrite(path, []byte("old"), []byte("new")), "one name")
	other := filepath.Join(dir, "backup.toml")
	if os.Link(path, other) != nil {
		t.Skip("no hard links here")
	}
	assert.ErrorIs(t, Rewrite(path, []byte("new"), []byte("newer")), ErrLinked)
	assert.Equal(t, "new", read(t, path))
	assert.Equal(t, "new", read(t, other))
	assert.Equal(t, []string{"backup.toml", "brief.toml"}, names(t, dir))
	require.NoError(t, Replace(path, []byte("new"), []byte("newer")))
	assert.Equal(t, "new", read(t, other))
	require.NoError(t, Rewrite(path, []byte("newer"), []byte("newest")), "one name again")
}

// TestRewriteAfterAKill: the link by which a file is made is none of hers.
func TestRewriteAfterAKill(t *testing.T) {
	dir := t.TempDir()
	path := write(t, "old", dir, "brief.toml")
	require.NoError(t, os.Mkdir(filepath.Join(dir, prefix+"1"), 0o777))
	write(t, "", dir, prefix+"1", "lock")
	if os.Link(path, filepath.Join(dir, prefix+"1", "new")) != nil {
		t.Skip("no hard links here")
	}
	require.NoError(t, Rewrite(path, []byte("old"), []byte("new")))
	assert.Equal(t, []string{"brief.toml"}, names(t, dir))
}
