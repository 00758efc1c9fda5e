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
		left := settleOnce(from, target, ours)
		kept = append(kept, left...)
		if os.Remove(from) == nil {
			return kept
		}
		if len(left) == 0 { // nothing came, and still it can't go
			break
		}
	}
	return kept
}

func settleOnce(from, target string, ours list) (kept []string) {
	entries, err := os.ReadDir(from)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		switch path := filepath.Join(from, e.Name()); {
		case e.Name() == listName:
		case ours.has(from, e) == nil:
			os.Remove(path)
		default:
			kept = append(kept, moveOut(path, e.Name(), target))
		}
	}
	os.Remove(filepath.Join(from, listName)) // last: it says which are ours
	return kept
}

// moveOut moves what is not ours into the folder target under its name, or beside
// it, and says where it is then.
func moveOut(path, name, target string) string {
	if name != "" {
		if to := filepath.Join(target, name); moveTo(path, to) == nil {
			return to
		}
	}
	for n := 1; n <= tries; n++ {
		dir := target + "-saved"
		if n > 1 {
			dir = fmt.Sprintf("%s-saved-%d", target, n)
		}
		if err := os.Mkdir(dir, 0o777); err != nil && !errors.Is(err, fs.ErrExist) {
			break
		}
		to := filepath.Join(dir, filepath.Base(filepath.Join(target, name)))
		if moveTo(path, to) == nil {
			return to
		}
		os.Remove(dir) // if it was made for nothing
	}
	return path
}

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
	return os.Rename(from, to)
}
