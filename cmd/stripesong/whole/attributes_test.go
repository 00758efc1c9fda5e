//go:build linux

package whole

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/sys/unix"
)

// TestReplaceKeepsAttributes, lists of who may read it among them.
func TestReplaceKeepsAttributes(t *testing.T) {
	path := write(t, "old", t.TempDir(), "brief.toml")
	if err := unix.Setxattr(path, "user.colour", []byte("rose"), 0); err != nil {
		t.Skipf("this disk has no attributes: %v", err)
	}
	require.NoError(t, Replace(path, []byte("old"), []byte("new")))
	value := make([]byte, 10)
	n, err := unix.Getxattr(path, "user.colour", value)
	require.NoError(t, err)
	assert.Equal(t, "rose", string(value[:n]))
	assert.Equal(t, "new", read(t, path))
}
