package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"

	"stripesong/cmd/stripesong/page"
	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// desk is where a page's work goes: the files the command line named, and
// names made from titles.
type desk struct {
	mu      sync.Mutex
	source  *source
	known   []byte // the file as it was taken over or last saved
	told    []byte // the file as it was when the page was told that it changed
	keeping *keeping
	say     func(line string) // in the terminal
}

// stem is what a brief's file is called without its ending; "towels" for none.
func (s *source) stem() string {
	if !s.fromFile() {
		return "towels"
	}
	return strings.TrimSuffix(filepath.Base(s.name), filepath.Ext(s.name))
}

func (d *desk) FromFile() bool { return d.source.fromFile() }

func (d *desk) Save(text []byte, over bool) (string, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !d.source.fromFile() {
		return "", brief.Problems{{What: "this brief came from no file",
			Hint: "save a copy: that makes a file of your own"}}
	}
	now, err := readFile(d.source.name)
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		return "", err
	}
	if !bytes.Equal(now, d.known) && !(over && bytes.Equal(now, d.told)) {
		d.told = now
		return "", page.ErrChanged
	}
	if err := whole.Replace(d.source.name, text); err != nil {
		return "", err
	}
	d.known = bytes.Clone(text)
	return d.source.name, nil
}

// SaveAs makes the name itself: letters, digits and dashes of the title, never
// a path.
func (d *desk) SaveAs(title string, text []byte) (string, error) {
	return createFree(d.source.dir, slug(title), text)
}

func (d *desk) Reread() ([]byte, error) {
	if !d.source.fromFile() {
		return nil, brief.Problems{{What: "this brief came from no file"}}
	}
	return readFile(d.source.name)
}

func (d *desk) Known(text []byte) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.known = bytes.Clone(text)
}

// Keep says in the terminal where it keeps the brief, once for each place.
func (d *desk) Keep(unsaved []byte) (string, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	k := d.keeping
	if unsaved == nil {
		return "", k.keeper.Drop()
	}
	where, err := k.keeper.Keep(unsaved, d.known)
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

func (d *desk) Left() []page.Left {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.keeping.found()
}

func (d *desk) Forget(id int) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.keeping.forget(id)
}

func (d *desk) Publish(ctx context.Context, p *plan.Plan) (string, error) {
	dir := beside(d.source.dir, slug(p.Title))
	shown := newProgress(quiet{})
	defer shown.stop()
	return dir, writeFolder(ctx, dir, p, shown, nil)
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
