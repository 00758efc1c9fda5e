package whole

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestSavedMeanwhileIsKept: what is saved into a folder while it is being
// replaced is neither lost nor left unsaid.
func TestSavedMeanwhileIsKept(t *testing.T) {
	for _, steps := range []string{"one step", "two steps"} {
		t.Run(steps, func(t *testing.T) {
			if steps == "two steps" {
				inTwoSteps(t)
			}
			dir := t.TempDir()
			out := filepath.Join(dir, "out")
			_, err := Folder(out, "", func(put Put) error {
				return errors.Join(put("x", []byte("old")), put("y", []byte("old")),
					put("z", []byte("old")))
			})
			require.NoError(t, err)
			kept, err := Folder(out, "", func(put Put) error {
				write(t, "a diary", out, "diary.txt")
				write(t, "changed", out, "x")
				write(t, "changed too", out, "y")
				write(t, "deeper", out, "sub", "file")
				require.NoError(t, os.Symlink("nowhere", filepath.Join(out, "link")))
				return errors.Join(put("x", []byte("new")), put("z", []byte("new")))
			})
			require.NoError(t, err)
			assert.ElementsMatch(t,
				[]string{filepath.Join(out, "diary.txt"), filepath.Join(dir, "out-saved", "x"),
					filepath.Join(out, "y"), filepath.Join(out, "sub"), filepath.Join(out, "link")},
				kept)
			assert.Equal(t, "a diary", read(t, out, "diary.txt"))
			assert.Equal(t, "changed", read(t, dir, "out-saved", "x"))
			assert.Equal(t, "changed too", read(t, out, "y"))
			assert.Equal(t, "deeper", read(t, out, "sub", "file"))
			assert.Equal(t, "new", read(t, out, "x"))
			assert.Equal(t, "new", read(t, out, "z"))
			assert.Equal(t, []string{listName, "diary.txt", "link", "sub", "x", "y", "z"},
				names(t, out))
			assert.Equal(t, []string{"out", "out-saved"}, names(t, dir), "nothing else is left")
		})
	}
}

// inTwoSteps makes exchange fail, as on systems that have none.
func inTwoSteps(t *testing.T) {
	t.Helper()
	was := exchange
	exchange = func(string, string) error { return errors.ErrUnsupported }
	t.Cleanup(func() { exchange = was })
}

// TestSavedBesideTwice: a second one of that name gets a folder of its own.
func TestSavedBesideTwice(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	make1(t, out, "x", "old")
	for _, want := range []string{"out-saved", "out-saved-2"} {
		kept, err := Folder(out, "", func(put Put) error {
			write(t, "hers", out, "x")
			return put("x", []byte("new"))
		})
		require.NoError(t, err)
		assert.Equal(t, []string{filepath.Join(dir, want, "x")}, kept)
		assert.Equal(t, "hers", read(t, dir, want, "x"))
		assert.Equal(t, "new", read(t, out, "x"))
	}
}

// TestReplacedMeanwhile: a file, a link or another folder put in the place of the
// folder while it is being replaced.
func TestReplacedMeanwhile(t *testing.T) {
	for what, put := range map[string]func(t *testing.T, out string){
		"a file": func(t *testing.T, out string) { write(t, "hers", out) },
		"a link": func(t *testing.T, out string) {
			require.NoError(t, os.Symlink("elsewhere", out))
		},
	} {
		t.Run(what, func(t *testing.T) {
			dir := t.TempDir()
			out := filepath.Join(dir, "out")
			make1(t, out, "x", "old")
			kept, err := Folder(out, "", func(p Put) error {
				require.NoError(t, os.RemoveAll(out))
				put(t, out)
				return p("x", []byte("new"))
			})
			require.NoError(t, err)
			saved := filepath.Join(dir, "out-saved", "out")
			assert.Equal(t, []string{saved}, kept)
			_, err = os.Lstat(saved)
			assert.NoError(t, err)
			assert.Equal(t, "new", read(t, out, "x"))
		})
	}
	t.Run("another folder", func(t *testing.T) {
		dir := t.TempDir()
		out := filepath.Join(dir, "out")
		make1(t, out, "x", "old")
		kept, err := Folder(out, "", func(put Put) error {
			require.NoError(t, os.RemoveAll(out))
			write(t, "hers", out, "diary")
			return put("x", []byte("new"))
		})
		require.NoError(t, err)
		assert.Equal(t, []string{filepath.Join(out, "diary")}, kept)
	})
	t.Run("by another run where nothing was", func(t *testing.T) {
		dir := t.TempDir()
		out := filepath.Join(dir, "out")
		kept, err := Folder(out, "", func(put Put) error {
			make1(t, out, "x", "of the other run")
			return put("x", []byte("new"))
		})
		require.NoError(t, err)
		assert.Empty(t, kept)
		assert.Equal(t, "new", read(t, out, "x"))
		assert.Equal(t, []string{"out"}, names(t, dir))
	})
	t.Run("where nothing was", func(t *testing.T) {
		dir := t.TempDir()
		out := filepath.Join(dir, "out")
		_, err := Folder(out, "", func(put Put) error {
			write(t, "hers", out, "diary")
			return put("x", []byte("new"))
		})
		assert.ErrorContains(t, err, "nothing in it says that this program wrote it")
		assert.Equal(t, "hers", read(t, out, "diary"))
		assert.Equal(t, []string{"out"}, names(t, dir))
	})
}

