//go:build !windows && (!unix || solaris || illumos || aix)

package lock

import (
	"errors"
	"os"
)

// removeFirst tells whether a file can be taken away while it is open.
const removeFirst = false

func take(file *os.File) error {
	return &os.PathError{Op: "lock", Path: file.Name(), Err: errors.ErrUnsupported}
}
