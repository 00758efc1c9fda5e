package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/plan"
)

// largestFile is what the largest file of a set of six takes, in bytes.
const largestFile = 320 << 10

// writeFolder writes all files of a brief's plan into a folder, whole or not at all; kept
// is what was saved into the folder meanwhile, as [whole.Folder] gives it. Last is
// done when the files are ready and before they take their place, unless it is nil:
// if it fails, so does everything, and if what follows fails it is undone.
func writeFolder(ctx context.Context, s *source, dir string, p *plan.Plan, shown *progress,
	last step) (kept []string, err error) {
	if dir == "-" {
		return nil, notAFolder()
	}
	undo := func() {}
	kept, err = whole.Folder(dir, s.seenFrom(dir), func(put whole.Put) error {
		if err := putProducts(ctx, p, shown, put); err != nil {
			return err
		}
		if err := ctx.Err(); err != nil || last == nil {
			return err
		}
		undo, err = last()
		return err
	})
	if err != nil {
		undo()
	}
	return kept, explainFolder(dir, err)
}

// seenFrom is what a plan's folder says it was made from: the brief, as it is found
// from the place of the folder.
func (s *source) seenFrom(dir string) string {
	switch {
	case s.builtIn():
		return s.name
	case !s.fromFile():
		return "standard input"
	}
	place, err := filepath.Rel(wholePath(filepath.Dir(filepath.Clean(dir))), wholePath(s.name))
	if err != nil {
		return filepath.Base(s.name)
	}
	return filepath.ToSlash(place)
}

// replaces is the brief whose plan a plan's folder takes the place of, if that is
// another one than this; "" otherwise.
func (s *source) replaces(dir string) string {
	if from := whole.From(dir); from != s.seenFrom(dir) {
		return from
	}
	return ""
}

// step is something done that can be undone again; undo is never nil.
type step func() (undo func(), err error)

func putProducts(ctx context.Context, p *plan.Plan, shown *progress, put whole.Put) error {
	var buffer bytes.Buffer
	buffer.Grow(largestFile) // growing step by step takes thrice the memory
	for _, file := range folder.Files(p) {
		if err := ctx.Err(); err != nil {
			return err
		}
		shown.stage("drawing " + file.Name)
		buffer.Reset()
		if err := file.Write(&buffer, p); err != nil {
			return fmt.Errorf("%s: %w", file.Name, err)
		}
		if err := put(file.Name, buffer.Bytes()); err != nil {
			return err
		}
	}
	return nil
}

func explainFolder(dir string, err error) error {
	if err == nil || interrupted(err) != err {
		return interrupted(err)
	}
	if m := (mistake{}); errors.As(err, &m) {
		return err
	}
	if inside := (&whole.InsideError{}); errors.As(err, &inside) {
		return insidePlan(dir, "--out DIR", inside)
	}
	return mistake{what: fmt.Sprintf("can't write the folder %q: %s", dir, plainly(err)),
		cause: err,
		hint:  "name another with --out DIR; nothing was changed"}
}

// tellKept names what somebody saved into a folder while it was written, and where
// each of these is now.
func (w *world) tellKept(kept []string) {
	for _, path := range kept {
		fmt.Fprintf(w.err, "stripesong: saved into the folder while it was written, and kept: %s\n",
			screen.Visible(shortPath(path)))
	}
}

// shortPath is a path from the folder one is in where it lies in that.
func shortPath(path string) string {
	here, err := os.Getwd()
	if err != nil {
		return path
	}
	if rel, err := filepath.Rel(here, path); err == nil && filepath.IsLocal(rel) {
		return rel
	}
	return path
}
