package main

import (
	"errors"
	"io"
	"io/fs"
	"path/filepath"

	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
)

// stdinName is what messages call a brief that comes through a pipe.
const stdinName = "standard input"

// source is where a brief comes from.
type source struct {
	origin
	name string // in messages
	dir  string // where its shelf file is looked for
	text []byte
}

// origin is what a brief comes from. A name says nothing of it: a file may be
// called anything.
type origin int

const (
	fromFile origin = iota
	fromPipe
	fromProgram
)

// builtIn tells whether it is the brief that comes with the program.
func (o origin) builtIn() bool { return o == fromProgram }

// piped tells whether it came through a pipe.
func (o origin) piped() bool { return o == fromPipe }

// fromFile tells whether the brief came from a file it can go back to.
func (o origin) fromFile() bool { return o == fromFile }

// open reads the brief an operand names: a file, "-" for stdin, or "" for the
// one that comes with the program.
func (w *world) open(operand string) (*source, error) {
	switch operand {
	case "":
		return &source{origin: fromProgram, name: brief.DefaultName, text: brief.Default()}, nil
	case "-":
		if w.piped == nil {
			text, err := readAll(w.in)
			if err != nil {
				return nil, err
			}
			w.piped = &source{origin: fromPipe, name: stdinName, text: text}
		}
		return w.piped, nil
	}
	text, err := readFile(operand)
	if err != nil {
		return nil, unreadable(operand,
			"\"stripesong new FILE\" writes a commented brief to start from", err)
	}
	return &source{name: operand, dir: filepath.Dir(operand), text: text}, nil
}

// parse reads the brief, with what flags put in place of its values.
func (s *source) parse(set []brief.Override) (*brief.Brief, error) {
	b, err := brief.Parse(s.name, s.text, brief.Options{Shelf: s.shelf, Set: set})
	if err == nil {
		settleFor(b)
	}
	return b, s.named(err)
}

// stillBrief checks that a text which is to be written in the place of this one
// is a brief.
func (s *source) stillBrief(text []byte) error {
	changed := *s
	changed.text = text
	_, err := changed.parse(nil)
	return err
}

// named gives a problem without a place, such as a key that is missing
// altogether, the name of the brief it is missing from.
func (s *source) named(err error) error {
	var problems brief.Problems
	if errors.As(err, &problems) {
		for i := range problems {
			if problems[i].File == "" {
				problems[i].File = s.name
			}
		}
	}
	return err
}

// shelf reads the file a brief names as its shelf. Briefs come from strangers,
// so it has to lie beside the brief or in a folder there.
func (s *source) shelf(name string) ([]byte, error) {
	if !filepath.IsLocal(name) {
		return nil, errors.New("it does not lie beside the brief")
	}
	text, err := readFile(filepath.Join(s.dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, errors.New("there is no such file")
	}
	return text, err
}

func readFile(path string) ([]byte, error) { return whole.Read(path, brief.MaxBytes+1) }

// readAll reads a little more than a brief may hold, for its reader to refuse.
func readAll(r io.Reader) ([]byte, error) { return io.ReadAll(io.LimitReader(r, brief.MaxBytes+1)) }
