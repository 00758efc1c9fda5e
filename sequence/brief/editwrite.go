package brief

import (
	"bytes"
	"fmt"
	"strings"
)

// addBelow writes a new key into the table base by its dotted way from there,
// beside those of at.
func (e editor) addBelow(base, at *node, way []step, value string) ([]byte, error) {
	key, err := dottedKey(way)
	switch {
	case err != nil:
		return nil, err
	case e.inline(base):
		return e.addInline(base, key, value), nil
	case base != e.doc.root && base.line.to == 0:
		return nil, fmt.Errorf("%q has no place: it would stand in a table of a list", key)
	}
	return e.add(at, key, value)
}

// dottedKey is steps as one key.
func dottedKey(way []step) (string, error) {
	names := make([]string, len(way))
	for i, s := range way {
		if names[i] = keyText(s.name); s.index >= 0 {
			return "", fmt.Errorf("%s[%d] has no place: there is no [[%s]] yet", s.name, s.index, s.name)
		}
	}
	return strings.Join(names, "."), nil
}

// keyText is a key as it is written: in quotes where it has to be.
func keyText(name string) string {
	if name == "" || strings.Trim(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-") != "" {
		return Quote(name)
	}
	return name
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
	if value == "" {
		return e.doc.text
	}
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

// newTable writes a table that is not there at the end of the text, or one more
// of a list of tables. The way to it is there up to the step known.
func (e editor) newTable(path []step, known int, value string) ([]byte, error) {
	if value == "" {
		return e.doc.text, nil
	}
	split, brackets := len(path)-1, [2]string{"[", "]"}
	for i, s := range path[:split] {
		if i > known && s.index > 0 {
			return nil, fmt.Errorf("%s[%d] has no place: there is no [[%s]] yet", s.name, s.index, s.name)
		}
		if s.index >= 0 {
			split, brackets = i+1, [2]string{"[[", "]]"}
			break
		}
	}
	heading := make([]string, split)
	for i, s := range path[:split] {
		heading[i] = keyText(s.name)
	}
	key, err := dottedKey(path[split:])
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	if n := len(e.doc.text); n > 0 && e.doc.text[n-1] != '\n' {
		b.WriteString(e.end)
	}
	fmt.Fprintf(&b, "%s%s%s%s%s%s = %s%s", e.end, brackets[0], strings.Join(heading, "."), brackets[1], e.end, key, value, e.end)
	return e.splice(len(e.doc.text), len(e.doc.text), b.String()), nil
}
