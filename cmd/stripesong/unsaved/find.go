package unsaved

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"stripesong/cmd/stripesong/lock"
	"stripesong/cmd/stripesong/whole"
)

// Found is unsaved work that an earlier run has left.
type Found struct {
	Shown   string // where it is
	Text    []byte
	Base    string    // the [Sum] of the text that it was begun with
	When    time.Time // when it was last kept
	Changed bool      // the brief is not the one it was begun with any more
	file    file
}

// Find gives what earlier runs have left of a brief, the latest first, and where
// runs that are still there keep theirs. What is found is locked until
// [Found.Close] or [Found.Remove]. Work that the brief holds already, to the
// byte, is taken away, and so are locks of runs that have ended.
func Find(brief Brief, stem string, places []Place) (found []*Found, inUse []string) {
	for _, p := range places {
		if p.ready(false) != nil {
			continue
		}
		entries, err := os.ReadDir(p.Dir)
		if err != nil {
			continue
		}
		for _, e := range entries {
			clearLock(p, e, stem)
			if !e.Type().IsRegular() || !isNumbered(e.Name(), stem) {
				continue
			}
			f := &Found{Shown: p.Shown(e.Name())}
			f.file = file{path: filepath.Join(p.Dir, e.Name()), place: p}
			switch of, err := f.open(brief); {
			case !of:
			case err != nil:
				inUse = append(inUse, f.Shown)
			case bytes.Equal(f.Text, brief.Text):
				f.Remove()
			default:
				found = append(found, f)
			}
		}
	}
	slices.SortStableFunc(found, func(a, b *Found) int { return b.When.Compare(a.When) })
	return found, inUse
}

// clearLock takes away a lock that a run left which has ended. One that is needed
// for a file which is found is made again.
func clearLock(p Place, e os.DirEntry, stem string) {
	name, hidden := strings.CutPrefix(e.Name(), ".")
	name, isLock := strings.CutSuffix(name, ".lock")
	if hidden && isLock && isNumbered(name, stem) {
		lock.Clear(filepath.Join(p.Dir, e.Name()))
	}
}

func isNumbered(name, stem string) bool {
	rest, ok := strings.CutPrefix(name, stem)
	rest, toml := strings.CutSuffix(rest, ".toml")
	number, dashed := strings.CutPrefix(rest, "-")
	if !ok || !toml {
		return false
	}
	return rest == "" || dashed && number != "" && strings.Trim(number, "0123456789") == ""
}

// open locks and reads a file, and tells whether it is of a brief.
func (f *Found) open(brief Brief) (of bool, err error) {
	if of, err = f.read(brief); !of || err != nil {
		return of, err
	}
	if f.file.lock, err = lock.Try(lockOf(f.file.path)); err != nil {
		return true, err
	}
	if of, err = f.read(brief); !of || err != nil { // now that nobody writes to it
		f.file.lock.Release()
		return false, nil
	}
	return true, nil
}

func (f *Found) read(brief Brief) (of bool, err error) {
	data, err := readFile(f.file.path)
	if err != nil {
		return false, err
	}
	h, text, ours := split(data)
	if !ours || !f.belongs(h, brief) {
		return false, nil
	}
	info, err := os.Stat(f.file.path)
	if err != nil {
		return false, err
	}
	f.Text, f.file.data = text, data
	f.Base, f.When, f.Changed = h.base, info.ModTime(), h.base != Sum(brief.Text)
	return true, nil
}

// belongs tells whether a first line speaks of a brief. One that came from no
// file is known by what it is called, and one from a pipe by its text.
func (f *Found) belongs(h header, brief Brief) bool {
	if brief.File == "" || h.file == "" {
		same := brief.File == h.file && h.name == brief.Name
		return same && (!brief.Pipe || h.base == Sum(brief.Text))
	}
	path := h.file
	if f.file.place.Beside {
		path = filepath.Join(f.file.place.Dir, filepath.Base(h.file))
	}
	if path == brief.File {
		return true
	}
	named, err := os.Stat(path)
	is, failed := os.Stat(brief.File)
	return err == nil && failed == nil && os.SameFile(named, is)
}

var errNotAsFound = errors.New("it is not as it was found any more, so it is left as it is")

// Remove takes the file away, unless it was changed since it was found.
func (f *Found) Remove() error {
	defer f.Close()
	if !f.file.mine() {
		return errNotAsFound
	}
	return os.Remove(f.file.path)
}

// Close leaves the file where it is.
func (f *Found) Close() {
	if f.file.lock != nil {
		f.file.lock.Release()
		f.file.lock = nil
	}
}

// mostBytes is more than any text of a brief and its first line.
const mostBytes = 4 << 20

func readFile(path string) ([]byte, error) { return whole.Read(path, mostBytes) }
