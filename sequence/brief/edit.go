package brief

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
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
	mark := text[:len(text)-len(doc.text)]
	e := editor{doc: doc, end: lineEnd(doc.text)}
	c.Value = strings.ReplaceAll(strings.ReplaceAll(c.Value, "\r\n", "\n"), "\n", e.end)
	edited, err := e.apply(c)
	if err != nil {
		return nil, err
	}
	return append(append([]byte{}, mark...), edited...), nil
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
	var all []step
	for _, part := range strings.Split(key, ".") {
		name, rest, list := strings.Cut(part, "[")
		s := step{name: name, index: -1}
		if list {
			n, err := strconv.Atoi(strings.TrimSuffix(rest, "]"))
			if err != nil || n < 0 {
				return nil, fmt.Errorf("%q is not a key", key)
			}
			s.index = n
		}
		all = append(all, s)
	}
	return all, nil
}

func (e editor) apply(c Change) ([]byte, error) {
	path, err := steps(c.Key)
	if err != nil {
		return nil, err
	}
	at, last := e.doc.root, path[len(path)-1]
	for i, s := range path[:len(path)-1] {
		next := at.table[s.name]
		if next != nil && s.index >= 0 {
			switch {
			case next.kind != arrayKind || s.index > len(next.items):
				return nil, fmt.Errorf("%q has no place: it would be number %d of %d", c.Key, s.index+1, len(next.items))
			case s.index == len(next.items):
				next = nil
			default:
				next = next.items[s.index]
			}
		}
		if next == nil && s.index > 0 && at.table[s.name] == nil {
			return nil, fmt.Errorf("%q has no place: there is no [[%s]] yet", c.Key, s.name)
		}
		if next == nil {
			return e.newTable(path[:i+1], path[i+1:], c.Value)
		}
		at = next
	}
	if found := at.table[last.name]; found != nil {
		return e.replace(found, c.Value)
	}
	return e.add(at, last.name, c.Value)
}

func (e editor) splice(from, to int, with string) []byte {
	out := append([]byte{}, e.doc.text[:from]...)
	out = append(out, with...)
	return append(out, e.doc.text[to:]...)
}

// replace puts another value in place of one, or takes its whole line away.
func (e editor) replace(n *node, value string) ([]byte, error) {
	if n.line.to <= n.key.to {
		return nil, fmt.Errorf("%q is a table with a heading of its own and can't be replaced", e.doc.text[n.key.from:n.key.to])
	}
	if value != "" {
		return e.splice(n.value.from, n.value.to, value), nil
	}
	text := e.doc.text
	from := bytes.LastIndexByte(text[:n.line.from], '\n') + 1
	to := len(text)
	if i := bytes.IndexByte(text[n.line.to:], '\n'); i >= 0 {
		to = n.line.to + i + 1
	}
	if strings.TrimSpace(string(text[from:n.line.from])) != "" {
		return nil, fmt.Errorf("%q stands inside another value and can't be taken away", e.doc.text[n.key.from:n.key.to])
	}
	return e.splice(from, to, ""), nil
}

// add writes a new key below the last assignment of its table.
func (e editor) add(table *node, key, value string) ([]byte, error) {
	if value == "" {
		return e.doc.text, nil
	}
	if e.inline(table) {
		return e.addInline(table, key, value), nil
	}
	at := e.endOfTable(table)
	line := key + " = " + value + e.end
	if at > 0 && e.doc.text[at-1] != '\n' {
		line = e.end + strings.TrimSuffix(line, e.end)
	}
	return e.splice(at, at, line), nil
}

// inline tells whether a table is written as { ... }.
func (e editor) inline(table *node) bool { return table != e.doc.root && table.line.to > table.key.to }

func (e editor) addInline(table *node, key, value string) []byte {
	at := table.line.to - 1 // the closing brace
	for e.doc.text[at-1] == ' ' || e.doc.text[at-1] == '\t' {
		at--
	}
	comma := ", "
	if len(table.keys) == 0 {
		comma = " "
	}
	return e.splice(at, at, comma+key+" = "+value)
}

// endOfTable is the byte after the line of a table's heading or last
// assignment, whichever is later. Of the root it is before the first heading.
func (e editor) endOfTable(table *node) int {
	end := 0
	if table != e.doc.root {
		end = table.key.to
	}
	for _, key := range table.keys {
		if n := table.table[key]; n.line.to > n.key.to {
			end = max(end, n.line.to)
		}
	}
	if end == 0 {
		return 0
	}
	if i := bytes.IndexByte(e.doc.text[end:], '\n'); i >= 0 {
		return end + i + 1
	}
	return len(e.doc.text)
}

// newTable writes a table that is not there at the end of the text.
func (e editor) newTable(table, rest []step, value string) ([]byte, error) {
	if value == "" {
		return e.doc.text, nil
	}
	var heading, key []string
	brackets := [2]string{"[", "]"}
	for _, s := range append(append([]step{}, table...), rest[:len(rest)-1]...) {
		heading = append(heading, s.name)
		if s.index >= 0 {
			brackets = [2]string{"[[", "]]"}
		}
	}
	key = append(key, rest[len(rest)-1].name)
	var b strings.Builder
	if n := len(e.doc.text); n > 0 && e.doc.text[n-1] != '\n' {
		b.WriteString(e.end)
	}
	fmt.Fprintf(&b, "%s%s%s%s%s%s = %s%s", e.end, brackets[0], strings.Join(heading, "."), brackets[1], e.end, strings.Join(key, "."), value, e.end)
	return e.splice(len(e.doc.text), len(e.doc.text), b.String()), nil
}
