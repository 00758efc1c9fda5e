package svg

import (
	"bufio"
	"bytes"
	"io"
)

// Inliner makes drawings that stand inside a page, without the XML
// declaration. Its zero value is ready; it keeps its buffers from one drawing
// to the next.
type Inliner struct {
	drawn bytes.Buffer
	out   *bufio.Writer
}

// Draw is one drawing as text, from its <svg> on; the error is the drawing's own.
func (i *Inliner) Draw(draw func(io.Writer) error) (string, error) {
	if i.out == nil {
		i.out = bufio.NewWriterSize(&i.drawn, penBuffer) // which a pen takes as its own
	}
	i.drawn.Reset()
	i.out.Reset(&i.drawn)
	if err := draw(i.out); err != nil {
		return "", err
	}
	if err := i.out.Flush(); err != nil {
		return "", err
	}
	return string(i.drawn.Bytes()[max(bytes.Index(i.drawn.Bytes(), []byte("<svg")), 0):]), nil
}

// penBuffer is the size of a pen's buffer.
const penBuffer = 1 << 15

// Visible is a text as drawings show it, as [tomltext.Visible] gives it. It is not
// escaped.
func Visible(s string) string { return visible(s) }
