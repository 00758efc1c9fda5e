package brief

import (
	"bytes"
	"errors"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

// document is one TOML text with the place of everything in it. go-toml
// reads it twice: once to refuse what is not TOML (keys given twice and such),
// once for the places.
type document struct {
	file string
	flag string // set where the text came from a flag instead of a file
	text []byte
	root *node
}

type kind int

const (
	tableKind kind = iota
	arrayKind
	stringKind
	integerKind
	floatKind
	boolKind
	otherKind
)

var kindNames = [...]string{"a table", "a list", "a text", "a whole number", "a number", "true or false", "a date or time"}

func (k kind) String() string { return kindNames[k] }

// node is one value: a scalar, a list or a table.
type node struct {
	doc   *document
	kind  kind
	text  string // of a scalar, unquoted; numbers as they are written
	key   span   // where its key stands (of a list's member: the member itself)
	value span
	line  span // the whole assignment, key to value
	keys  []string
	table map[string]*node
	items []*node
	used  bool
	form  form
}

// form is how a table is written.
type form int

const (
	headed  form = iota // under a heading of its own, in braces, or the root
	dotted              // by keys such as a.b
	implied             // by the heading of a table inside it
)

// span is a stretch of bytes of a document.
type span struct{ from, to int }

var byteOrderMark = []byte("\xef\xbb\xbf")

// howToSave is what to do about a text in another encoding. Windows PowerShell
// writes UTF-16 with >, which begins with one of two marks.
func howToSave(text []byte) string {
	if bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return "it is UTF-16, as PowerShell writes with >: open it in an editor and save it with the encoding UTF-8"
	}
	return "save the file with the encoding UTF-8"
}

// read parses a text. A byte order mark is passed over; it may not exceed
// MaxBytes and must be UTF-8.
func read(file string, text []byte) (*document, error) {
	doc := &document{file: file, text: bytes.TrimPrefix(text, byteOrderMark)}
	if err := doc.checkSize(len(text)); err != nil {
		return nil, err
	}
	if !utf8.Valid(doc.text) {
		return nil, Problems{doc.problem(badByte(doc.text), "", "this is not UTF-8 text", howToSave(doc.text))}
	}
	var whole map[string]any
	if err := toml.Unmarshal(doc.text, &whole); err != nil {
		return nil, doc.decodeProblem(err)
	}
	doc.root = &node{doc: doc, kind: tableKind}
	if err := doc.build(); err != nil {
		return nil, doc.decodeProblem(err)
	}
	return doc, nil
}

func badByte(text []byte) int {
	at := 0
	for at < len(text) {
		r, n := utf8.DecodeRune(text[at:])
		if r == utf8.RuneError && n == 1 {
			break
		}
		at += n
	}
	return at
}

func (d *document) decodeProblem(err error) error {
	var decode *toml.DecodeError
	if !errors.As(err, &decode) {
		return Problems{{File: d.file, What: err.Error(), Hint: "see the commented brief that \"stripesong new\" writes"}}
	}
	line, col := decode.Position()
	what := strings.TrimPrefix(decode.Error(), "toml: ")
	key := strings.Join(decode.Key(), ".")
	return Problems{d.problem(d.offset(line, col), key, what, "texts stand in quotes, lists in [ ], tables in { } or under a [heading]")}
}

// offset finds the byte of a line and column as go-toml counts them.
func (d *document) offset(line, col int) int {
	at := 0
	for ; line > 1; line-- {
		next := bytes.IndexByte(d.text[at:], '\n')
		if next < 0 {
			return len(d.text)
		}
		at += next + 1
	}
	return min(at+max(col-1, 0), len(d.text))
}

func (d *document) build() error {
	var parser unstable.Parser
	parser.Reset(d.text)
	at := d.root
	for parser.NextExpression() {
		expression := parser.Expression()
		switch expression.Kind {
		case unstable.Table:
			at = d.heading(expression, false)
		case unstable.ArrayTable:
			at = d.heading(expression, true)
		case unstable.KeyValue:
			d.assign(at, expression)
		}
	}
	return parser.Error()
}

