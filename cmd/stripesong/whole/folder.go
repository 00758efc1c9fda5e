package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
)

// Put adds one file to a folder that is being made. The name is that of a
// file, never a path.
type Put func(name string, data []byte) error

// Folder makes the folder path with the files that fill puts into it, in place
// of the one that may stand there, which it must have made itself and nobody
// changed since; in another folder that it made it makes none. Missing folders above
// path are made. Where it fails, nothing is changed. What it is made from, if anything,
// is written down in it, for [From].
//
// What somebody saves into the old folder meanwhile is kept: each is moved into
// the new one, or where its name is taken there into a folder beside it called
// path-saved; kept says where these are.
func Folder(path, from string, fill func(Put) error) (kept []string, err error) {
	path, err = filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	there, err := mayReplace(path)
	if err != nil {
		return nil, err
	}
	undo, err := MakeFolders(filepath.Dir(path))
	if err != nil {
		return nil, err
	}
	if kept, err = build(path, from, there, fill); err != nil {
		undo()
	}
	return kept, err
}

func build(path, from string, there bool, fill func(Put) error) (kept []string, err error) {
	kept = sweep(filepath.Dir(path))
	w, err := begin(filepath.Dir(path))
	if err != nil {
		return kept, err
	}
	defer w.close()
	if err := w.fill(from, fill); err != nil {
		return kept, err
	}
	if !there {
		err := os.Rename(w.path("new"), path)
		if err == nil || gone(path) {
			return kept, err
		}
		if _, ours := mayReplace(path); ours != nil { // it has come meanwhile
			return kept, ours
		}
	}
	if err := w.exchange(path); err != nil {
		return kept, err
	}
	return append(kept, w.settle(path)...), nil
}

// fill makes the new folder, with the list of its files.
func (w *work) fill(from string, fill func(Put) error) error {
	dir := w.path("new")
	if err := os.Mkdir(dir, 0o777); err != nil {
		return err
	}
	ours := make(list)
	err := fill(func(name string, data []byte) error {
		if !isFileName(name) || name == listName {
			return fmt.Errorf("%q is not the name of a file", name)
		}
		ours[name] = sumOf(data)
		return os.WriteFile(filepath.Join(dir, name), data, 0o666)
	})
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, listName),
		slices.Concat(fromLine(from), ours.text()), 0o666)
}

func isFileName(name string) bool {
	return filepath.IsLocal(name) && filepath.Base(name) == name && name != "."
}

// exchange puts the new folder in the place of the one that stands there, which
// is in the work afterwards.
func (w *work) exchange(path string) error {
	if info, err := os.Lstat(path); err == nil && info.IsDir() {
		keepOwner(w.path("new"), info) // as far as it may be
	}
	if err := w.saysName(filepath.Base(path)); err != nil {
		return err
	}
	if exchange(w.path("new"), path) == nil {
		return nil
	}
	err := w.swap(path)
	if err != nil && gone(w.path("old")) {
		os.Remove(w.path("name")) // nothing has come into the work
	}
	return err
}

// saysName says what is about to be replaced, all of it or nothing.
func (w *work) saysName(name string) error {
	if err := os.WriteFile(w.path("name.new"), []byte(name), 0o666); err != nil {
		return err
	}
	return os.Rename(w.path("name.new"), w.path("name"))
}

// swap exchanges in two steps.
func (w *work) swap(path string) error {
	if err := os.Rename(path, w.path("old")); err != nil {
		return err
	}
	if err := os.Rename(w.path("new"), path); err != nil {
		return errors.Join(err, os.Rename(w.path("old"), path))
	}
	return nil
}

// mayReplace tells whether there is a folder in the place of a new one, and fails
// where something stands there that is not its to take away.
func mayReplace(path string) (there bool, err error) {
	if here, err := os.Getwd(); err == nil && Within(here, path) {
		return false, errors.New("it holds the folder you are in")
	}
	if err := Inside(path); err != nil {
		return false, err
	}
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, err
	case info.Mode()&fs.ModeSymlink != 0:
		return false, errors.New("it is a link")
	case !info.IsDir():
		return false, errors.New("it is a file, not a folder")
	}
	if isProtected(info) {
		return false, errors.New("it is there already, and it is protected from being written to")
	}
	return true, onlyOurs(path)
}

// onlyOurs fails where a folder holds something else than this program wrote.
func onlyOurs(path string) error {
	entries, err := os.ReadDir(path)
	if err != nil || len(entries) == 0 {
		return err
	}
	ours, err := readList(path)
	if err != nil {
		return errors.New("it is there already, and nothing in it says that this program wrote it")
	}
	for _, e := range entries {
		if e.Name() == listName {
			continue
		}
		if err := ours.has(path, e); err != nil {
			return err
		}
		if err := mayGo(path, e); err != nil {
			return err
		}
	}
	return nil
}

// mayGo fails where a file of a folder may not be written to, though the folder
// would let it be taken away.
func mayGo(dir string, e fs.DirEntry) error {
	if info, err := e.Info(); err == nil && isProtected(info) {
		return fmt.Errorf("it is there already, and %q in it is protected from being written to",
			e.Name())
	}
	f, err := os.OpenFile(filepath.Join(dir, e.Name()), os.O_WRONLY, 0)
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("it is there already, and %q in it may not be written to", e.Name())
	}
	if err == nil {
		f.Close()
	}
	return nil
}
