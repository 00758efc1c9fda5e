package brief

import (
	"errors"
	"fmt"
	"strings"

	"stripesong/sequence/brief/tomltext"
)

// read parses a text of no more than is worked on. The error, if any, is of type
// [Problems].
func read(name string, text []byte) (*tomltext.Document, error) {
	if err := checkSize(name, text); err != nil {
		return nil, err
	}
	doc, err := tomltext.Parse(name, text)
	var wrong *tomltext.Error
	if errors.As(err, &wrong) {
		what, hint := inPlainWords(wrong, text)
		return nil, Problems{problem(whereOf(wrong, text), wrong.Key, what, hint)}
	}
	return doc, nil
}

// Change is one value to set in a brief's text.
type Change struct {
	Key string `json:"key"` // a path of package tomltext: "set.width", "piece[2].runs"
	// as TOML would have it; "" takes the key away, "# ..." is a comment
	Value string `json:"value"`
}

// asComment is the value that makes a comment of a key.
const asComment = "#"

// AsComment is a change after which a key is only a comment.
func AsComment(key string) Change { return Change{Key: key, Value: asComment} }

// Remark is a change that puts a comment above a key.
func Remark(key, comment string) Change { return Change{Key: key, Value: "# " + comment} }

// on makes the change.
func (c Change) on(doc *tomltext.Document) (*tomltext.Document, error) {
	if comment, ok := strings.CutPrefix(c.Value, "# "); ok {
		return doc.Remark(c.Key, comment)
	}
	if c.Value == asComment {
		return doc.CommentOut(c.Key)
	}
	return doc.Set(c.Key, c.Value)
}

// Text is a change that gives a key a text.
func Text(key, value string) Change { return Change{Key: key, Value: tomltext.Quote(value)} }

// Edit sets values in a brief, one after the other, and leaves every other byte
// as it is: see [tomltext.Document.Set].
func Edit(name string, text []byte, changes []Change) ([]byte, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	for _, c := range changes {
		if doc, err = c.on(doc); err != nil {
			return nil, err
		}
	}
	text = doc.Bytes()
	return text, checkSize(name, text)
}

// Shorten takes the [[piece]] tables from number n, counted from 0, out of a
// brief's text, with the comment lines that stand right above their headings.
func Shorten(name string, text []byte, n int) ([]byte, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	for doc.Root.Find(fmt.Sprintf("piece[%d]", n)) != nil {
		pieces := doc.Root.Table["piece"].Items
		if doc, err = doc.Drop(fmt.Sprintf("piece[%d]", len(pieces)-1)); err != nil {
			return nil, err
		}
	}
	return doc.Bytes(), nil
}
