package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"stripesong/cmd/stripesong/whole"
	"stripesong/svg"
)

// writeDrawing writes a drawing whole, where flag names the file: a new one, or in
// place of a drawing of the same command that nobody has changed since, which the
// drawing itself tells.
func writeDrawing(path, flag, by string, draw func(io.Writer) error) error {
	var buffer bytes.Buffer
	if err := draw(&buffer); err != nil {
		return err
	}
	return putDrawing(path, flag, by, buffer.Bytes())
}

func putDrawing(path, flag, by string, drawn []byte) error {
	if path == "-" {
		return notAFile(flag)
	}
	if err := whole.Inside(path); err != nil {
		return unwritable(path, flag, err)
	}
	sealed := svg.Sealed(by, drawn)
	if was, ok := readDrawing(path, by); ok {
		return unwritable(path, flag, whole.Rewrite(path, was, sealed))
	}
	err := whole.Create(path, sealed)
	if errors.Is(err, fs.ErrExist) {
		is := fmt.Sprintf("it is no drawing of \"stripesong %s\", or was edited since, and", by)
		return existsAlready(path, flag, is, err)
	}
	return unwritable(path, flag, err)
}

// mostDrawing is more than any drawing takes, in bytes; what is larger is none.
const mostDrawing = 64 << 20

// readDrawing reads a drawing that is as a command of this program wrote it; ok is false
// where it is none.
func readDrawing(path, by string) (drawn []byte, ok bool) {
	info, err := os.Stat(path)
	if err != nil || !info.Mode().IsRegular() || info.Size() > mostDrawing {
		return nil, false
	}
	drawn, err = os.ReadFile(path)
	return drawn, err == nil && svg.IsSealed(by, drawn)
}
