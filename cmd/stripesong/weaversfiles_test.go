package main

import (
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// smallBrief puts the small brief into a folder of its own, which becomes the one
// the program runs in, and plans it.
func smallBrief(t *testing.T) (w *world, s *source, p *plan.Plan) {
	t.Helper()
	text := read(t, "testdata/small.toml")
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("b.toml", text, 0o644))
	w = &world{env: func(string) string { return "" }, err: &strings.Builder{}}
	s, err := w.open("b.toml")
	require.NoError(t, err)
	b, err := s.parse(nil)
	require.NoError(t, err)
	p, err = plan.Make(t.Context(), b)
	require.NoError(t, err)
	return w, s, p
}

// edit is what somebody does to a file in an editor.
func edit(t *testing.T, name string) []byte {
	t.Helper()
	text := append(read(t, name), "# edit\n"...)
	require.NoError(t, os.WriteFile(name, text, 0o644))
	return text
}

// TestEditedMeanwhile: a brief that was saved by an editor after it was read is
// not rewritten.
func TestEditedMeanwhile(t *testing.T) {
	retitle := func(t *testing.T, s *source) error {
		r, err := s.rewrite(t.Context(), func(string) {})
		require.NoError(t, err)
		require.NoError(t, r.change(t.Context(), []brief.Change{brief.Text("title", "another")}))
		return r.put(s.name, "", s)
	}
	t.Run("try --keep", func(t *testing.T) {
		w, s, _ := smallBrief(t)
		edited := edit(t, "b.toml")
		b, err := s.parse(nil)
		require.NoError(t, err)
		sheet, err := plan.Try(t.Context(), b, plan.Trying{Count: 4})
		require.NoError(t, err)
		err = newTrying(newFlags()).write(t.Context(), w, s, b, sheet, 3, 0,
			newProgress(quiet{}, never))
		assert.EqualError(t, err,
			`"b.toml" was changed by another program meanwhile, and is left as it is`)
		assert.Equal(t, string(edited), string(read(t, "b.toml")))
	})
	t.Run("whatever rewrites it", func(t *testing.T) {
		_, s, _ := smallBrief(t)
		edited := edit(t, "b.toml")
		err := retitle(t, s)
		assert.EqualError(t, err,
			`"b.toml" was changed by another program meanwhile, and is left as it is`)
		assert.Equal(t, string(edited), string(read(t, "b.toml")))
	})
	t.Run("one that is gone is not made again", func(t *testing.T) {
		_, s, _ := smallBrief(t)
		require.NoError(t, os.Remove("b.toml"))
		err := retitle(t, s)
		assert.EqualError(t, err,
			`"b.toml" was changed by another program meanwhile, and is left as it is`)
		assert.NoFileExists(t, "b.toml")
		assert.NoFileExists(t, "b-before.toml")
	})
	t.Run("the page", func(t *testing.T) {
		_, s, _ := smallBrief(t)
		now := read(t, "b.toml")
		edited := edit(t, "b.toml")
		assert.Error(t, s.put(now, []byte("x = 1\n")))
		assert.Error(t, s.put(nil, []byte("x = 1\n")), "as if it had not been there")
		assert.Equal(t, string(edited), string(read(t, "b.toml")))
	})
}

// TestPageLeavesHardLinks: saving does not part two names of one file.
func TestPageLeavesHardLinks(t *testing.T) {
	_, s, _ := smallBrief(t)
	if os.Link("b.toml", "other.toml") != nil {
		t.Skip("no hard links here")
	}
	before := read(t, "b.toml")
	assert.EqualError(t, s.put(before, []byte("x = 1\n")), "can't write \"b.toml\": "+
		"it has another name, a hard link, under which its old text would stay")
	assert.Equal(t, before, read(t, "b.toml"))
	assert.Equal(t, before, read(t, "other.toml"))
}

