//go:build unix

package whole

import (
	"io/fs"
	"os"
	"syscall"
)

// keepOwner gives a new file the owner and the group of the one it replaces, as
// far as this user may.
func keepOwner(path string, of fs.FileInfo) {
	is, ok := of.Sys().(*syscall.Stat_t)
	if !ok || os.Lchown(path, int(is.Uid), int(is.Gid)) == nil {
		return
	}
	os.Lchown(path, -1, int(is.Gid))
}
