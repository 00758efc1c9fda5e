package whole

import "golang.org/x/sys/unix"

// exchange swaps two paths in one step, or fails and changes nothing.
var exchange = func(a, b string) error {
	return unix.Renameat2(unix.AT_FDCWD, a, unix.AT_FDCWD, b, unix.RENAME_EXCHANGE)
}
