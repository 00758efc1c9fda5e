package main

import (
	"fmt"
	"strings"
	"time"

	"stripesong/cmd/stripesong/engine"
	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/unsaved"
)

// keeping is where a page's unsaved work is kept, and what was left of it
// before. It is for use under the storage's lock.
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
	stem, places := folder.Name(s.stem()+" unsaved"), w.places(s, of.File)
	k := &keeping{keeper: unsaved.New(of, stem, places), left: map[int]*unsaved.Found{}}
	found, inUse := unsaved.Find(of, stem, places)
	for i, f := range found {
		k.left[i+1], k.order = f, append(k.order, i+1)
	}
	k.inUse = inUse
	return k
}

// found says what earlier pages left, for the page.
func (k *keeping) found() []engine.Left {
	var all []engine.Left
	for _, id := range k.order {
		if f, open := k.left[id]; open {
			says := "left unsaved on " + moment(f.When) + ", kept in " + screen.Visible(f.Shown)
			if f.Changed {
				says += "; the brief has been changed since it was begun"
			}
			all = append(all, engine.Left{ID: id, Says: says, Text: f.Text})
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
		fmt.Fprintf(&b, "another page is at work on this brief; what it has not saved is in %s\n",
			screen.Visible(name))
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
