package tomltext

import (
	"bytes"

	"github.com/pelletier/go-toml/v2/unstable"
)

// build makes the tree of nodes from go-toml's syntax tree.
func (d *Document) build() error {
	d.Root = &Node{Doc: d}
	table := d.Root
	var parser unstable.Parser
	parser.Reset(d.text)
	for parser.NextExpression() {
		e := parser.Expression()
		if e.Kind == unstable.KeyValue {
			value := d.assign(table, e)
			d.entries = append(d.entries, entry{node: value, at: value.line})
			continue
		}
		table = d.heading(e)
		d.entries = append(d.entries, entry{node: table, at: span(e.Child().Raw), heading: true})
	}
	return parser.Error()
}

func span(r unstable.Range) Span { return Span{int(r.Offset), int(r.Offset + r.Length)} }

// heading opens the table of [a.b] or [[a.b]].
func (d *Document) heading(e *unstable.Node) *Node {
	at := d.Root
	for it := e.Key(); it.Next(); {
		key, place := string(it.Node().Data), span(it.Node().Raw)
		at = at.child(key, place, implied)
		switch {
		case !it.IsLast():
			if len(at.Items) > 0 {
				at = at.Items[len(at.Items)-1]
			}
		case e.Kind == unstable.ArrayTable:
			item := &Node{Doc: d, Key: place, Value: place, parent: at}
			at.Kind = Array
			at.Items = append(at.Items, item)
			at = item
		default:
			at.Key, at.Value, at.form = place, place, headed
		}
	}
	return at
}

// assign puts the value of key = value into a table and returns it.
func (d *Document) assign(table *Node, e *unstable.Node) *Node {
	it := e.Key()
	for it.Next() && !it.IsLast() {
		table = table.child(string(it.Node().Data), span(it.Node().Raw), dotted)
	}
	n := d.value(e.Value())
	n.Key, n.line = span(it.Node().Raw), span(e.Raw)
	n.Value = Span{d.afterEquals(n.Key.To), n.line.To}
	table.Put(string(it.Node().Data), n)
	return n
}

// afterEquals is the byte after the equals sign that follows a key, and blanks.
func (d *Document) afterEquals(at int) int {
	at += bytes.IndexByte(d.text[at:], '=') + 1
	for d.text[at] == ' ' || d.text[at] == '\t' {
		at++
	}
	return at
}

// scalars are the kinds of single values; all others are dates and times.
var scalars = map[unstable.Kind]Kind{
	unstable.String:  String,
	unstable.Integer: Integer,
	unstable.Float:   Float,
	unstable.Bool:    Bool,
}

func (d *Document) value(from *unstable.Node) *Node {
	n := &Node{Doc: d, Key: span(from.Raw), Value: span(from.Raw), Text: string(from.Data)}
	switch from.Kind {
	case unstable.Array:
		n.Kind = Array
		for it := from.Children(); it.Next(); {
			item := d.value(it.Node())
			item.parent = n
			n.Items = append(n.Items, item)
		}
	case unstable.InlineTable:
		n.form = braces
		for it := from.Children(); it.Next(); {
			d.assign(n, it.Node())
		}
	default:
		n.Kind = Other
		if kind, ok := scalars[from.Kind]; ok {
			n.Kind = kind
		}
	}
	return n
}
