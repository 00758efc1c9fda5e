//go:build unix

package whole

import (
	"io/fs"
	"syscall"
)

// otherNames tells whether a file has more names than one.
func otherNames(_ string, info fs.FileInfo) bool {
	is, ok := info.Sys().(*syscall.Stat_t)
	return ok && is.Nlink > 1
}
