package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Put adds one file to a folder that is being made. The name is that of a
// file, never a path.
type Put func(name string, data []byte) error

// Folder makes the folder path with the files that fill puts into it, in
// place of the one that may stand there. Nothing changes if fill fails.
//
// own is asked about a folder that is there and is not empty; an error says
// why it must not be replaced. Missing folders above path are made.
func Folder(path string, own func(dir string) error, fill func(Put) error) error {
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	if err := mayReplace(path, own); err != nil {
		return err
	}
	undo, err := makeParents(filepath.Dir(path))
	if err != nil {
		return err
	}
	if err := build(path, fill); err != nil {
		undo()
		return err
	}
	return nil
}

func build(path string, fill func(Put) error) error {
	r, err := openRoom(filepath.Dir(path))
	if err != nil {
		return err
	}
	defer r.close()
	if err := os.Mkdir(r.path("new"), 0o777); err != nil {
		return err
	}
	if err := fill(r.put); err != nil {
		return err
	}
	return r.moveTo(path)
}

func (r *room) put(name string, data []byte) error {
	if !filepath.IsLocal(name) || filepath.Base(name) != name || name == "." {
		return fmt.Errorf("%q is not the name of a file", name)
	}
	return os.WriteFile(filepath.Join(r.path("new"), name), data, 0o666)
}

func (r *room) moveTo(path string) error {
	if _, err := os.Lstat(path); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(r.path("new"), path)
	}
	if exchange(r.path("new"), path) == nil {
		return nil // what was there is in the room now and goes with it
	}
	return r.swap(path)
}

// swap exchanges in two steps, leaving word of where the old folder belongs.
func (r *room) swap(path string) error {
	if err := os.WriteFile(r.path("name"), []byte(filepath.Base(path)), 0o666); err != nil {
		return err
	}
	if err := os.Rename(path, r.path("old")); err != nil {
		return err
	}
	if err := os.Rename(r.path("new"), path); err != nil {
		return errors.Join(err, os.Rename(r.path("old"), path))
	}
	return nil
}

func mayReplace(path string, own func(dir string) error) error {
	if here, err := os.Getwd(); err == nil && Within(here, path) {
		return errors.New("it holds the folder you are in")
	}
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case info.Mode()&fs.ModeSymlink != 0:
		return errors.New("it is a link")
	case !info.IsDir():
		return errors.New("it is a file, not a folder")
	}
	if entries, err := os.ReadDir(path); err != nil || len(entries) == 0 {
		return err
	}
	return own(path)
}

// Within tells whether path is dir or lies in it, by their names alone; both
// absolute or both not.
func Within(path, dir string) bool {
	rel, err := filepath.Rel(dir, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// makeParents makes dir and what is missing above it; undo takes away what it
// made, if nothing has been put there since.
func makeParents(dir string) (undo func(), err error) {
	var made []string
	for d := dir; ; d = filepath.Dir(d) {
		if _, err := os.Stat(d); !errors.Is(err, fs.ErrNotExist) {
			break
		}
		made = append(made, d)
		if filepath.Dir(d) == d {
			break
		}
	}
	undo = func() {
		for _, d := range made {
			os.Remove(d)
		}
	}
	if err := os.MkdirAll(dir, 0o777); err != nil {
		undo()
		return nil, err
	}
	return undo, nil
}
