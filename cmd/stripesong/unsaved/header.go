package unsaved

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strconv"
	"strings"
)

// header is the first line of a file of unsaved work.
type header struct {
	file string // the brief's: its name beside it, elsewhere its whole path; "" for none
	name string // what messages call a brief that came from no file
	base string // the sum of the text the work began with, in hexadecimal
}

const (
	headerStart = "# stripesong: unsaved work on "
	headerEnd   = `; "stripesong page" offers it when it opens the brief again`
)

var byteOrderMark = []byte("\xef\xbb\xbf")

// Sum is what a text is known by, in hexadecimal.
func Sum(text []byte) string {
	s := sha256.Sum256(text)
	return hex.EncodeToString(s[:])
}

func (h header) line() string {
	what := strconv.QuoteToASCII(h.name)
	if h.file != "" {
		what = "the file " + strconv.QuoteToASCII(h.file)
	}
	return fmt.Sprintf("%s%s, begun with %s%s", headerStart, what, h.base, headerEnd)
}

// put is a text with the line before it; a byte order mark stays in front.
func (h header) put(text []byte) []byte {
	rest, marked := bytes.CutPrefix(text, byteOrderMark)
	var out []byte
	if marked {
		out = append(out, byteOrderMark...)
	}
	out = append(out, h.line()...)
	if i := bytes.IndexByte(rest, '\n'); i > 0 && rest[i-1] == '\r' {
		out = append(out, '\r')
	}
	out = append(out, '\n')
	return append(out, rest...)
}

// split takes a file apart again; ok is false where it is none of ours.
func split(data []byte) (h header, text []byte, ok bool) {
	rest, marked := bytes.CutPrefix(data, byteOrderMark)
	first, text, found := bytes.Cut(rest, []byte("\n"))
	line := strings.TrimSuffix(string(first), "\r")
	what, began := strings.CutPrefix(line, headerStart)
	what, ended := strings.CutSuffix(what, headerEnd)
	if !found || !began || !ended {
		return header{}, nil, false
	}
	if marked {
		text = append(bytes.Clone(byteOrderMark), text...)
	}
	what, isFile := strings.CutPrefix(what, "the file ")
	quoted, err := strconv.QuotedPrefix(what)
	if err != nil {
		return header{}, nil, false
	}
	name, err := strconv.Unquote(quoted)
	base, ok := strings.CutPrefix(what[len(quoted):], ", begun with ")
	if err != nil || !ok || len(base) != 2*sha256.Size {
		return header{}, nil, false
	}
	if isFile {
		return header{file: name, base: base}, text, name != ""
	}
	return header{name: name, base: base}, text, true
}
