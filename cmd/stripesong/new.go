package main

import (
	"fmt"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
)

var newCommand = &command{
	name:    "new",
	operand: "FILE",
	fewest:  1,
	lacking: "name the file to write",
	line:    "write a commented brief to start from",
	about: `Writes the built-in brief with every key explained, for you to change in
any plain text editor. Then run: stripesong plan FILE. It never overwrites a file.
With - for FILE the brief is printed.`,
	example: example{"stripesong new towels.toml --units in", "a brief in inches"},
	exits:   [3]string{"the file was written", "", "the file exists, or can't be written"},
	prepare: func(f *flags) work {
		n := &beginning{units: unitsValue()}
		f.group("Flags", "")
		f.add("units", "a brief in centimetres (default) or in inches", &n.units)
		return n.run
	},
}

// beginning is one run of new.
type beginning struct{ units value }

func (n *beginning) run(w *world, path string) error {
	text := brief.DefaultIn(n.units.text)
	if path == "-" {
		_, err := w.out.Write(text)
		return err
	}
	if err := createText(path, `"stripesong new FILE"`, text); err != nil {
		return err
	}
	fmt.Fprintf(w.out, "wrote %s; change what you like, then: stripesong plan %s\n",
		screen.Visible(path), screen.Visible(path))
	return nil
}
