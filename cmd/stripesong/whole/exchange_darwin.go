package whole

import "golang.org/x/sys/unix"

// exchange swaps two paths in one step, or fails and changes nothing.
var exchange = func(a, b string) error { return unix.RenamexNp(a, b, unix.RENAME_SWAP) }