// TestTwoAtOnce: a plan written by another run meanwhile is no file of hers.
func TestTwoAtOnce(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	make1(t, out, "x", "old")
	kept, err := Folder(out, "", func(put Put) error {
		make1(t, out, "x", "of the other run")
		return put("x", []byte("new"))
	})
	require.NoError(t, err)
	assert.Empty(t, kept)
	assert.Equal(t, "new", read(t, out, "x"))
	assert.Equal(t, []string{"out"}, names(t, dir))
}

// TestSavedBesideWhatIsHers: a file, a link or an empty folder that bears the name
// of the folder beside is not touched.
func TestSavedBesideWhatIsHers(t *testing.T) {
	for what, put := range map[string]func(path string) error{
		"a file": func(path string) error {
			return os.WriteFile(path, []byte("hers"), 0o666)
		},
		"a link":          func(path string) error { return os.Symlink(t.TempDir(), path) },
		"a link nowhere":  func(path string) error { return os.Symlink("nowhere", path) },
		"an empty folder": func(path string) error { return os.Mkdir(path, 0o777) },
	} {
		t.Run(what, func(t *testing.T) {
			dir := t.TempDir()
			out := filepath.Join(dir, "out")
			make1(t, out, "x", "old")
			require.NoError(t, put(out+"-saved"))
			before, err := os.Lstat(out + "-saved")
			require.NoError(t, err)
			kept, err := Folder(out, "", func(put Put) error {
				write(t, "hers", out, "x")
				return put("x", []byte("new"))
			})
			require.NoError(t, err)
			require.Len(t, kept, 1)
			assert.Equal(t, "hers", read(t, kept[0]))
			after, err := os.Lstat(out + "-saved")
			require.NoError(t, err)
			assert.True(t, os.SameFile(before, after))
			if before.Mode()&os.ModeSymlink != 0 {
				entries, _ := os.ReadDir(out + "-saved")
				assert.Empty(t, entries, "nothing goes where a link leads")
			}
		})
	}
}

// TestWhatCantBeMovedStays: it is told of once, where it is, and the next call
// tries again.
func TestWhatCantBeMovedStays(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	make1(t, out, "x", "old")
	was := rename
	rename = func(from, to string) error { return errFull }
	kept, err := Folder(out, "", func(put Put) error {
		write(t, "hers", out, "sub", "diary")
		return put("x", []byte("new"))
	})
	rename = was
	require.NoError(t, err)
	require.Len(t, kept, 1)
	assert.Equal(t, "hers", read(t, kept[0], "diary"))
	assert.Equal(t, "new", read(t, out, "x"))
	assert.Equal(t, []string{filepath.Join(out, "sub")}, sweep(dir))
	assert.Equal(t, "hers", read(t, out, "sub", "diary"))
	assert.Equal(t, []string{"out"}, names(t, dir))
}

// TestWhatCantBeTakenAwayStaysOurs: the next call takes it for nobody else's.
func TestWhatCantBeTakenAwayStaysOurs(t *testing.T) {
	dir := t.TempDir()
	out := filepath.Join(dir, "out")
	make1(t, out, "x", "old")
	was := remove
	remove = func(path string) error { return errFull }
	kept, err := Folder(out, "", one("x", "new"))
	remove = was
	require.NoError(t, err)
	assert.Empty(t, kept)
	assert.Equal(t, "new", read(t, out, "x"))
	assert.Len(t, names(t, dir), 2)
	assert.Empty(t, sweep(dir))
	assert.Equal(t, []string{"out"}, names(t, dir))
}

// TestNotThroughALink: what was saved does not go where a link leads that has come
// into the folder's place.
func TestNotThroughALink(t *testing.T) {
	dir, far := t.TempDir(), t.TempDir()
	stopped(t, dir, map[string]string{"name": "out", "new/diary": "hers"})
	require.NoError(t, os.Symlink(far, filepath.Join(dir, "out")))
	kept := sweep(dir)
	assert.Equal(t, []string{filepath.Join(dir, "out-saved", "diary")}, kept)
	assert.Empty(t, names(t, far))
}
