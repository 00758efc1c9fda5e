package whole

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// ErrChanged is what [Replace] and [Remove] return where a file is not as it was
// read any more, or is not there.
var ErrChanged = errors.New("it was changed by another program since it was read")

// ErrLinked is what [Rewrite] returns for a file that has other names.
var ErrLinked = errors.New("it has another name, a hard link, under which its old text would stay")

var errProtected = errors.New("it is protected from being written to")

// Replace writes a file in place of one that holds was, and of nothing else. It
// keeps the file's permissions, and its owner and group where it may; a link is
// followed: what it points to is replaced. A file that may not be written to is
// left as it is, though its folder would let it be replaced.
//
// The file is looked at just before it is replaced, and where the system can
// exchange two files in one step again afterwards: what was written into it
// between the two goes back, and the error is [ErrChanged].
func Replace(path string, was, data []byte) error {
	return replace(path, was, data, true)
}

// Rewrite is [Replace] for a file that may be known by several names, hard links.
// Replacing it would part these: one would have the new text and the others the
// old. Somebody who made them to have one text in two places would not see that;
// and writing through all of them, which can't be done whole or not at all, would
// change the copy of somebody who made them as a backup. So it is left as it is,
// and the error is [ErrLinked].
func Rewrite(path string, was, data []byte) error {
	return replace(path, was, data, false)
}

func replace(path string, was, data []byte, part bool) error {
	path, info, err := writable(path)
	if err != nil {
		return err
	}
	return viaWork(path, data, info.Mode().Perm(), func(w *work) error {
		// Asked only now, since a program that was killed may have left a link to a
		// file it had just made, in a working folder that is cleared away by now.
		if now, err := os.Stat(path); err == nil && !part && otherNames(path, now) {
			return ErrLinked
		}
		from := w.path("new")
		keepAttributes(from, path)
		if err := keepOwner(from, info); err != nil {
			return err
		}
		return w.replace(path, was, data)
	})
}

// writable follows a link to the file that is to be replaced, which must be an
// ordinary one that may be written to.
func writable(path string) (string, fs.FileInfo, error) {
	path, err := filepath.EvalSymlinks(path)
	if err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			err = ErrChanged
		}
		return "", nil, err
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return "", nil, err
	case !info.Mode().IsRegular():
		return "", nil, &fs.PathError{Op: "replace", Path: path,
			Err: errors.New("it is not an ordinary file")}
	case isProtected(info):
		return "", nil, &fs.PathError{Op: "replace", Path: path, Err: errProtected}
	}
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return "", nil, err
	}
	return path, info, f.Close()
}

// isProtected tells whether nobody may write to a file or folder. Root may all the
// same, so that trying is not enough.
func isProtected(info fs.FileInfo) bool {
	if info.IsDir() && runtime.GOOS == "windows" {
		return false // there it says that a folder has a picture of its own
	}
	return info.Mode().Perm()&0o222 == 0
}

// replace puts the work's new file, which holds data, in the place of one that
// holds was.
func (w *work) replace(path string, was, data []byte) error {
	if err := holds(path, was); err != nil {
		return err
	}
	return w.exchangeFile(path, was, data)
}

// exchangeFile looks at what comes out, and where that is not what was read puts
// it back.
func (w *work) exchangeFile(path string, was, data []byte) error {
	from := w.path("new")
	if exchange(from, path) != nil {
		return os.Rename(from, path)
	}
	if holds(from, was) == nil {
		return nil
	}
	if err := exchange(from, path); err != nil {
		return errors.Join(ErrChanged, keepBeside(from, path))
	}
	if holds(from, data) != nil {
		return errors.Join(ErrChanged, keepBeside(from, path))
	}
	return ErrChanged
}

// keepBeside keeps what somebody wrote and has no place any more, in a file
// beside path; the error says in which.
func keepBeside(from, path string) error {
	return &fs.PathError{Op: "replace", Path: path,
		Err: errors.New("what it held is in " + moveOut(from, "", path))}
}

// holds tells whether a file holds data; the error is [ErrChanged] where it does
// not.
func holds(path string, data []byte) error {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return ErrChanged
	}
	if err != nil {
		return err
	}
	defer f.Close()
	is, err := io.ReadAll(io.LimitReader(f, int64(len(data))+1))
	if err == nil && !bytes.Equal(is, data) {
		err = ErrChanged
	}
	return err
}

// Remove takes a file away that holds was.
func Remove(path string, was []byte) error {
	if err := holds(path, was); err != nil {
		return err
	}
	return os.Remove(path)
}
