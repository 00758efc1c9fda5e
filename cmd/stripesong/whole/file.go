package whole

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Read reads at most so many bytes of a file.
func Read(path string, most int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, most))
}

// Create writes a file that must not exist yet. An existing one, or anything
// else of that name, is left as it is and the error is an [fs.ErrExist]; in a
// folder that [Folder] made it is an [*InsideError].
func Create(path string, data []byte) error { return CreateAs(path, data, 0o666) }

// CreateAs is [Create] with the permissions of the new file, before the umask.
func CreateAs(path string, data []byte, mode fs.FileMode) error {
	if _, err := os.Lstat(path); err == nil {
		return &fs.PathError{Op: "create", Path: path, Err: fs.ErrExist}
	}
	if err := Inside(path); err != nil {
		return err
	}
	dir, name := filepath.Split(path)
	if dir == "" {
		dir = "."
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		path = filepath.Join(real, name) // dots after a link go up from where it leads
	}
	return viaWork(path, data, mode, func(w *work) error {
		err := os.Link(w.path("new"), path)
		if err == nil || errors.Is(err, fs.ErrExist) {
			return err
		}
		return createHere(path, data, mode)
	})
}

func viaWork(path string, data []byte, mode fs.FileMode, move func(*work) error) error {
	sweep(filepath.Dir(path))
	w, err := begin(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer w.close()
	if err := os.WriteFile(w.path("new"), data, mode); err != nil {
		return err
	}
	return move(w)
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
