package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stripesong/cmd/stripesong/unsaved"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Before the page writes over a text that it did not write itself, that one is kept beside
// the brief, and the page says so once.
func TestThePageKeepsTheBriefAsItWas(t *testing.T) {
	const saved = "saved in towels.toml"
	kept := func(n string) string {
		return saved + "; the brief as it was: towels-before" + n + ".toml"
	}
	begun := func(t *testing.T) (p *livePage, file func(name string) string,
		said func(body string) string) {
		name := briefIn(t)
		dir := filepath.Dir(name)
		p = openPage(t, name)
		file = func(name string) string { return string(read(t, filepath.Join(dir, name))) }
		said = func(body string) string {
			got := p.post("save", body)
			return strings.ReplaceAll(got.Said, dir+string(filepath.Separator), "")
		}
		return p, file, said
	}
	t.Run("as it was opened", func(t *testing.T) {
		p, file, said := begun(t)
		opened := file("towels.toml")
		p.title("One")
		assert.Equal(t, kept(""), said("{}"))
		assert.Equal(t, opened, file("towels-before.toml"))
		info, err := os.Stat(filepath.Join(filepath.Dir(p.brief), "towels-before.toml"))
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "as private as the brief")
		p.title("Two")
		assert.Equal(t, saved, said("{}"), "the page's own saves are not kept")
		p.must("undo", "{}")
		p.must("undo", "{}")
		assert.Equal(t, saved, said("{}"))
		assert.Equal(t, opened, file("towels.toml"))
		p.title("Three")
		assert.Equal(t, saved, said("{}"))
		assert.Equal(t, opened, file("towels-before.toml"))
		assert.Equal(t, []string{"towels-before.toml", "towels.toml"}, filesBeside(t, p.brief))
	})
	t.Run("saved without a change", func(t *testing.T) {
		p, file, said := begun(t)
		opened := file("towels.toml")
		assert.Equal(t, saved, said("{}"))
		p.title("One")
		assert.Equal(t, kept(""), said("{}"))
		assert.Equal(t, opened, file("towels-before.toml"))
	})
	t.Run("as it was reread", func(t *testing.T) {
		p, file, said := begun(t)
		p.title("One")
		assert.Equal(t, kept(""), said("{}"))
		appendTo(t, p.brief, "# by hand\n")
		byHand := file("towels.toml")
		p.must("reread", "{}")
		p.title("Two")
		assert.Equal(t, kept("-2"), said("{}"))
		assert.Equal(t, byHand, file("towels-before-2.toml"))
	})
	t.Run("another's text that was saved over", func(t *testing.T) {
		p, file, said := begun(t)
		p.title("One")
		require.Equal(t, kept(""), said("{}"))
		appendTo(t, p.brief, "# by hand\n")
		byHand := file("towels.toml")
		p.title("Two")
		require.Equal(t, 409, p.post("save", "{}").status)
		assert.Equal(t, kept("-2"), said(`{"over":true}`))
		assert.Equal(t, byHand, file("towels-before-2.toml"))
	})
	t.Run("a copy that is there already is used", func(t *testing.T) {
		p, file, said := begun(t)
		require.NoError(t, os.WriteFile(filepath.Join(filepath.Dir(p.brief), "towels-before.toml"),
			[]byte(file("towels.toml")), 0o600))
		p.title("One")
		assert.Equal(t, kept(""), said("{}"))
		assert.Equal(t, []string{"towels-before.toml", "towels.toml"}, filesBeside(t, p.brief))
	})
	t.Run("a file that is gone", func(t *testing.T) {
		p, _, said := begun(t)
		p.title("One")
		require.NoError(t, os.Remove(p.brief))
		require.Equal(t, 409, p.post("save", "{}").status)
		assert.Equal(t, saved, said(`{"over":true}`))
		assert.Equal(t, []string{"towels.toml"}, filesBeside(t, p.brief))
	})
	t.Run("what can't be written leaves no copy", func(t *testing.T) {
		p, file, _ := begun(t)
		require.NoError(t, os.Link(p.brief, filepath.Join(t.TempDir(), "another name")))
		opened := file("towels.toml")
		p.title("One")
		assert.Equal(t, 422, p.post("save", "{}").status)
		assert.Equal(t, opened, file("towels.toml"))
		assert.NoFileExists(t, filepath.Join(filepath.Dir(p.brief), "towels-before.toml"))
	})
	t.Run("where no copy can be made nothing is saved", func(t *testing.T) {
		p, file, said := begun(t)
		opened := file("towels.toml")
		for n := 1; n <= 1000; n++ { // all names that are tried
			require.NoError(t,
				os.WriteFile(filepath.Join(filepath.Dir(p.brief),
					unsaved.Numbered("towels-before", n)), nil, 0o600))
		}
		p.title("One")
		assert.Contains(t, said("{}"), `can't write "`)
		assert.Equal(t, opened, file("towels.toml"))
	})
}
