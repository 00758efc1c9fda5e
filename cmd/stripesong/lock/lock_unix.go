//go:build unix && !solaris && !illumos && !aix

package lock

import (
	"errors"
	"os"

	"golang.org/x/sys/unix"
)

// removeFirst tells whether a file can be taken away while it is open.
const removeFirst = true

func take(file *os.File) error {
	for {
		err := unix.Flock(int(file.Fd()), unix.LOCK_EX|unix.LOCK_NB)
		switch {
		case err == nil:
			return nil
		case errors.Is(err, unix.EWOULDBLOCK):
			return ErrHeld
		case !errors.Is(err, unix.EINTR):
			return &os.PathError{Op: "lock", Path: file.Name(), Err: err}
		}
	}
}
