//go:build !onefile

package main

// builtOneFile is nil: this program was built without the page as one file.
var builtOneFile []byte
