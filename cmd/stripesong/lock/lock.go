// Package lock tells whether a program that is at work on something is still
// there, by locks of the operating system.
//
// Call [Try] with the name of a file that stands for the work. The system lets
// go of a lock when the program that holds it ends, however it ends, and knows
// it across containers and, where the disk can, across machines; numbers of
// processes are the same in two containers.
//
// # Promises
//
// Of all that call Try for one name at a time one gets the lock. Nothing is
// ever written into the file.
//
// # Refusals
//
// Where no lock can be had, on a disk or a system without them, Try fails, and
// the work is to be taken as somebody else's.
package lock

import (
	"errors"
	"os"
)

// ErrHeld is what [Try] returns where another program, or another part of this
// one, holds the lock.
var ErrHeld = errors.New("another program is at work on it")

// Lock is a lock that is held.
type Lock struct {
	file *os.File
	path string
}

// tries is how often a file is opened that was taken away before it was locked.
const tries = 100

// Try takes the lock of a file, which is made if it is not there, and does not
// wait. The error is [ErrHeld] where it is held, and another where no lock can
// be had.
func Try(path string) (*Lock, error) { return try(path, os.O_RDWR|os.O_CREATE) }

// TryThere is [Try] for a file that must be there, an ordinary one and no link.
func TryThere(path string) (*Lock, error) {
	info, err := os.Lstat(path)
	switch {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, &os.PathError{Op: "lock", Path: path, Err: os.ErrInvalid}
	}
	return try(path, os.O_RDWR)
}

func try(path string, flags int) (*Lock, error) {
	for range tries {
		file, err := os.OpenFile(path, flags, 0o600)
		if err != nil {
			return nil, err
		}
		if err := take(file); err != nil {
			file.Close()
			return nil, err
		}
		if stands(file, path) {
			return &Lock{file, path}, nil
		}
		file.Close()
	}
	return nil, ErrHeld
}

// Clear takes away the file of a lock that nobody holds, if it is a lock: an empty
// file. Whatever goes wrong, it stays.
func Clear(path string) {
	l, err := TryThere(path)
	if err != nil {
		return
	}
	if info, err := l.file.Stat(); err != nil || info.Size() > 0 {
		l.file.Close()
		return
	}
	l.Release()
}

// stands tells whether a path still names an open file: who held its lock
// before may just have taken it away.
func stands(file *os.File, path string) bool {
	is, err := file.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(path)
	return err == nil && os.SameFile(is, named)
}

// Release takes the file away and lets go of the lock.
func (l *Lock) Release() {
	if removeFirst {
		os.Remove(l.path)
		l.file.Close()
		return
	}
	l.file.Close()
	os.Remove(l.path) // fails where another has opened it meanwhile, who then needs it
}
