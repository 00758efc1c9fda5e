package lock

import (
	"errors"
	"os"

	"golang.org/x/sys/windows"
)

// removeFirst tells whether a file can be taken away while it is open.
const removeFirst = false

func take(file *os.File) error {
	const now = windows.LOCKFILE_EXCLUSIVE_LOCK | windows.LOCKFILE_FAIL_IMMEDIATELY
	err := windows.LockFileEx(windows.Handle(file.Fd()), now, 0, 1, 0, new(windows.Overlapped))
	switch {
	case err == nil:
		return nil
	case errors.Is(err, windows.ERROR_LOCK_VIOLATION), errors.Is(err, windows.ERROR_IO_PENDING):
		return ErrHeld
	}
	return &os.PathError{Op: "lock", Path: file.Name(), Err: err}
}
