package whole

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"syscall"
)

// A room is the folder a target is built in, beside where it will stand, so
// that a rename is all that is left to do. It holds "new", and during a swap
// in two steps "old" and "name", the latter saying where old belongs.
type room struct{ dir string }

const prefix = ".stripesong-"

// open holds the rooms of this very process, which share its number.
var open sync.Map

func openRoom(parent string) (*room, error) {
	sweep(parent)
	dir, err := os.MkdirTemp(parent, fmt.Sprintf("%s%d-", prefix, os.Getpid()))
	if err != nil {
		return nil, err
	}
	open.Store(filepath.Base(dir), true)
	return &room{dir: dir}, nil
}

func (r *room) path(name string) string { return filepath.Join(r.dir, name) }

func (r *room) close() {
	os.RemoveAll(r.dir)
	open.Delete(filepath.Base(r.dir))
}

// sweep clears away the rooms that stopped programs left in parent, and puts
// back what one of them had only moved out of the way. It is a courtesy:
// whatever goes wrong is left for the next time.
func sweep(parent string) {
	entries, err := os.ReadDir(parent)
	if err != nil {
		return
	}
	for _, e := range entries {
		if e.IsDir() && abandoned(e.Name()) {
			discard(parent, &room{dir: filepath.Join(parent, e.Name())})
		}
	}
}

// abandoned tells whether name is that of a room whose program has ended.
func abandoned(name string) bool {
	rest, ok := strings.CutPrefix(name, prefix)
	if !ok {
		return false
	}
	pid, serial, ok := strings.Cut(rest, "-")
	n, err := strconv.Atoi(pid)
	if _, bad := strconv.ParseUint(serial, 10, 64); !ok || err != nil || bad != nil || n <= 0 {
		return false
	}
	if n == os.Getpid() {
		_, mine := open.Load(name)
		return !mine
	}
	return !alive(n)
}

func alive(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	defer p.Release()
	err = p.Signal(syscall.Signal(0))
	return !errors.Is(err, os.ErrProcessDone) && !errors.Is(err, syscall.ESRCH)
}

func discard(parent string, r *room) {
	entries, err := os.ReadDir(r.dir)
	if err != nil || !onlyOurs(entries) {
		return
	}
	if !putBack(parent, r) {
		return
	}
	os.RemoveAll(r.dir)
}

func onlyOurs(entries []fs.DirEntry) bool {
	for _, e := range entries {
		if n := e.Name(); n != "new" && n != "old" && n != "name" {
			return false
		}
	}
	return true
}

// putBack returns the old folder of an unfinished swap to its place, and
// tells whether the room may go.
func putBack(parent string, r *room) bool {
	if _, err := os.Lstat(r.path("old")); err != nil {
		return errors.Is(err, fs.ErrNotExist)
	}
	text, err := os.ReadFile(r.path("name"))
	name := string(text)
	if err != nil || !filepath.IsLocal(name) || filepath.Base(name) != name {
		return false
	}
	target := filepath.Join(parent, name)
	if _, err := os.Lstat(target); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(r.path("old"), target) == nil
	}
	return true
}
