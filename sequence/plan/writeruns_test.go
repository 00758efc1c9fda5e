package plan

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// briefs are all there are in the repository.
func briefs(t testing.TB) map[string][]byte {
	t.Helper()
	found, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, found)
	texts := map[string][]byte{"default": brief.Default()}
	for _, path := range append(found, "testdata/worked-brief.toml", "testdata/family.toml") {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		texts[path] = text
	}
	return texts
}

func parse(t testing.TB, path string, text []byte, set ...brief.Override) *brief.Brief {
	t.Helper()
	b, err := brief.Parse(path, text,
		brief.Options{Set: set, Shelf: func(name string) ([]byte, error) {
			return os.ReadFile(filepath.Join(filepath.Dir(path), name))
		}})
	require.NoError(t, err, path)
	return b
}

// TestWriteRuns: a brief with all sequences written out gives the same plan, to
// the byte.
func TestWriteRuns(t *testing.T) {
	for path, text := range briefs(t) {
		b := parse(t, path, text)
		p, err := Make(context.Background(), b)
		require.NoError(t, err, path)
		want, err := JSON(p)
		require.NoError(t, err)
		written, err := brief.Edit(path, text, RunsOf(b, p))
		require.NoError(t, err, path)
		again, err := Make(context.Background(), parse(t, path, written))
		require.NoError(t, err, path)
		got, err := JSON(again)
		require.NoError(t, err)
		assert.Equal(t, string(want), string(got), path)
	}
}
