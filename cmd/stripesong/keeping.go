package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"stripesong/cmd/stripesong/page"
	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/unsaved"
)

// keeping is where a page's unsaved work is kept, and what was left of it
// before. It is for use under the desk's lock.
type keeping struct {
	keeper *unsaved.Keeper
	left   map[int]*unsaved.Found
	order  []int
	inUse  []string
	where  string // as it was last told
	failed bool   // that nothing can be kept was told
}

// newKeeping looks for what earlier pages of a brief have left.
func (w *world) newKeeping(s *source) *keeping {
	of := unsaved.Brief{Name: s.name, Text: s.text, Pipe: s.piped()}
	if s.fromFile() {
		of.File = wholePath(s.name)
	}
	stem, places := slug(s.stem()+" unsaved"), w.places(s, of.File)
	k := &keeping{keeper: unsaved.New(of, stem, places), left: map[int]*unsaved.Found{}}
	found, inUse := unsaved.Find(of, stem, places)
	for i, f := range found {
		k.left[i+1], k.order = f, append(k.order, i+1)
	}
	k.inUse = inUse
	return k
}

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
		all = append(all, apartPlace(filepath.Join(dir, "stripesong"), func(dir string, create bool) error {
			if !create {
				return nil
			}
			return os.MkdirAll(dir, 0o700)
		}))
	}
	name := "stripesong"
	if id := os.Getuid(); id >= 0 { // the folder is one for all users
		name = fmt.Sprintf("stripesong-%d", id)
	}
	return append(all, apartPlace(filepath.Join(os.TempDir(), name), privateFolder))
}

func besideBrief(s *source, file string) unsaved.Place {
	p := unsaved.Place{Dir: ".", Beside: true, Mode: 0o666, Shown: func(name string) string { return name }}
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
	return unsaved.Place{Dir: dir, Mode: 0o600, Shown: func(name string) string { return filepath.Join(dir, name) },
		Ready: func(create bool) error { return ready(dir, create) }}
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
	case !info.IsDir(), !ownedHere(info), runtime.GOOS != "windows" && info.Mode().Perm()&0o077 != 0:
		return fmt.Errorf("%q may be another user's", dir)
	}
	return nil
}

// found says what earlier pages left, for the page.
func (k *keeping) found() []page.Left {
	var all []page.Left
	for _, id := range k.order {
		if f, open := k.left[id]; open {
			says := fmt.Sprintf("left unsaved on %s, kept in %s", moment(f.When), screen.Visible(f.Shown))
			if f.Changed {
				says += "; the brief has been changed since it was begun"
			}
			all = append(all, page.Left{ID: id, Says: says, Text: f.Text})
		}
	}
	return all
}

func moment(t time.Time) string { return t.Format("2 January 2006 at 15:04") }

func (k *keeping) forget(id int) error {
	f, open := k.left[id]
	if !open {
		return nil
	}
	delete(k.left, id)
	return f.Remove()
}

// greeting is what the terminal says of it before the page is opened.
func (k *keeping) greeting() string {
	var b strings.Builder
	for _, l := range k.found() {
		fmt.Fprintf(&b, "%s: the page offers it\n", l.Says)
	}
	for _, name := range k.inUse {
		fmt.Fprintf(&b, "another page is at work on this brief; what it has not saved is in %s\n", screen.Visible(name))
	}
	return b.String()
}

// end leaves everything where it is.
func (k *keeping) end() {
	k.keeper.Close()
	for _, f := range k.left {
		f.Close()
	}
}
