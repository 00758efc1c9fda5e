package svg

import (
	"bytes"
	"io"
)

// Inline is a drawing as it stands inside a page: without the XML declaration.
func Inline(draw func(io.Writer) error) (string, error) {
	var b bytes.Buffer
	if err := draw(&b); err != nil {
		return "", err
	}
	return string(b.Bytes()[max(bytes.Index(b.Bytes(), []byte("<svg")), 0):]), nil
}

// Visible is a text as drawings show it: control characters as their pictures,
// what would turn or hide other text as U+FFFD. It is not escaped.
func Visible(s string) string { return visible(s) }
