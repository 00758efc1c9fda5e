package tomltext

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Kind is what a value is.
type Kind int

// The kinds of values. Other is a date or a time.
const (
	Table Kind = iota
	Array
	String
	Integer
	Float
	Bool
	Other
)

// String names a kind for messages, with its article.
func (k Kind) String() string {
	return [...]string{"a table", "a list", "a text", "a whole number", "a number",
		"true or false", "a date or time"}[k]
}

// Node is one value.
type Node struct {
	Doc   *Document
	Kind  Kind
	Text  string           // of a single value, without quotes and escapes; numbers as written
	Keys  []string         // of a table, in the order of the text
	Table map[string]*Node // of a table
	Items []*Node          // of a list
	Key   Span             // where its key stands; of an item of a list, the item
	Value Span             // of a table with a heading, its key there

	parent *Node
	line   Span // from the key to the end of the value; empty where there is no such line
	form   form
}

// form is how a table is written.
type form int

const (
	headed  form = iota // under a heading of its own, or the root
	implied             // by the heading of a table inside it
	dotted              // by keys such as a.b
	braces              // as { ... }
)

// assigned tells whether a value stands behind its key and an equals sign.
func (n *Node) assigned() bool { return n.line.To > 0 }

// within tells whether a value is another or lies below it.
func (n *Node) within(other *Node) bool {
	for n != nil && n != other {
		n = n.parent
	}
	return n != nil
}

// Raw is the value as the text has it.
func (n *Node) Raw() string { return string(n.Doc.text[n.Value.From:n.Value.To]) }

// WholeNumber is the value of an [Integer] of any notation that TOML has.
func (n *Node) WholeNumber() (int64, error) {
	return strconv.ParseInt(strings.TrimPrefix(n.Text, "+"), 0, 64)
}

// Find is the value that a path leads to from a table; nil where there is none.
func (n *Node) Find(path string) *Node {
	steps, err := parsePath(path)
	if err != nil {
		return nil
	}
	for _, s := range steps {
		n = n.follow(s)
	}
	return n
}

// Walk visits the single values at and below a node, in the order of the text,
// each with the last key on the way to it.
func (n *Node) Walk(key string, visit func(key string, value *Node)) {
	if n == nil {
		return
	}
	if n.Kind != Table && n.Kind != Array {
		visit(key, n)
	}
	for _, k := range n.Keys {
		n.Table[k].Walk(k, visit)
	}
	for _, item := range n.Items {
		item.Walk(key, visit)
	}
}

// Child is the value of a key of a table; it becomes an empty table if it is not
// there. It changes what was read and not the text.
func (n *Node) Child(key string) *Node { return n.child(key, Span{}, headed) }

// child is [Node.Child] for a key that stands at a place; a table that is made
// has a form.
func (n *Node) child(key string, at Span, form form) *Node {
	if n.Table[key] == nil {
		n.Put(key, &Node{Doc: n.Doc, Key: at, Value: at, form: form})
	}
	return n.Table[key]
}

// Put gives a key of a table a value. It changes what was read and not the text.
func (n *Node) Put(key string, value *Node) {
	if n.Table == nil {
		n.Table = make(map[string]*Node)
	}
	if n.Table[key] == nil {
		n.Keys = append(n.Keys, key)
	}
	n.Table[key] = value
	value.parent = n
}

// step is one part of a path: a key and, of a list, which.
type step struct {
	key   string
	index int // -1 for no list
}

func parsePath(path string) ([]step, error) {
	var steps []step
	for part := range strings.SplitSeq(path, ".") {
		key, number, list := strings.Cut(part, "[")
		s := step{key, -1}
		if list {
			n, err := strconv.Atoi(strings.TrimSuffix(number, "]"))
			if err != nil || n < 0 || strconv.Itoa(n)+"]" != number {
				return nil, fmt.Errorf("%q is not a key", path)
			}
			s.index = n
		}
		steps = append(steps, s)
	}
	if !utf8.ValidString(path) {
		return nil, fmt.Errorf("%q is not a key", path)
	}
	return steps, nil
}

// follow is the value that a step leads to from a table; nil where there is none.
func (n *Node) follow(s step) *Node {
	if n == nil {
		return nil
	}
	n = n.Table[s.key]
	switch {
	case n == nil || s.index < 0:
		return n
	case s.index < len(n.Items):
		return n.Items[s.index]
	}
	return nil
}
