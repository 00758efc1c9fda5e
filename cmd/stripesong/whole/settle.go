package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// settle takes away what stood at target before and lies in the work now. What
// is not ours goes back to where it was, or where its name is taken there into a
// folder beside; kept says where each of these is.
func (w *work) settle(target string) (kept []string) {
	for _, name := range []string{"old", "new"} {
		kept = append(kept, settle(w.path(name), target)...)
	}
	if gone(w.path("old")) && gone(w.path("new")) {
		os.Remove(w.path("name"))
	}
	return kept
}

func gone(path string) bool {
	_, err := os.Lstat(path)
	return errors.Is(err, fs.ErrNotExist)
}

// settle takes away from, which stood at target. It looks again until nothing is
// in it any more, since something may still be saved into it; what can't be moved
// stays where it is, and is told of there.
func settle(from, target string) (kept []string) {
	info, err := os.Lstat(from)
	switch {
	case err != nil:
		return nil
	case !info.IsDir(): // somebody put it in the folder's place
		return []string{moveOut(from, "", target)}
	}
	ours, _ := readList(from)
	for range tries {
		moved, stuck, empty := settleOnce(from, target, ours)
		kept = append(append(kept, moved...), stuck...)
		if !empty || os.Remove(from) == nil {
			break
		}
	}
	return kept
}

// settleOnce takes away all that is in a folder, the list of what is ours last.
// Moved is where that is which is not ours, stuck what can't be moved; empty tells
// whether nothing is left of what was there.
func settleOnce(from, target string, ours list) (moved, stuck []string, empty bool) {
	entries, err := os.ReadDir(from)
	if err != nil {
		return nil, nil, false
	}
	empty = true
	for _, e := range entries {
		path := filepath.Join(from, e.Name())
		if e.Name() == listName {
			continue
		}
		if ours.has(from, e) == nil {
			empty = remove(path) == nil && empty
		} else if to := moveOut(path, e.Name(), target); to == path {
			stuck = append(stuck, to)
		} else {
			moved = append(moved, to)
		}
	}
	if empty = empty && len(stuck) == 0; empty {
		os.Remove(filepath.Join(from, listName))
	}
	return moved, stuck, empty
}

// moveOut moves what is not ours into the folder target under its name, or beside
// it, and says where it is then.
func moveOut(path, name, target string) string {
	if to := filepath.Join(target, name); name != "" && isRealFolder(target) &&
		moveTo(path, to) == nil {
		return to
	}
	for n := 1; n <= tries; n++ {
		dir := target + "-saved"
		if n > 1 {
			dir = fmt.Sprintf("%s-saved-%d", target, n)
		}
		made := os.Mkdir(dir, 0o777) == nil
		if to := filepath.Join(dir,
			filepath.Base(filepath.Join(target, name))); isRealFolder(dir) &&
			moveTo(path, to) == nil {
			return to
		}
		if made {
			os.Remove(dir)
		}
	}
	return path
}

// isRealFolder tells whether a folder stands there itself, and no link to one.
func isRealFolder(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && info.IsDir()
}

// Variables for tests of what can't be moved or taken away.
var (
	rename = os.Rename
	remove = os.Remove
)

// moveTo renames a file, never over another.
func moveTo(from, to string) error {
	info, err := os.Lstat(from)
	if err != nil {
		return err
	}
	if info.Mode().IsRegular() {
		err := os.Link(from, to)
		if err == nil {
			return os.Remove(from)
		}
		if errors.Is(err, fs.ErrExist) {
			return err
		}
	}
	if !gone(to) {
		return fs.ErrExist
	}
	return rename(from, to)
}
