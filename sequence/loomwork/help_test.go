package loomwork

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

func planOf(t testing.TB, text string, set ...brief.Override) *plan.Plan {
	t.Helper()
	shelf := func(name string) ([]byte, error) {
		found, err := filepath.Glob("../../examples/*/" + name)
		require.NoError(t, err)
		require.NotEmpty(t, found)
		return os.ReadFile(found[0])
	}
	b, err := brief.Parse("test", []byte(text), brief.Options{Set: set, Shelf: shelf})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

// plans are those of every example, and one with plain in sight beside its hems.
func plans(t *testing.T) map[string]*plan.Plan {
	t.Helper()
	files, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	all := map[string]*plan.Plan{}
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		all[filepath.Base(filepath.Dir(file))] = planOf(t, string(text))
	}
	all["in sight"] = planOf(t, with(t, "# hem_show", "hem_show"))
	return all
}

// with is the built-in brief with one line in place of another.
func with(t testing.TB, changes ...string) string {
	t.Helper()
	text := string(brief.Default())
	for i := 0; i < len(changes); i += 2 {
		require.Equal(t, 1, strings.Count(text, changes[i]), changes[i])
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return text
}
