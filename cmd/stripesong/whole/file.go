package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// Create writes a file that must not exist yet. An existing one, or anything
// else of that name, is left as it is and the error is an [fs.ErrExist].
func Create(path string, data []byte) error { return CreateAs(path, data, 0o666) }

// CreateAs is [Create] with the permissions of the new file, before the umask.
func CreateAs(path string, data []byte, mode fs.FileMode) error {
	if _, err := os.Lstat(path); err == nil {
		return &fs.PathError{Op: "create", Path: path, Err: fs.ErrExist}
	}
	return viaRoom(path, data, mode, func(from string) error {
		err := os.Link(from, path)
		if err == nil || errors.Is(err, fs.ErrExist) {
			return err
		}
		return createHere(path, data, mode)
	})
}

// Replace writes a file in place of the one that may stand there, whose
// permissions it keeps. A link is followed: what it points to is replaced.
func Replace(path string, data []byte) error {
	mode := fs.FileMode(0o666)
	info, err := os.Stat(path)
	exists := err == nil
	if exists {
		if !info.Mode().IsRegular() {
			return fmt.Errorf("%q is not an ordinary file", path)
		}
		mode = info.Mode().Perm()
		if path, err = filepath.EvalSymlinks(path); err != nil {
			return err
		}
	}
	return viaRoom(path, data, mode, func(from string) error {
		if exists { // the umask may have taken a permission away
			if err := os.Chmod(from, mode); err != nil {
				return err
			}
		}
		return os.Rename(from, path)
	})
}

func viaRoom(path string, data []byte, mode fs.FileMode, move func(from string) error) error {
	r, err := openRoom(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer r.close()
	if err := os.WriteFile(r.path("new"), data, mode); err != nil {
		return err
	}
	return move(r.path("new"))
}

// createHere is for file systems without hard links: still never over
// another file, and taken away again if it can't be finished.
func createHere(path string, data []byte, mode fs.FileMode) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(path)
	}
	return err
}
