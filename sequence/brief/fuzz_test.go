package brief

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// FuzzEdit sets one key to one value in any text. Whatever is not that value
// stays as it is, byte for byte and in meaning.
func FuzzEdit(f *testing.F) {
	names, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(f, err)
	texts := [][]byte{Default(), []byte(edited), []byte("[set]\npieces = 6"), []byte("a = {}\n"), {}}
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		texts = append(texts, text)
	}
	for _, text := range texts {
		for _, key := range []string{"set.pieces", "title", "warp.rhythm", "warp.rhythm.mirror", "piece[1].runs", "piece[9].name", "loom.waste", "new.table.key", "a.b"} {
			f.Add(text, key, "7")
			f.Add(bytes.ReplaceAll(text, []byte("\n"), []byte("\r\n")), key, `{ kind = "even" }`)
			f.Add(append([]byte("\ufeff"), text...), key, "")
		}
	}
	f.Fuzz(func(t *testing.T, text []byte, key, value string) {
		got, err := Edit("b.toml", text, []Change{{key, value}})
		if err != nil {
			return
		}
		before, err := read("b.toml", text)
		require.NoError(t, err)
		after, err := read("b.toml", got)
		require.NoError(t, err)
		path, err := steps(key)
		require.NoError(t, err)
		was, is := at(before, path), at(after, path)
		keepsBytes(t, before, was, text, got, value)
		old, now := leaves(before.root, ""), leaves(after.root, "")
		forget(old, key, was)
		forget(now, key, is)
		require.Empty(t, changed(old, now), "other values of %q", got)
		if value == "" {
			require.Nil(t, is)
			return
		}
		require.NotNil(t, is, "%q in %q", key, got)
		again, err := Edit("b.toml", got, []Change{{key, value}})
		require.NoError(t, err)
		assert.Equal(t, string(got), string(again), "the second time nothing changes")
	})
}

// at follows a key to its node, or gives nil.
func at(d *document, path []step) *node {
	n := d.root
	for _, s := range path {
		if n = n.table[s.name]; n == nil {
			return nil
		}
		if s.index >= 0 {
			if s.index >= len(n.items) {
				return nil
			}
			n = n.items[s.index]
		}
	}
	return n
}

// keepsBytes: the new text is the old one with one stretch replaced, which is
// no longer than the old value (or its line, where it was taken away).
func keepsBytes(t *testing.T, d *document, was *node, old, now []byte, value string) {
	t.Helper()
	from := 0
	for from < len(old) && from < len(now) && old[from] == now[from] {
		from++
	}
	back := 0
	for back < len(old)-from && back < len(now)-from && old[len(old)-1-back] == now[len(now)-1-back] {
		back++
	}
	lost := len(old) - from - back
	switch {
	case was == nil:
		require.Zero(t, lost, "a new key takes nothing away")
	case value == "":
		require.LessOrEqual(t, lost, lineLength(d, was))
	default:
		require.LessOrEqual(t, lost, was.value.to-was.value.from)
	}
}

// lineLength is the bytes of the lines an assignment stands on.
func lineLength(d *document, n *node) int {
	from := bytes.LastIndexByte(d.text[:n.line.from], '\n') + 1
	to := bytes.IndexByte(d.text[n.line.to:], '\n')
	if to < 0 {
		return len(d.text) - from
	}
	return n.line.to + to + 1 - from
}

// leaves are all scalars of a tree by their paths, and empty lists and tables.
func leaves(n *node, path string) map[string]string {
	all := make(map[string]string)
	add := func(part string, child *node) {
		for k, v := range leaves(child, path+part) {
			all[k] = v
		}
	}
	switch n.kind {
	case tableKind:
		for k, v := range n.table {
			add("."+k, v)
		}
	case arrayKind:
		for i, v := range n.items {
			add(fmt.Sprintf("[%d]", i), v)
		}
	default:
		all[path] = fmt.Sprint(n.kind, " ", n.text)
	}
	return all
}

// changed lists the paths at which two trees differ.
func changed(a, b map[string]string) (paths []string) {
	for path, v := range a {
		if w, ok := b[path]; !ok || v != w {
			paths = append(paths, path)
		}
	}
	for path := range b {
		if _, ok := a[path]; !ok {
			paths = append(paths, path)
		}
	}
	return paths
}

// forget drops what the changed key holds.
func forget(all map[string]string, key string, n *node) {
	if n == nil {
		return
	}
	for path := range leaves(n, "."+key) {
		delete(all, path)
	}
}

// TestForgetSeesChanges: the check above would notice another value changed.
func TestForgetSeesChanges(t *testing.T) {
	a, err := read("", []byte("x = 1\n[[p]]\ny = [1, 2]\n"))
	require.NoError(t, err)
	all := leaves(a.root, "")
	assert.Equal(t, map[string]string{".x": "a whole number 1", ".p[0].y[0]": "a whole number 1", ".p[0].y[1]": "a whole number 2"}, all)
	path, err := steps("p[0].y")
	require.NoError(t, err)
	forget(all, "p[0].y", at(a, path))
	assert.Equal(t, map[string]string{".x": "a whole number 1"}, all)
}
