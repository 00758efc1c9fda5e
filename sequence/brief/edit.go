package brief

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Change is one value to set in a brief's text.
type Change struct {
	Key   string // dotted; "piece[2].runs" for one of [[piece]], from 0; one past the last makes a new one
	Value string // as TOML would have it; "" takes the key away
}

// Edit sets values in a brief and leaves every other byte as it is: comments,
// order, line ends, a byte order mark. A key that is not there is added below
// the last of its table, a table that is not there at the end. The result is
// TOML again, or an error.
func Edit(name string, text []byte, changes []Change) ([]byte, error) {
	for _, c := range changes {
		edited, err := edit(name, text, c)
		if err != nil {
			return nil, err
		}
		text = edited
	}
	if _, err := read(name, text); err != nil {
		return nil, fmt.Errorf("the change would leave no TOML: %w", err)
	}
	return text, nil
}

func edit(name string, text []byte, c Change) ([]byte, error) {
	doc, err := read(name, text)
	if err != nil {
		return nil, err
	}
	if err := oneValue(c); err != nil {
		return nil, err
	}
	mark := text[:len(text)-len(doc.text)]
	e := editor{doc: doc, end: lineEnd(doc.text)}
	c.Value = strings.ReplaceAll(strings.ReplaceAll(strings.TrimSpace(c.Value), "\r\n", "\n"), "\n", e.end)
	edited, err := e.apply(c)
	if err != nil {
		return nil, err
	}
	return append(append([]byte{}, mark...), edited...), nil
}

// oneValue refuses what is more, or less, than one value: a comment, another
// key.
func oneValue(c Change) error {
	const key = "x = "
	if c.Value == "" {
		return nil
	}
	doc, err := read("", []byte(key+c.Value))
	if err != nil {
		return fmt.Errorf("%q is no value for %s: %w", c.Value, c.Key, err)
	}
	if len(doc.root.keys) != 1 || doc.root.table["x"].line.to != len(key+c.Value) {
		return fmt.Errorf("%q is more than a value for %s", c.Value, c.Key)
	}
	return nil
}

type editor struct {
	doc *document
	end string // "\n" or "\r\n"
}

func lineEnd(text []byte) string {
	if i := bytes.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// step is one part of a key: a name and, of a list of tables, which.
type step struct {
	name  string
	index int // -1 for no list
}

func steps(key string) ([]step, error) {
	if !utf8.ValidString(key) {
		return nil, fmt.Errorf("%q is not a key", key)
	}
	var all []step
	for _, part := range strings.Split(key, ".") {
		name, rest, list := strings.Cut(part, "[")
		s := step{name: name, index: -1}
		if list {
			n, err := strconv.Atoi(strings.TrimSuffix(rest, "]"))
			if err != nil || strconv.Itoa(n)+"]" != rest || n < 0 {
				return nil, fmt.Errorf("%q is not a key", key)
			}
			s.index = n
		}
		all = append(all, s)
	}
	if all[len(all)-1].index >= 0 {
		return nil, fmt.Errorf("%q is not a key", key)
	}
	return all, nil
}

func (e editor) apply(c Change) ([]byte, error) {
	path, err := steps(c.Key)
	if err != nil {
		return nil, err
	}
	at, last := e.doc.root, path[len(path)-1]
	base, listed := at, false // the table that is written as one; whether it is one of a list
	from := 0                 // where the way on from it begins
	for i, s := range path[:len(path)-1] {
		next, err := at.to(s)
		if err != nil {
			return nil, fmt.Errorf("%q has no place: %w", c.Key, err)
		}
		if next == nil {
			if listed || at != base || e.inline(base) {
				return e.addBelow(base, at, path[from:], c.Value)
			}
			return e.newTable(path, i, c.Value)
		}
		at, listed = next, listed || s.index >= 0
		if at.form != dotted {
			base, from = at, i+1
		}
	}
	switch found := at.table[last.name]; {
	case found != nil:
		return e.replace(found, c.Value)
	case at.form == implied && listed:
		return nil, fmt.Errorf("%q has no place: its table has no heading of its own", c.Key)
	case at.form == implied:
		return e.newTable(path, len(path), c.Value)
	}
	return e.addBelow(base, at, path[from:], c.Value)
}

// to is the table a step leads to; nil where there is none yet.
func (n *node) to(s step) (*node, error) {
	next := n.table[s.name]
	switch {
	case next == nil && s.index > 0:
		return nil, fmt.Errorf("there is no [[%s]] yet", s.name)
	case next == nil:
		return nil, nil
	case s.index >= 0 && (next.kind != arrayKind || s.index > len(next.items)):
		return nil, fmt.Errorf("it would be number %d of %d", s.index+1, len(next.items))
	case s.index >= 0 && s.index == len(next.items):
		return nil, nil
	case s.index >= 0:
		next = next.items[s.index]
	}
	if next.kind != tableKind {
		return nil, fmt.Errorf("%q is %s", s.name, next.kind)
	}
	return next, nil
}
