//go:build unix

package main

import (
	"io/fs"
	"os"
	"syscall"
)

// ownedHere tells whether a file is this user's.
func ownedHere(info fs.FileInfo) bool {
	of, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(of.Uid) == os.Getuid()
}
