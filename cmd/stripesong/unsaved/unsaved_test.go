package unsaved

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/cmd/stripesong/lock"
)

// aBrief is a file with a text, and its own folder as a place to keep work in.
func aBrief(t *testing.T) (Brief, Place) {
	t.Helper()
	dir := t.TempDir()
	b := Brief{Name: "towels.toml", File: filepath.Join(dir, "towels.toml"),
		Text: []byte("title = \"on disk\"\n")}
	require.NoError(t, os.WriteFile(b.File, b.Text, 0o644))
	return b, placeIn(dir, true)
}

func placeIn(dir string, beside bool) Place {
	return Place{Dir: dir, Beside: beside, Mode: 0o600, Shown: func(name string) string {
		return filepath.Join(dir, name)
	}}
}

func read(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func names(t *testing.T, dir string) (all []string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestKeptFoundAndRemoved(t *testing.T) {
	b, place := aBrief(t)
	k := New(b, "towels-unsaved", []Place{place})
	where, err := k.Keep([]byte("title = \"one\"\n"), Sum(b.Text))
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(place.Dir, "towels-unsaved.toml"), where)
	_, err = k.Keep([]byte("title = \"two\"\n"), Sum(b.Text))
	require.NoError(t, err)
	want := `# stripesong: unsaved work on the file "towels.toml", begun with ` +
		"c54e317e1fa769859dbaf46d1d81154c1748887a682a603dc23b7c4aba61762e" +
		`; "stripesong page" offers it when it opens the brief again` + "\ntitle = \"two\"\n"
	assert.Equal(t, want, read(t, where))
	t.Run("a run that is there is in use", func(t *testing.T) {
		found, inUse := Find(b, "towels-unsaved", []Place{place})
		assert.Empty(t, found)
		assert.Equal(t, []string{where}, inUse)
	})
	k.Close()
	t.Run("one that has ended is found", func(t *testing.T) {
		found, inUse := Find(b, "towels-unsaved", []Place{place})
		assert.Empty(t, inUse)
		require.Len(t, found, 1)
		assert.Equal(t, "title = \"two\"\n", string(found[0].Text))
		assert.Equal(t, where, found[0].Shown)
		assert.False(t, found[0].Changed)
		found[0].Close()
		assert.FileExists(t, where, "until it is decided on")
	})
	t.Run("begun with another text", func(t *testing.T) {
		other := b
		other.Text = []byte("title = \"by hand\"\n")
		found, _ := Find(other, "towels-unsaved", []Place{place})
		require.Len(t, found, 1)
		assert.True(t, found[0].Changed)
		assert.Equal(t, Sum(b.Text), found[0].Base)
		assert.NoError(t, found[0].Remove())
	})
	assert.Equal(t, []string{"towels.toml"}, names(t, place.Dir), "nothing is left behind")
}

func TestDropped(t *testing.T) {
	b, place := aBrief(t)
	k := New(b, "towels-unsaved", []Place{place})
	require.NoError(t, k.Drop(), "nothing to drop")
	_, err := k.Keep([]byte("x = 1\n"), Sum(b.Text))
	require.NoError(t, err)
	require.NoError(t, k.Drop())
	assert.Equal(t, []string{"towels.toml"}, names(t, place.Dir))
	_, err = k.Keep([]byte("x = 2\n"), Sum(b.Text))
	require.NoError(t, err, "and kept again")
	require.NoError(t, k.Drop())
}

// A file of hers that bears the name is neither written over nor offered, and
// one of ours that she has changed becomes hers.
func TestAFileOfTheWeaversStays(t *testing.T) {
	b, place := aBrief(t)
	hers := filepath.Join(place.Dir, "towels-unsaved.toml")
	require.NoError(t, os.WriteFile(hers, []byte("title = \"hers\"\n"), 0o644))
	k := New(b, "towels-unsaved", []Place{place})
	where, err := k.Keep([]byte("x = 1\n"), Sum(b.Text))
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(place.Dir, "towels-unsaved-2.toml"), where)
	require.NoError(t, os.WriteFile(where, []byte("title = \"hers too\"\n"), 0o644))
	third, err := k.Keep([]byte("x = 2\n"), Sum(b.Text))
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(place.Dir, "towels-unsaved-3.toml"), third)
	require.NoError(t, os.WriteFile(third, []byte("title = \"and this\"\n"), 0o644))
	require.NoError(t, k.Drop())
	found, inUse := Find(b, "towels-unsaved", []Place{place})
	assert.Empty(t, found)
	assert.Empty(t, inUse)
	assert.Equal(t, "title = \"hers\"\n", read(t, hers))
	assert.Equal(t, "title = \"hers too\"\n", read(t, where))
	assert.Equal(t, "title = \"and this\"\n", read(t, third))
	assert.Len(t, names(t, place.Dir), 4)
}

