package unsaved

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"sync"

	"stripesong/cmd/stripesong/lock"
	"stripesong/cmd/stripesong/whole"
)

// Brief is what work is kept of.
type Brief struct {
	Name string // what messages call it
	File string // its whole path, links resolved; "" where it came from no file
	Text []byte // as it was read
	Pipe bool   // it came through a pipe: another of that name may be another brief
}

// Place is a folder where work may be kept.
type Place struct {
	Dir    string
	Beside bool        // it is the brief's own folder
	Mode   fs.FileMode // of a new file, before the umask
	Shown  func(name string) string

	// Ready makes the folder if asked to, and fails where it is not one to trust.
	// Nil for a folder that is there.
	Ready func(create bool) error
}

func (p Place) ready(create bool) error {
	if p.Ready == nil {
		return nil
	}
	return p.Ready(create)
}

// Keeper keeps the unsaved work of one run on one brief.
type Keeper struct {
	mu     sync.Mutex
	brief  Brief
	stem   string
	places []Place
	at     *file // nil while nothing is kept
}

// file is where work is kept now.
type file struct {
	path, shown string
	place       Place
	lock        *lock.Lock
	data        []byte // what was written
}

// New makes a keeper, whose files are called stem.toml, stem-2.toml and so on.
// Nothing is written before there is something to keep.
func New(brief Brief, stem string, places []Place) *Keeper {
	return &Keeper{brief: brief, stem: stem, places: places}
}

// Keep writes a text, begun from one with the [Sum] base, and says where.
func (k *Keeper) Keep(text []byte, base string) (shown string, err error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.at != nil {
		if data := k.header(k.at.place, base).put(text); k.at.renew(data) == nil {
			return k.at.shown, nil
		}
		k.leave()
	}
	for _, p := range k.places {
		at, failed := k.begin(p, k.header(p, base).put(text))
		if failed == nil {
			k.at = at
			return at.shown, nil
		}
		err = errors.Join(err, failed)
	}
	return "", err
}

// header is the first line of this brief's files in a place.
func (k *Keeper) header(p Place, base string) header {
	h := header{base: base}
	switch {
	case k.brief.File == "":
		h.name = k.brief.Name
	case p.Beside:
		h.file = filepath.Base(k.brief.File)
	default:
		h.file = k.brief.File
	}
	return h
}

// most is how many files of one stem may lie in a folder.
const most = 1000

// begin writes a new file in a place, under the first number that is free.
func (k *Keeper) begin(p Place, data []byte) (*file, error) {
	if err := p.ready(true); err != nil {
		return nil, err
	}
	for n := 1; n <= most; n++ {
		name := Numbered(k.stem, n)
		at := &file{path: filepath.Join(p.Dir, name), shown: p.Shown(name), place: p}
		if _, err := os.Lstat(at.path); err == nil {
			continue
		}
		err := at.create(data)
		if err == nil {
			return at, nil
		}
		if !errors.Is(err, lock.ErrHeld) && !errors.Is(err, fs.ErrExist) {
			return nil, err
		}
	}
	return nil, fmt.Errorf("%q holds too many files of unsaved work", p.Dir)
}

// Numbered is the name of the nth file of one stem.
func Numbered(stem string, n int) string {
	if n == 1 {
		return stem + ".toml"
	}
	return fmt.Sprintf("%s-%d.toml", stem, n)
}

// lockOf is the file that is locked while another is in use.
func lockOf(path string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock")
}

func (f *file) create(data []byte) (err error) {
	if f.lock, err = lock.Try(lockOf(f.path)); err != nil {
		return err
	}
	if err = whole.CreateAs(f.path, data, f.place.Mode); err != nil {
		f.lock.Release()
		return err
	}
	f.data = data
	return nil
}

var errForeign = errors.New("somebody else has changed it")

// renew writes a file again, unless somebody else has written to it.
func (f *file) renew(data []byte) error {
	if bytes.Equal(data, f.data) && f.mine() {
		return nil
	}
	if !f.mine() {
		return errForeign
	}
	if err := whole.Replace(f.path, f.data, data); err != nil {
		return err
	}
	f.data = data
	return nil
}

// mine tells whether a file is as it was written here.
func (f *file) mine() bool {
	data, err := readFile(f.path)
	return err == nil && bytes.Equal(data, f.data)
}

// Drop takes away what is kept: it is saved, or not wanted.
func (k *Keeper) Drop() error {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.at == nil {
		return nil
	}
	defer k.leave()
	if !k.at.mine() {
		return nil // then it is not ours to take away
	}
	return os.Remove(k.at.path)
}

// Close leaves what is kept for another run to find.
func (k *Keeper) Close() {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.leave()
}

func (k *Keeper) leave() {
	if k.at != nil {
		k.at.lock.Release()
		k.at = nil
	}
}
