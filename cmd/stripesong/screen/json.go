package screen

import (
	"bytes"
	"fmt"
	"io"
	"unicode/utf16"

	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/plan"
)

// WriteJSON writes an answer, whatever steers a terminal or hides text as JSON's
// own escapes, which mean the same to a program. JSON itself escapes only
// controls below space.
func WriteJSON[T any](w io.Writer, answer T) error {
	text, err := plan.JSON(answer)
	if err != nil {
		return err
	}
	_, err = w.Write(PlainJSON(text))
	return err
}

// PlainJSON is JSON with whatever steers escaped.
func PlainJSON(text []byte) []byte {
	if plainASCII(text) {
		return text
	}
	var b bytes.Buffer
	for _, r := range string(text) {
		if r == '\n' || !tomltext.Steers(r) { // the lines are JSON's own
			b.WriteRune(r)
			continue
		}
		for _, unit := range utf16.AppendRune(nil, r) {
			fmt.Fprintf(&b, `\u%04x`, unit)
		}
	}
	return b.Bytes()
}

func plainASCII(text []byte) bool {
	for _, c := range text {
		if c >= 0x7f {
			return false
		}
	}
	return true
}

// PlainWriter writes JSON as [WriteJSON] does, part by part; a part ends where a
// character does.
type PlainWriter struct{ To io.Writer }

func (p PlainWriter) Write(text []byte) (int, error) {
	if _, err := p.To.Write(PlainJSON(text)); err != nil {
		return 0, err
	}
	return len(text), nil
}
