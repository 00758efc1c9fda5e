//go:build unix

package whole

import (
	"io/fs"
	"os"
	"syscall"
)

// IsOwn tells whether something belongs to this user.
func IsOwn(info fs.FileInfo) bool {
	is, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(is.Uid) == os.Geteuid()
}

// keepOwner gives what is new the owner, the group and the permissions of what it
// replaces, as far as this user may. Where the group can't be kept, another gets no
// more than everybody has.
func keepOwner(path string, of fs.FileInfo) error {
	mode := of.Mode().Perm()
	if is, ok := of.Sys().(*syscall.Stat_t); ok &&
		os.Lchown(path, int(is.Uid), int(is.Gid)) != nil {
		if os.Lchown(path, -1, int(is.Gid)) != nil {
			mode &= 0o707 | mode&0o007<<3
		}
	}
	return os.Chmod(path, mode) // a new owner may have taken some away, and the umask
}