// heading opens [a.b] or [[a.b]].
func (d *document) heading(expression *unstable.Node, list bool) *node {
	at := d.root
	for it := expression.Key(); it.Next(); {
		key := it.Node()
		place := place(key.Raw)
		if !list || !it.IsLast() {
			at = at.step(string(key.Data), place, implied).latest()
			if !list && it.IsLast() {
				at.form = headed
			}
			continue
		}
		all := at.child(string(key.Data), place)
		all.kind = arrayKind
		at = &node{doc: d, kind: tableKind, key: place, value: place, line: place}
		all.items = append(all.items, at)
	}
	return at
}

// latest is the table a heading inside a list of tables speaks of.
func (n *node) latest() *node {
	if n.kind == arrayKind && len(n.items) > 0 {
		return n.items[len(n.items)-1]
	}
	return n
}

// child finds or makes a table under a key.
func (n *node) child(key string, at span) *node {
	if found := n.table[key]; found != nil {
		return found
	}
	made := &node{doc: n.doc, kind: tableKind, key: at, value: at, line: at}
	n.put(key, made)
	return made
}

// step is [node.child], whose form is told where it is made.
func (n *node) step(key string, at span, made form) *node {
	known := n.table[key] != nil
	child := n.child(key, at)
	if !known {
		child.form = made
	}
	return child
}

func (n *node) put(key string, value *node) {
	if n.table == nil {
		n.table = make(map[string]*node)
	}
	if n.table[key] == nil {
		n.keys = append(n.keys, key)
	}
	n.table[key] = value
}

func (d *document) assign(at *node, expression *unstable.Node) {
	for it := expression.Key(); it.Next(); {
		key := it.Node()
		if !it.IsLast() {
			at = at.step(string(key.Data), place(key.Raw), dotted)
			continue
		}
		value := d.value(expression.Value())
		value.key = place(key.Raw)
		value.line = place(expression.Raw)
		value.value = span{d.afterEquals(value.key.to), value.line.to}
		at.put(string(key.Data), value)
	}
}

// afterEquals is the byte after the equals sign that follows a key, and blanks.
func (d *document) afterEquals(at int) int {
	at += bytes.IndexByte(d.text[at:], '=') + 1
	for at < len(d.text) && (d.text[at] == ' ' || d.text[at] == '\t') {
		at++
	}
	return at
}

func place(r unstable.Range) span {
	return span{int(r.Offset), int(r.Offset + r.Length)}
}

var scalarKinds = map[unstable.Kind]kind{
	unstable.String: stringKind, unstable.Integer: integerKind, unstable.Float: floatKind, unstable.Bool: boolKind,
}

func (d *document) value(from *unstable.Node) *node {
	n := &node{doc: d, value: place(from.Raw), key: place(from.Raw)}
	switch from.Kind {
	case unstable.Array:
		n.kind = arrayKind
		for it := from.Children(); it.Next(); {
			if it.Node().Kind != unstable.Comment {
				n.items = append(n.items, d.value(it.Node()))
			}
		}
	case unstable.InlineTable:
		n.kind = tableKind
		for it := from.Children(); it.Next(); {
			if it.Node().Kind == unstable.KeyValue {
				d.assign(n, it.Node())
			}
		}
	default:
		n.kind = otherKind
		if k, ok := scalarKinds[from.Kind]; ok {
			n.kind = k
		}
		n.text = string(from.Data)
	}
	return n
}

// wholeNumber reads an integer as TOML writes it: underscores, signs, and
// 0x, 0o, 0b.
func (n *node) wholeNumber() (int64, error) {
	return strconv.ParseInt(strings.TrimPrefix(n.text, "+"), 0, 64)
}