// TestProtectedFiles: a file without write permission is not replaced, though its
// folder would allow it and root may do anything.
func TestProtectedFiles(t *testing.T) {
	smallBrief(t)
	require.NoError(t, os.WriteFile("m.toml",
		[]byte("[width]\nreed = \"50 cm\"\nfell = \"47 cm\"\n"), 0o644))
	code, _, mistakes := call("try", "b.toml", "--out", "sheet.svg")
	require.Equal(t, exitGood, code, mistakes)
	for name, args := range map[string][]string{
		"b.toml": {"try b.toml --keep 3", "calibrate b.toml m.toml --write",
			"try b.toml --keep 3 --out ./b.toml"},
		"sheet.svg": {"try b.toml --count 2 --out sheet.svg", "try b.toml --warp --out sheet.svg"},
	} {
		before := read(t, name)
		require.NoError(t, os.Chmod(name, 0o444))
		for _, a := range args {
			code, _, mistakes := call(strings.Fields(a)...)
			assert.Equal(t, exitFailed, code, a)
			assert.Contains(t, mistakes,
				"it is protected from being written to\nstripesong: hint: name another "+
					"file with --", a)
			assert.Equal(t, before, read(t, name), a)
			info, err := os.Stat(name)
			require.NoError(t, err)
			assert.Equal(t, fs.FileMode(0o444), info.Mode(), a)
		}
		require.NoError(t, os.Chmod(name, 0o644))
	}
}

// TestSavedIntoThePlanMeanwhile: it is kept and named.
func TestSavedIntoThePlanMeanwhile(t *testing.T) {
	w, s, p := smallBrief(t)
	write := func(last step) ([]string, error) {
		return writeFolder(t.Context(), s, "o", p, newProgress(quiet{}, never), last)
	}
	_, err := write(nil)
	require.NoError(t, err)
	kept, err := write(func() (func(), error) {
		require.NoError(t, os.WriteFile("o/diary.txt", []byte("wove all day"), 0o644))
		require.NoError(t, os.WriteFile("o/yarn.csv", []byte("with prices"), 0o644))
		return func() {}, nil
	})
	require.NoError(t, err)
	w.tellKept(kept)
	assert.ElementsMatch(t, []string{
		"stripesong: saved into the folder while it was written, and kept: " +
			filepath.Join("o", "diary.txt"),
		"stripesong: saved into the folder while it was written, and kept: " +
			filepath.Join("o-saved", "yarn.csv"), "",
	}, strings.Split(w.err.(*strings.Builder).String(), "\n"))
	assert.Equal(t, "wove all day", string(read(t, "o/diary.txt")))
	assert.Equal(t, "with prices", string(read(t, "o-saved/yarn.csv")))
	require.NoError(t, os.Remove("o/diary.txt"))
	require.Equal(t, 2, wholePlan(t, "o"))
}

// TestRunsAreUndone: where the folder can't take its place, the runs that were
// written just before go again, and what she wrote meanwhile stays.
func TestRunsAreUndone(t *testing.T) {
	_, s, p := smallBrief(t)
	last := func(then func()) step {
		planned := &planning{}
		planned.runs.text = "runs.toml"
		write := planned.writeRuns([]byte("runs"))
		return func() (func(), error) {
			require.NoError(t, os.MkdirAll("o/hers", 0o777)) // the folder has no place now
			undo, err := write()
			then()
			return undo, err
		}
	}
	t.Run("the runs go again", func(t *testing.T) {
		_, err := writeFolder(context.Background(), s, "o", p, newProgress(quiet{}, never),
			last(func() {}))
		require.ErrorContains(t, err, `can't write the folder "o"`)
		assert.NoFileExists(t, "runs.toml")
		assert.DirExists(t, "o/hers")
	})
	t.Run("what she wrote meanwhile stays", func(t *testing.T) {
		_, err := writeFolder(context.Background(), s, "o2", p, newProgress(quiet{}, never),
			func() (func(), error) {
				require.NoError(t, os.MkdirAll("o2/hers", 0o777))
				return last(func() {
					require.NoError(t, os.WriteFile("runs.toml", []byte("runs, changed"), 0o644))
				})()
			})
		require.Error(t, err)
		assert.Equal(t, "runs, changed", string(read(t, "runs.toml")))
	})
}
