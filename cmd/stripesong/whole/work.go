package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"stripesong/cmd/stripesong/lock"
)

// A work is the folder in which a target is built, beside where it will stand,
// so that a rename is all that is left to do. It holds
//
//	lock      locked as long as the program is there that made it
//	unlock    in place of it where no lock can be had
//	new       what is built; after an exchange, what stood there before
//	old       what stood there, while it is replaced in two steps
//	name      what the folder is called that is about to be replaced
//	name.new  the same, before it is written to the end
type work struct {
	dir  string
	lock *lock.Lock // nil where none can be had
}

const prefix = ".stripesong-"

// tries is how often a work is begun that another program clears away between
// its being made and its being locked.
const tries = 100

func begin(parent string) (*work, error) {
	for range tries {
		dir, err := os.MkdirTemp(parent, prefix+"*")
		if err != nil {
			return nil, err
		}
		w := &work{dir: dir}
		switch w.lock, err = lock.Try(w.path("lock")); {
		case err == nil:
			return w, nil
		case errors.Is(err, lock.ErrHeld), errors.Is(err, fs.ErrNotExist):
			continue
		}
		return w, w.withoutLock()
	}
	return nil, lock.ErrHeld
}

// withoutLock marks a work as one that nobody may clear away: a lock that could
// not be had here may well be had on another machine.
func (w *work) withoutLock() error {
	err := os.WriteFile(w.path("unlock"), nil, 0o600)
	os.Remove(w.path("lock"))
	return err
}

func (w *work) path(name string) string { return filepath.Join(w.dir, name) }

// close takes the work away. What may have stood where others could reach it is
// [work.settle]d before; where that failed, it stays.
func (w *work) close() {
	if gone(w.path("name")) {
		os.RemoveAll(w.path("new"))
	}
	os.Remove(w.path("name.new"))
	os.Remove(w.path("unlock"))
	if w.lock != nil {
		w.lock.Release()
	}
	if os.Remove(w.dir) != nil && w.lock != nil && !gone(w.dir) {
		os.WriteFile(w.path("lock"), nil, 0o600) // the next call may have it
	}
}
