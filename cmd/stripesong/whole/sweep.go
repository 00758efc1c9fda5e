package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"stripesong/cmd/stripesong/lock"
)

// sweep clears away what stopped programs left in parent, and puts back what one
// of them had only moved out of the way; kept is as [work.settle] gives it. It is
// a courtesy: whatever goes wrong is left for the next time.
func sweep(parent string) (kept []string) {
	entries, err := os.ReadDir(parent)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		if info, err := e.Info(); err != nil || !info.IsDir() || !isWork(e.Name()) || !IsOwn(info) {
			continue
		}
		if w := abandoned(filepath.Join(parent, e.Name())); w != nil {
			kept = append(kept, w.clear(parent)...)
		}
	}
	return kept
}

func isWork(name string) bool {
	number, ok := strings.CutPrefix(name, prefix)
	return ok && number != "" && strings.Trim(number, "0123456789") == ""
}

// abandoned is the work in dir if the program has ended that made it, and nil
// otherwise. One without a lock goes if it is empty, and is in use if it is not.
func abandoned(dir string) *work {
	l, err := lock.TryThere(filepath.Join(dir, "lock"))
	switch {
	case err == nil:
		return &work{dir: dir, lock: l}
	case errors.Is(err, fs.ErrNotExist):
		os.Remove(dir) // which takes away no folder that holds anything
	}
	return nil
}

func (w *work) clear(parent string) (kept []string) {
	defer w.close()
	text, err := os.ReadFile(w.path("name"))
	name := string(text)
	if err != nil || !isFileName(name) {
		return nil // it has not come so far; or it is not ours
	}
	target := filepath.Join(parent, name)
	if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
		os.Rename(w.path("old"), target) // if it was cut short there
	}
	return w.settle(target)
}
