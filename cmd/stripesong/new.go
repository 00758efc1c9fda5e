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
	prepare: func(*flags) work { return writeNew },
}

func writeNew(w *world, path string) error {
	if path == "-" {
		_, err := w.out.Write(brief.Default())
		return err
	}
	if err := createText(path, `"stripesong new FILE"`, brief.Default()); err != nil {
		return err
	}
	fmt.Fprintf(w.out, "wrote %s; change what you like, then: stripesong plan %s\n", screen.Visible(path), screen.Visible(path))
	return nil
}
