package workbench

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// layout is where things stand in a brief's text: what [brief.Edit] does not
// tell, for changes that move whole tables or rename a colour.
type layout struct {
	text  []byte
	lines []line
}

// line is a heading or an assignment.
type line struct {
	path     string // dotted, "piece[2].runs"
	heading  bool
	from, to int // whole lines, the end of the last one included
	texts    []text
	numbers  []text // and true and false
}

// text is a quoted text inside an assignment's value.
type text struct {
	path     string
	from, to int // quotes included
	value    string
}

var byteOrderMark = []byte("\xef\xbb\xbf")

// layOut reads a text that is TOML.
func layOut(all []byte) (*layout, error) {
	mark := len(all) - len(bytes.TrimPrefix(all, byteOrderMark))
	l := &layout{text: all}
	var parser unstable.Parser
	parser.Reset(all[mark:])
	table, counts := "", map[string]int{}
	for parser.NextExpression() {
		e := parser.Expression()
		switch e.Kind {
		case unstable.Table, unstable.ArrayTable:
			first := e.Child()
			table = heading(e, counts)
			l.add(mark, line{path: table, heading: true}, int(first.Raw.Offset), int(first.Raw.Offset))
		case unstable.KeyValue:
			made := line{path: join(table, keyOf(e))}
			made.collect(e.Value(), made.path, mark)
			l.add(mark, made, int(e.Raw.Offset), int(e.Raw.Offset+e.Raw.Length))
		}
	}
	return l, parser.Error()
}

// heading is the path of [a.b] or [[a.b]], lists with the number of the table
// the heading speaks of.
func heading(e *unstable.Node, counts map[string]int) string {
	path := ""
	for it := e.Key(); it.Next(); {
		path = join(path, string(it.Node().Data))
		if e.Kind == unstable.ArrayTable && it.IsLast() {
			counts[path]++
		}
		if n := counts[path]; n > 0 {
			path = fmt.Sprintf("%s[%d]", path, n-1)
		}
	}
	return path
}

func keyOf(e *unstable.Node) string {
	path := ""
	for it := e.Key(); it.Next(); {
		path = join(path, string(it.Node().Data))
	}
	return path
}

func join(path, key string) string {
	if path == "" {
		return key
	}
	return path + "." + key
}

// add enters a line that covers the whole lines of some bytes.
func (l *layout) add(mark int, made line, from, to int) {
	from, to = from+mark, to+mark
	made.from = bytes.LastIndexByte(l.text[:from], '\n') + 1
	made.from = max(made.from, mark)
	made.to = len(l.text)
	if i := bytes.IndexByte(l.text[to:], '\n'); i >= 0 {
		made.to = to + i + 1
	}
	l.lines = append(l.lines, made)
}

// collect finds the texts inside a value.
func (m *line) collect(n *unstable.Node, path string, mark int) {
	switch n.Kind {
	case unstable.String:
		from := int(n.Raw.Offset) + mark
		m.texts = append(m.texts, text{path, from, from + int(n.Raw.Length), string(n.Data)})
	case unstable.Integer, unstable.Float, unstable.Bool:
		m.numbers = append(m.numbers, text{path: path, value: string(n.Data)})
	case unstable.Array:
		for it := n.Children(); it.Next(); {
			m.collect(it.Node(), path, mark)
		}
	case unstable.InlineTable:
		for it := n.Children(); it.Next(); {
			if kv := it.Node(); kv.Kind == unstable.KeyValue {
				m.collect(kv.Value(), join(path, keyOf(kv)), mark)
			}
		}
	}
}

// within tells whether a line is a path's own or lies below it.
func (m *line) within(path string) bool {
	return m.path == path || strings.HasPrefix(m.path, path+".")
}

// texts are the quoted texts of a key, in order.
func (l *layout) texts(path string) []text {
	var found []text
	for _, m := range l.lines {
		for _, t := range m.texts {
			if t.path == path {
				found = append(found, t)
			}
		}
	}
	return found
}

// values are all single values of the text by their paths, as they are written.
func (l *layout) values() map[string]string {
	found := map[string]string{}
	for _, m := range l.lines {
		for _, t := range m.texts {
			found[t.path] = t.value
		}
		for _, t := range m.numbers {
			found[t.path] = t.value
		}
	}
	return found
}

// has tells whether a path is written at all.
func (l *layout) has(path string) bool {
	for _, m := range l.lines {
		if m.within(path) {
			return true
		}
	}
	return false
}

// without is the text without the lines of a path and below it, comments above
// them kept.
func (l *layout) without(path string) []byte {
	out := l.text
	for i := len(l.lines) - 1; i >= 0; i-- {
		if m := l.lines[i]; m.within(path) {
			out = splice(out, m.from, m.to, nil)
		}
	}
	return out
}

// put replaces texts, given in order, by others.
func (l *layout) put(at []text, with []string) []byte {
	out := l.text
	for i := len(at) - 1; i >= 0; i-- {
		out = splice(out, at[i].from, at[i].to, []byte(quote(with[i])))
	}
	return out
}

// newline is how the text ends its lines.
func (l *layout) newline() string {
	if i := bytes.IndexByte(l.text, '\n'); i > 0 && l.text[i-1] == '\r' {
		return "\r\n"
	}
	return "\n"
}

// quote writes a text as TOML does.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, "\\u%04X", r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}
