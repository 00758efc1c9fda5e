package whole

import (
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFolderLeavesWhatIsAnothers: a file that this user may not write to stays, though
// the folder is the user's and would let it be replaced.
func TestFolderLeavesWhatIsAnothers(t *testing.T) {
	if os.Getuid() != 0 {
		t.Skip("only root can act for another user")
	}
	const user = 4321
	dir := t.TempDir()
	require.NoError(t, os.Chmod(filepath.Dir(dir), 0o755))
	require.NoError(t, os.Chown(dir, user, user))
	path := filepath.Join(dir, "towels")
	runtime.LockOSThread()
	defer runtime.UnlockOSThread()
	defer syscall.Setfsuid(0)
	require.NoError(t, syscall.Setfsuid(user))
	one := func(put Put) error { return put("yarn.csv", []byte("8/2")) }
	_, err := Folder(path, "", one)
	require.NoError(t, err)
	_, err = Folder(path, "", one)
	require.NoError(t, err)
	require.NoError(t, syscall.Setfsuid(0))
	require.NoError(t, os.Chown(filepath.Join(path, "yarn.csv"), 0, 0))
	require.NoError(t, syscall.Setfsuid(user))
	_, err = Folder(path, "", one)
	assert.EqualError(t, err, `it is there already, and "yarn.csv" in it may not be written to`)
	info, err := os.Stat(filepath.Join(path, "yarn.csv"))
	require.NoError(t, err)
	assert.Equal(t, uint32(0), info.Sys().(*syscall.Stat_t).Uid)
}
