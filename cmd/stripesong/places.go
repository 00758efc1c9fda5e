package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"stripesong/cmd/stripesong/unsaved"
	"stripesong/cmd/stripesong/whole"
)

// wholePath is a file's path from the root, links resolved where they can be.
func wholePath(name string) string {
	path, err := filepath.Abs(name)
	if err != nil {
		return name
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real
	}
	return path
}

// places are where unsaved work may be kept, in this order: beside the brief,
// in the folder where programs keep their state, in the one for what is
// temporary.
func (w *world) places(s *source, file string) []unsaved.Place {
	beside := besideBrief(s, file)
	all := []unsaved.Place{beside}
	if dir := w.stateFolder(); dir != "" {
		all = append(all, apartPlace(filepath.Join(dir, "stripesong"), ownFolder))
	}
	name := "stripesong"
	if id := os.Getuid(); id >= 0 { // the folder is one for all users
		name = fmt.Sprintf("stripesong-%d", id)
	}
	return append(all, apartPlace(filepath.Join(os.TempDir(), name), privateFolder))
}

func besideBrief(s *source, file string) unsaved.Place {
	p := unsaved.Place{Dir: ".", Beside: true, Mode: 0o666}
	p.Shown = func(name string) string { return name }
	if file == "" {
		return p
	}
	p.Dir = filepath.Dir(file)
	if info, err := os.Stat(file); err == nil {
		p.Mode = info.Mode().Perm() | 0o600 // as private as the brief
	}
	if wholePath(s.dir) == p.Dir {
		p.Shown = func(name string) string { return beside(s.dir, name) }
	} else { // the brief is a link
		p.Shown = func(name string) string { return filepath.Join(p.Dir, name) }
	}
	return p
}

func apartPlace(dir string, ready func(dir string, create bool) error) unsaved.Place {
	return unsaved.Place{
		Dir:   dir,
		Mode:  0o600,
		Shown: func(name string) string { return filepath.Join(dir, name) },
		Ready: func(create bool) error { return ready(dir, create) },
	}
}

// ownFolder makes a folder where only this user makes any.
func ownFolder(dir string, create bool) error {
	if !create {
		return nil
	}
	return os.MkdirAll(dir, 0o700)
}

// stateFolder is where this user's programs keep what they need again; "" where
// that is not known.
func (w *world) stateFolder() string {
	home := w.env("HOME")
	switch runtime.GOOS {
	case "windows":
		return w.env("LocalAppData")
	case "darwin":
		if home == "" {
			return ""
		}
		return filepath.Join(home, "Library", "Application Support")
	}
	if dir := w.env("XDG_STATE_HOME"); filepath.IsAbs(dir) {
		return dir
	}
	if !filepath.IsAbs(home) {
		return ""
	}
	return filepath.Join(home, ".local", "state")
}

// privateFolder makes a folder where all users make theirs, and makes sure that
// it is this user's and closed to all others.
func privateFolder(dir string, create bool) error {
	if create {
		if err := os.Mkdir(dir, 0o700); err != nil && !errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	info, err := os.Lstat(dir)
	switch {
	case err != nil:
		return err
	case !info.IsDir(), !whole.IsOwn(info), openToOthers(info):
		return fmt.Errorf("%q may be another user's", dir)
	}
	return nil
}

// openToOthers tells whether other users may look into a folder; on Windows its
// permissions do not say.
func openToOthers(info fs.FileInfo) bool {
	return info.Mode().Perm()&0o077 != 0 && runtime.GOOS != "windows"
}
