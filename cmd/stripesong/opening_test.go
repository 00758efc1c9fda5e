package main

import (
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/lock"
)

const someAddress = "http://127.0.0.1:4321/once/abc-_"

func TestOpeningIsHersAlone(t *testing.T) {
	place := t.TempDir()
	o, err := newOpening(someAddress, []string{filepath.Join(place, "nowhere"), place})
	require.NoError(t, err)
	assert.Equal(t, place, filepath.Dir(o.dir), "the first place where it can be")
	if runtime.GOOS != "windows" {
		for path, want := range map[string]os.FileMode{o.dir: 0o700, o.path(): 0o600} {
			info, err := os.Stat(path)
			require.NoError(t, err)
			assert.Equal(t, want, info.Mode().Perm(), path)
		}
	}
	assert.Contains(t, string(read(t, o.path())), `<meta http-equiv="refresh" content="0; url=`+
		someAddress+`">`)
	assert.NotContains(t, o.url(), "abc")
	o.close()
	left, err := os.ReadDir(place)
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestOpeningNowhere(t *testing.T) {
	_, err := newOpening(someAddress, []string{filepath.Join(t.TempDir(), "nowhere")})
	assert.ErrorIs(t, err, os.ErrNotExist)
}

func TestOpeningAddress(t *testing.T) {
	o := &opening{dir: "/home/a b/stripesong-open-1"}
	assert.Equal(t, "file:///home/a%20b/stripesong-open-1/open.html", o.url())
	o.dir = "C:/Users/anna/stripesong-open-1"
	assert.Equal(t, "file:///C:/Users/anna/stripesong-open-1/open.html", o.url())
}

// What killed programs have left goes with the next start; what is in use stays,
// and so does what is not the program's.
func TestOpeningsOfTheDead(t *testing.T) {
	place := t.TempDir()
	folder := func(name string, mode os.FileMode, files ...string) string {
		dir := filepath.Join(place, name)
		require.NoError(t, os.Mkdir(dir, mode))
		require.NoError(t, os.Chmod(dir, mode))
		for _, f := range files {
			require.NoError(t, os.WriteFile(filepath.Join(dir, f), nil, 0o600))
		}
		return dir
	}
	dead := folder("stripesong-open-1", 0o700, "lock", "open.html")
	unlocked := folder("stripesong-open-2", 0o700)
	hers := folder("stripesong-open-notes", 0o700, "lock", "diary.txt")
	named := folder("stripesong", 0o700, "lock", "open.html")
	living, err := newOpening(someAddress, []string{place})
	require.NoError(t, err)
	defer living.close()
	elsewhere := t.TempDir()
	link := filepath.Join(place, "stripesong-open-3")
	if os.Symlink(elsewhere, link) == nil {
		require.NoError(t, os.WriteFile(filepath.Join(elsewhere, "open.html"), nil, 0o600))
		require.NoError(t, os.WriteFile(filepath.Join(elsewhere, "lock"), nil, 0o600))
	}
	clearOpenings([]string{filepath.Join(place, "nowhere"), place})
	t.Run("what killed programs left goes", func(t *testing.T) {
		assert.NoDirExists(t, dead)
		assert.NoDirExists(t, unlocked)
	})
	t.Run("what is not the program's stays", func(t *testing.T) {
		assert.FileExists(t, filepath.Join(hers, "diary.txt"))
		assert.FileExists(t, filepath.Join(named, "open.html"))
	})
	t.Run("what is in use stays", func(t *testing.T) {
		assert.FileExists(t, living.path())
		_, err := lock.Try(filepath.Join(living.dir, "lock"))
		assert.ErrorIs(t, err, lock.ErrHeld)
	})
	t.Run("a link may lead anywhere, and is not followed", func(t *testing.T) {
		if _, err := os.Lstat(link); err != nil {
			t.Skip("no links here")
		}
		entries, err := os.ReadDir(elsewhere)
		require.NoError(t, err)
		assert.Len(t, entries, 2)
	})
	t.Run("the program makes none that others may look into", func(t *testing.T) {
		if runtime.GOOS == "windows" {
			t.Skip("permissions are another matter there")
		}
		open := folder("stripesong-open-4", 0o755, "lock", "open.html")
		clearOpenings([]string{place})
		assert.FileExists(t, filepath.Join(open, "open.html"))
	})
}

// A snap sees what is visible in the user's folder, and no other place.
func TestWhereSnapsAre(t *testing.T) {
	for _, dir := range []string{"snap/bin", "var/lib/snapd/snap/bin"} {
		root := t.TempDir()
		assert.False(t, hasSnaps(root))
		require.NoError(t, os.MkdirAll(filepath.Join(root, dir), 0o755))
		assert.True(t, hasSnaps(root), dir)
	}
}
