//go:build !unix

package main

import "io/fs"

// ownedHere tells whether a file is this user's; here the folders for what is
// temporary are.
func ownedHere(fs.FileInfo) bool { return true }
