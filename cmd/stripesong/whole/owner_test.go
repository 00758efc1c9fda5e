//go:build unix

package whole

import (
	"io/fs"
	"syscall"
)

// ownerOf is a file's owner and group.
func ownerOf(info fs.FileInfo) [2]uint32 {
	is := info.Sys().(*syscall.Stat_t)
	return [2]uint32{is.Uid, is.Gid}
}
