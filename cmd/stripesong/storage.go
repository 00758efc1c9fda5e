package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/unsaved"
	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// storage is where a page's work goes: the files the command line named, and
// names made from titles.
type storage struct {
	mu      sync.Mutex
	source  *source
	origins engine.Origins
	wrote   map[string]bool // the sums of what the page saved
	keeping *keeping
	say     func(line string) // in the terminal
}

func newStorage(s *source, k *keeping, say func(string)) *storage {
	return &storage{source: s, origins: engine.NewOrigins(unsaved.Sum(s.text)),
		wrote: map[string]bool{}, keeping: k, say: say}
}

// stem is what a brief's file is called without its ending; "towels" for none.
func (s *source) stem() string {
	if !s.fromFile() {
		return "towels"
	}
	return strings.TrimSuffix(filepath.Base(s.name), filepath.Ext(s.name))
}

func (d *storage) Called() string { return screen.Visible(d.source.name) }

func (d *storage) FromFile() bool { return d.source.fromFile() }

func (d *storage) Save(text []byte, origin int, over bool) (name, before string, err error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !d.source.fromFile() {
		return "", "", brief.Problems{{What: "this brief is not from a file",
			Hint: "save a copy, which is a file of your own"}}
	}
	before, err = d.save(text, origin, over)
	if errors.Is(err, whole.ErrChanged) { // this moment, by something else
		before, err = d.save(text, origin, false)
	}
	if err != nil {
		return "", "", err
	}
	d.origins.Saved(origin, unsaved.Sum(text))
	return screen.Visible(d.source.name), screen.Visible(before), nil
}

// save writes the brief, or asks. It says where the file is kept as it was, if it is. The
// error is [whole.ErrChanged] where the file was changed while it was looked at.
func (d *storage) save(text []byte, origin int, over bool) (before string, err error) {
	now, err := readFile(d.source.name)
	sum := unsaved.Sum(now)
	switch {
	case errors.Is(err, os.ErrNotExist):
		sum = engine.NoFile
	case err != nil:
		return "", err
	}
	why := d.origins.Conflict(origin, sum, unsaved.Sum(text), over)
	if why != "" {
		return "", &engine.Conflict{Why: why, File: now}
	}
	if sum == engine.NoFile || bytes.Equal(now, text) || d.wrote[sum] {
		err = d.source.put(now, text)
	} else {
		before, err = d.source.putOver(now, text)
	}
	if err == nil && !bytes.Equal(now, text) {
		d.wrote[unsaved.Sum(text)] = true
	}
	return before, err
}

// putOver is put over a text that the page did not write, which is kept as it was in a
// file beside it.
func (s *source) putOver(now, text []byte) (before string, err error) {
	was := *s
	was.text = now
	kept, err := was.keepCopy()
	if err != nil {
		return "", brief.Problems{{What: err.Error(),
			Hint: "nothing was saved: the brief as it was would be kept in that file first"}}
	}
	return kept.name, kept.unless(s.put(now, text))
}

// put writes the brief back to its file, which is as it was read a moment ago; nil
// where it was not there.
func (s *source) put(now, text []byte) error {
	put := func() error { return whole.Rewrite(s.name, now, text) }
	if now == nil {
		put = func() error { return whole.Create(s.name, text) }
	}
	err := put()
	switch {
	case errors.Is(err, whole.ErrChanged), errors.Is(err, fs.ErrExist):
		return whole.ErrChanged
	case errors.Is(err, whole.ErrLinked):
		return brief.Problems{{What: fmt.Sprintf("can't write %q: %v", s.name, err),
			Hint: "save a copy: that makes a file of its own"}}
	case err != nil:
		return mistake{what: fmt.Sprintf("can't write %q: %s", s.name, plainly(err)), cause: err}
	}
	return nil
}

// SaveAs makes the name itself: letters, digits and dashes of the title, never
// a path.
func (d *storage) SaveAs(title string, text []byte) (string, error) {
	name, err := createFree(d.source.dir, folder.Name(title), text)
	return screen.Visible(name), err
}

func (d *storage) Reread() ([]byte, int, error) {
	if !d.source.fromFile() {
		return nil, 0, brief.Problems{{What: "this brief is not from a file"}}
	}
	text, err := readFile(d.source.name)
	if err != nil {
		return nil, 0, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	return text, d.origins.File(unsaved.Sum(text)), nil
}

func (d *storage) Known(origin int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.origins.Known(origin)
}

func (d *storage) TakenUp(id int) int {
	d.mu.Lock()
	defer d.mu.Unlock()
	f, open := d.keeping.left[id]
	if !open {
		return d.origins.Holds()
	}
	return d.origins.Earlier(f.Base, unsaved.Sum(f.Text))
}

// Keep says in the terminal where it keeps the brief, once for each place.
func (d *storage) Keep(text []byte, origin int) (string, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	k := d.keeping
	if text == nil {
		return "", k.keeper.Drop()
	}
	where, err := k.keeper.Keep(text, d.origins.Base(origin))
	switch {
	case err != nil && !k.failed:
		k.failed, k.where = true, ""
		d.say(fmt.Sprintf("what is not saved can't be kept: %s", plainly(err)))
	case err == nil && where != k.where:
		k.failed, k.where = false, where
		d.say(fmt.Sprintf("what is not saved is kept in %s", screen.Visible(where)))
	}
	return screen.Visible(where), err
}

func (d *storage) Left() []engine.Left {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.keeping.found()
}

func (d *storage) Forget(id int) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.keeping.forget(id)
}

func (d *storage) Publish(ctx context.Context, p *plan.Plan) (string, error) {
	dir := beside(d.source.dir, folder.Name(p.Title))
	shown := newProgress(quiet{}, never)
	defer shown.stop()
	replaced := d.source.replaces(dir)
	kept, err := writeFolder(ctx, d.source, dir, p, shown, nil)
	for i, path := range kept {
		kept[i] = shortPath(path)
	}
	if len(kept) > 0 {
		dir += "; what was saved into it meanwhile is kept: " + strings.Join(kept, ", ")
	}
	if replaced != "" {
		dir += fmt.Sprintf("; it held the plan of %q, which this one replaced", replaced)
	}
	return screen.Visible(dir), err
}

// beside is a file or folder beside the brief.
func beside(dir, name string) string {
	if dir == "" || dir == "." {
		return name
	}
	return filepath.Join(dir, name)
}

// quiet takes progress that nobody sees.
type quiet struct{}

func (quiet) Write(text []byte) (int, error) { return len(text), nil }