func TestTwoRunsKeepTwoFiles(t *testing.T) {
	b, place := aBrief(t)
	var runs [3]*Keeper
	for i := range runs {
		runs[i] = New(b, "towels-unsaved", []Place{place})
		_, err := runs[i].Keep([]byte{'#', byte('0' + i), '\n'}, Sum(b.Text))
		require.NoError(t, err)
	}
	runs[1].Close()
	found, inUse := Find(b, "towels-unsaved", []Place{place})
	require.Len(t, found, 1)
	assert.Equal(t, "#1\n", string(found[0].Text))
	assert.Len(t, inUse, 2)
	again, _ := Find(b, "towels-unsaved", []Place{place})
	assert.Empty(t, again, "what one run offers another does not")
	found[0].Close()
	for _, k := range runs {
		require.NoError(t, k.Drop())
	}
	assert.Equal(t, []string{"towels-unsaved-2.toml", "towels.toml"}, names(t, place.Dir),
		"what was left is not the others' to drop")
}

// The first place that can be written and locked is taken, and the next where
// that goes wrong later.
func TestPlacesInTurn(t *testing.T) {
	b, beside := aBrief(t)
	state := t.TempDir()
	made, trusted := false, true
	second := placeIn(filepath.Join(state, "unsaved"), false)
	second.Ready = func(create bool) error {
		if !create && !trusted {
			return errors.New("it is not hers")
		}
		made = true
		return os.MkdirAll(second.Dir, 0o700)
	}
	nowhere := placeIn(filepath.Join(state, "nowhere"), true)
	keep := func(t *testing.T, places ...Place) (*Keeper, string) {
		k := New(b, "towels-unsaved", places)
		where, err := k.Keep([]byte("x = 1\n"), Sum(b.Text))
		require.NoError(t, err)
		return k, where
	}
	t.Run("the first that can be written", func(t *testing.T) {
		k, where := keep(t, nowhere, second, beside)
		assert.True(t, made)
		assert.Equal(t, filepath.Join(second.Dir, "towels-unsaved.toml"), where)
		assert.Contains(t, read(t, where), b.File,
			"away from the brief it says which by its whole path")
		k.Close()
	})
	t.Run("is found there", func(t *testing.T) {
		found, _ := Find(b, "towels-unsaved", []Place{nowhere, second, beside})
		require.Len(t, found, 1)
		found[0].Close()
	})
	t.Run("not from a folder somebody else may write to", func(t *testing.T) {
		trusted = false
		found, _ := Find(b, "towels-unsaved", []Place{second})
		assert.Empty(t, found)
		trusted = true
	})
	t.Run("not for another brief of that name", func(t *testing.T) {
		other := b
		other.File = filepath.Join(t.TempDir(), "towels.toml")
		found, _ := Find(other, "towels-unsaved", []Place{nowhere, second, beside})
		assert.Empty(t, found)
	})
	t.Run("where no lock can be had nothing is kept", func(t *testing.T) {
		require.NoError(t, os.Mkdir(lockOf(filepath.Join(beside.Dir, "towels-unsaved.toml")),
			0o700))
		k, where := keep(t, beside, second)
		assert.Equal(t, filepath.Join(second.Dir, "towels-unsaved-2.toml"), where)
		k.Close()
	})
	t.Run("nowhere is an error", func(t *testing.T) {
		_, err := New(b, "towels-unsaved", []Place{nowhere}).Keep([]byte("x = 1\n"), Sum(b.Text))
		assert.Error(t, err)
	})
}

func TestWhatBelongs(t *testing.T) {
	b, place := aBrief(t)
	link := filepath.Join(place.Dir, "link.toml")
	require.NoError(t, os.Symlink(b.File, link))
	for _, one := range []struct {
		what string
		kept Brief
		open Brief
		want int
	}{
		{"the same file", b, b, 1},
		{"another file beside it", b,
			Brief{Name: "x", File: filepath.Join(place.Dir, "other.toml")}, 0},
		{"another name of it", Brief{Name: "link.toml", File: link}, b, 1},
		{"a brief without a file", b, Brief{Name: "towels.toml"}, 0},
		{"the built-in one", Brief{Name: "the built-in brief", Text: []byte("a")},
			Brief{Name: "the built-in brief", Text: []byte("b")}, 1},
		{"the same from a pipe", Brief{Name: "standard input", Text: []byte("a")},
			Brief{Name: "standard input", Text: []byte("a"), Pipe: true}, 1},
		{"another from a pipe", Brief{Name: "standard input", Text: []byte("a")},
			Brief{Name: "standard input", Text: []byte("b"), Pipe: true}, 0},
		{"a file called like the built-in one",
			Brief{Name: "x", File: filepath.Join(place.Dir, "the built-in brief")},
			Brief{Name: "the built-in brief"}, 0},
	} {
		t.Run(one.what, func(t *testing.T) {
			k := New(one.kept, "towels-unsaved", []Place{place})
			_, err := k.Keep([]byte("x = 1\n"), Sum(one.kept.Text))
			require.NoError(t, err)
			k.Close()
			found, _ := Find(one.open, "towels-unsaved", []Place{place})
			assert.Len(t, found, one.want)
			for _, f := range found {
				require.NoError(t, f.Remove())
			}
			os.Remove(filepath.Join(place.Dir, "towels-unsaved.toml"))
		})
	}
}

