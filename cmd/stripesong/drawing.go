package main

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"

	"stripesong/cmd/stripesong/whole"
	"stripesong/svg"
)

// writeDrawing writes a drawing whole, where flag names the file: a new one, or in
// place of a drawing of this program that nobody has changed since, which the
// drawing itself tells.
func writeDrawing(path, flag string, draw func(io.Writer) error) error {
	var buffer bytes.Buffer
	if err := draw(&buffer); err != nil {
		return err
	}
	return putDrawing(path, flag, buffer.Bytes())
}

func putDrawing(path, flag string, drawn []byte) error {
	if path == "-" {
		return notAFile(flag)
	}
	if err := whole.Inside(path); err != nil {
		return unwritable(path, flag, err)
	}
	sealed := svg.Sealed(drawn)
	if was, ok := readDrawing(path); ok {
		return unwritable(path, flag, whole.Rewrite(path, was, sealed))
	}
	err := whole.Create(path, sealed)
	if errors.Is(err, fs.ErrExist) {
		const is = "it is no drawing of this program, or was edited since, and"
		return existsAlready(path, flag, is, err)
	}
	return unwritable(path, flag, err)
}

// mostDrawing is more than any drawing takes, in bytes; what is larger is none.
const mostDrawing = 64 << 20

// readDrawing reads a drawing that is as this program wrote it; ok is false where
// it is none.
func readDrawing(path string) (drawn []byte, ok bool) {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > mostDrawing {
		return nil, false
	}
	drawn, err = os.ReadFile(path)
	return drawn, err == nil && svg.IsSealed(drawn)
}
