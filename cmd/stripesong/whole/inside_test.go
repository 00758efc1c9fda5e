package whole

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNothingInsideAFolder: what Folder made gets nothing else into it, by whatever
// names it is reached.
func TestNothingInsideAFolder(t *testing.T) {
	t.Chdir(t.TempDir())
	one := func(put Put) error { return put("plan.json", []byte("{}")) }
	_, err := Folder("made", "", one)
	require.NoError(t, err)
	require.NoError(t, os.Mkdir("other", 0o777))
	for name, to := range map[string]string{"link": "made", "other/up": "../made",
		"file": "made/x"} {
		require.NoError(t, os.Symlink(to, name))
	}
	made, err := filepath.EvalSymlinks("made")
	require.NoError(t, err)
	made, err = filepath.Abs(made)
	require.NoError(t, err)
	for _, path := range []string{"made/x", "link/x", "other/up/x", "other/../link/x",
		"made/a/b/x"} {
		inside := &InsideError{}
		require.ErrorAs(t, Create(path, nil), &inside, path)
		assert.Equal(t, made, inside.Folder, path)
		_, err := Folder(path, "", one)
		assert.ErrorAs(t, err, &inside, path)
		_, err = MakeFolders(path)
		assert.ErrorAs(t, err, &inside, path)
	}
	assert.Error(t, Inside("file"), "a link into it")
	assert.Equal(t, []string{listName, "plan.json"}, names(t, "made"))
	for _, path := range []string{"made", "made-2", "other/x", "made/../x", "link"} {
		assert.NoError(t, Inside(path), path)
	}
	_, err = Folder("made", "", one)
	assert.NoError(t, err, "in its own place")
}
