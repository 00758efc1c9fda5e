package tomltext

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
)

// Document is one TOML text, read. Offsets count its bytes from 0, without a
// byte order mark.
type Document struct {
	Name  string // what messages call it
	Root  *Node  // the table of all keys
	Loose bool   // a value by itself, from [ParseValue], in which places mean nothing

	mark    []byte // the byte order mark, or none
	text    []byte
	entries []entry
}

// entry is a heading, or an assignment that stands on lines of its own.
type entry struct {
	node    *Node // the table of the heading, or the value
	at      Span
	heading bool
}

// Span is the bytes of a document from From up to, without, To.
type Span struct{ From, To int }

// Place is where in a document something stands, for messages.
type Place struct {
	Name      string // of the document
	Line, Col int    // from 1, Col in characters; 0 where there is no place
	Text      string // the line, without its end
}

// Error is why a text is not TOML.
type Error struct {
	Place
	Key  string // the key it is about, dotted; "" where that is not known
	What string
}

// Error is "name:line:col: what", as far as these are known.
func (e *Error) Error() string {
	if e.Line == 0 {
		return e.What
	}
	return fmt.Sprintf("%s:%d:%d: %s", e.Name, e.Line, e.Col, e.What)
}

// NotUTF8 is what [Error] says of a text in another encoding.
const NotUTF8 = "this is not UTF-8 text"

var byteOrderMark = []byte("\xef\xbb\xbf")

// Parse reads a TOML text, which it keeps. The error, if any, is of type
// [*Error].
func Parse(name string, text []byte) (*Document, error) {
	body := bytes.TrimPrefix(text, byteOrderMark)
	d := &Document{Name: name, mark: text[:len(text)-len(body)], text: body}
	return d, d.read()
}

// ParseValue reads a single value, written as TOML has it, that stands in no
// file. The error, if any, is of type [*Error].
func ParseValue(name, value string) (*Node, error) {
	const key = "x = "
	d := &Document{Name: name, Loose: true, text: []byte(key + value)}
	if err := d.read(); err != nil {
		return nil, err
	}
	n := d.Root.Table["x"]
	if n.line.To != len(d.text) {
		return nil, &Error{Place: d.Place(0), What: fmt.Sprintf("%q is more than one value", value)}
	}
	return n, nil
}

// read parses the text three times with go-toml: once to count the keys, once to refuse
// what is not TOML (keys given twice and such), once for the places.
func (d *Document) read() error {
	if at := badByte(d.text); at >= 0 {
		return &Error{Place: d.Place(at), What: NotUTF8}
	}
	if at := d.crowded(); at >= 0 {
		return &Error{Place: d.Place(at), What: Crowded}
	}
	var values map[string]any
	if err := toml.Unmarshal(d.text, &values); err != nil {
		return d.refusal(err)
	}
	if err := d.build(); err != nil {
		return d.refusal(err)
	}
	return nil
}

// badByte is the first byte that is not UTF-8; -1 where all are.
func badByte(text []byte) int {
	if utf8.Valid(text) {
		return -1
	}
	at := 0
	for {
		r, n := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && n == 1 {
			return at
		}
		at += n
	}
}

// refusal is an error of go-toml's as one of ours.
func (d *Document) refusal(err error) *Error {
	var decode *toml.DecodeError
	if !errors.As(err, &decode) {
		return &Error{Place: Place{Name: d.Name}, What: err.Error()}
	}
	return &Error{
		Place: d.Place(d.offset(decode.Position())),
		Key:   strings.Join(decode.Key(), "."),
		What:  strings.TrimPrefix(decode.Error(), "toml: "),
	}
}

// offset is the byte at a line and column as go-toml counts them, both from 1
// and columns in bytes.
func (d *Document) offset(line, col int) int {
	at := 0
	for ; line > 1; line-- {
		at = d.lineTo(at)
	}
	return min(at+max(col-1, 0), len(d.text))
}

// Place is where a byte stands.
func (d *Document) Place(at int) Place {
	if d.Loose {
		return Place{Name: d.Name}
	}
	at = min(at, len(d.text))
	for at > 0 && at < len(d.text) && !utf8.RuneStart(d.text[at]) {
		at-- // go-toml may point into a character
	}
	from := d.lineFrom(at)
	return Place{
		Name: d.Name,
		Line: 1 + bytes.Count(d.text[:at], []byte("\n")),
		Col:  1 + utf8.RuneCount(d.text[from:at]),
		Text: strings.TrimRight(string(d.text[from:d.lineTo(at)]), "\r\n"),
	}
}

// Bytes is the text, byte order mark included.
func (d *Document) Bytes() []byte { return append(bytes.Clone(d.mark), d.text...) }

// lineFrom is the first byte of the line a byte stands in.
func (d *Document) lineFrom(at int) int { return bytes.LastIndexByte(d.text[:at], '\n') + 1 }

// lineTo is the byte after the line a byte stands in, its end included.
func (d *Document) lineTo(at int) int {
	if i := bytes.IndexByte(d.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(d.text)
}

// lineEnd is how the text ends its lines, as its first line has it.
func (d *Document) lineEnd() string {
	if i := bytes.IndexByte(d.text, '\n'); i > 0 && d.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}
