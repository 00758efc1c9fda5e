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
	about: `Writes the brief that comes with the program, every key explained, for you to
change. It never writes over an existing file. With - it goes to standard output.`,
	examples: []example{
		{"stripesong new towels.toml", "then change it in any editor, and: stripesong plan towels.toml"},
	},
	exits: [3]string{
		"the file was written",
		"",
		"the file exists already, or it could not be written",
	},
	prepare: func(f *flags) work {
		n := &beginning{units: unitsValue()}
		f.group("Flags", "")
		f.add("units", "in: sizes, setts, yarns and reed as where inches are used", &n.units)
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
	fmt.Fprintf(w.out, "wrote %s; change what you like, then: stripesong plan %s\n", screen.Visible(path), screen.Visible(path))
	return nil
}