// A lock that a killed run has left is taken away with the next look, and that of
// a run which is there is not, whether its file is there or not.
func TestLocksOfTheDead(t *testing.T) {
	b, place := aBrief(t)
	dead := filepath.Join(place.Dir, ".towels-unsaved.toml.lock")
	hers := filepath.Join(place.Dir, ".towels-unsaved-2.toml.lock")
	living := filepath.Join(place.Dir, ".towels-unsaved-3.toml.lock")
	folder := filepath.Join(place.Dir, ".towels-unsaved-4.toml.lock")
	others := filepath.Join(place.Dir, ".linen-unsaved.toml.lock")
	require.NoError(t, os.WriteFile(dead, nil, 0o600))
	require.NoError(t, os.WriteFile(hers, []byte("a note"), 0o600))
	require.NoError(t, os.WriteFile(others, nil, 0o600))
	require.NoError(t, os.Mkdir(folder, 0o700))
	l, err := lock.Try(living)
	require.NoError(t, err)
	t.Run("what a killed run left goes, the rest stays", func(t *testing.T) {
		found, inUse := Find(b, "towels-unsaved", []Place{place})
		assert.Empty(t, found)
		assert.Empty(t, inUse)
		assert.NoFileExists(t, dead)
		assert.FileExists(t, living)
		_, err = lock.Try(living)
		assert.ErrorIs(t, err, lock.ErrHeld, "and it holds")
		assert.Equal(t, "a note", read(t, hers), "a lock is empty")
		assert.FileExists(t, others)
		assert.DirExists(t, folder)
		l.Release()
	})
	t.Run("the same name, held by a run again, stays", func(t *testing.T) {
		k := New(b, "towels-unsaved", []Place{place})
		_, err = k.Keep([]byte("x = 1\n"), Sum(b.Text))
		require.NoError(t, err)
		defer k.Close()
		Find(b, "towels-unsaved", []Place{place})
		_, err = lock.Try(dead)
		assert.ErrorIs(t, err, lock.ErrHeld)
	})
}

// What the brief holds already needs no offering.
func TestSavedAfterAll(t *testing.T) {
	b, place := aBrief(t)
	k := New(b, "towels-unsaved", []Place{place})
	_, err := k.Keep([]byte("x = 1\n"), Sum(b.Text))
	require.NoError(t, err)
	k.Close()
	b.Text = []byte("x = 1\n")
	found, _ := Find(b, "towels-unsaved", []Place{place})
	assert.Empty(t, found)
	assert.Equal(t, []string{"towels.toml"}, names(t, place.Dir))
}

// What was changed after it was found is not taken away.
func TestChangedSinceFound(t *testing.T) {
	b, place := aBrief(t)
	k := New(b, "towels-unsaved", []Place{place})
	where, err := k.Keep([]byte("x = 1\n"), Sum(b.Text))
	require.NoError(t, err)
	k.Close()
	found, _ := Find(b, "towels-unsaved", []Place{place})
	require.Len(t, found, 1)
	require.NoError(t, os.WriteFile(where, []byte("hers"), 0o644))
	assert.ErrorIs(t, found[0].Remove(), errNotAsFound)
	assert.Equal(t, "hers", read(t, where))
}

func FuzzHeader(f *testing.F) {
	f.Add("towels.toml", "", []byte("x = 1\n"))
	f.Add("a\n\u202e\"b\".toml", "", []byte("\xef\xbb\xbfx = 1\r\ny = 2\r\n"))
	f.Add("", "the built-in brief", []byte(""))
	f.Fuzz(func(t *testing.T, file, name string, text []byte) {
		h := header{file: file, base: Sum(text)}
		if file == "" {
			h.name = name
		}
		data := h.put(text)
		got, back, ok := split(data)
		require.True(t, ok)
		assert.Equal(t, h, got)
		assert.Equal(t, string(text), string(back))
		first := header.line(h)
		for _, r := range first {
			assert.True(t, r >= ' ' && r < 0x7f, "%q", first)
		}
	})
}

func TestNumbered(t *testing.T) {
	for name, want := range map[string]bool{"a.toml": true, "a-2.toml": true, "a-17.toml": true,
		"a-.toml":  false,
		"a-x.toml": false, "a2.toml": false, "ab.toml": false, "a.txt": false, "a": false} {
		assert.Equal(t, want, isNumbered(name, "a"), name)
	}
}
