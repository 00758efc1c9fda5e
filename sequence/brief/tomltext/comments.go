package tomltext

import (
	"bytes"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// commentsIn lists the comments of a text of whole assignments, in their order.
func commentsIn(text []byte) []string {
	var all []string
	parser := unstable.Parser{KeepComments: true}
	parser.Reset(text)
	for parser.NextExpression() {
		for e := parser.Expression(); e != nil; e = e.Next() {
			all = collect(all, e)
		}
	}
	return all
}

func collect(all []string, n *unstable.Node) []string {
	if n.Kind == unstable.Comment {
		all = append(all, string(n.Data))
	}
	for it := n.Children(); it.Next(); {
		all = collect(all, it.Node())
	}
	return all
}

// commentsInValue lists the comments between the parts of a value.
func commentsInValue(value []byte) []string {
	if !bytes.ContainsRune(value, '#') {
		return nil
	}
	return commentsIn(slices.Concat([]byte("x = "), value))
}

// kept are comments as lines of their own at the beginning of a line, indented as that
// line is.
func (d *Document) kept(at int, comments []string) string {
	rest := d.text[at:]
	indent := rest[:len(rest)-len(bytes.TrimLeft(rest, " \t"))]
	var b strings.Builder
	for _, c := range comments {
		b.Write(indent)
		b.WriteString(c + d.lineEnd())
	}
	return b.String()
}

// CommentOut makes comments of the lines of what a path leads to, so that it counts no
// more and can still be read; nothing where it is not there or stands in braces.
func (d *Document) CommentOut(path string) (*Document, error) {
	n := d.Root.Find(path)
	if n == nil || n.inline() != nil {
		return d, nil
	}
	var marks []splice
	for _, s := range d.stretches(n) {
		for at := s.From; at < s.To; at = d.lineTo(at) {
			line := d.text[at:d.lineTo(at)]
			text := bytes.TrimLeft(line, " \t")
			if len(bytes.TrimSpace(text)) > 0 && text[0] != '#' {
				to := at + len(line) - len(text)
				marks = append(marks, splice{Span{to, to}, "# "})
			}
		}
	}
	return d.spliced(marks...)
}

// Remark puts a comment, of one line, above a key that stands on lines of its own.
func (d *Document) Remark(path, comment string) (*Document, error) {
	n := d.Root.Find(path)
	if n == nil || !n.assigned() || n.inline() != nil {
		return d, nil
	}
	return d.spliced(d.above(n, []string{"# " + comment}))
}

// above puts comments above the assignment that a value stands in.
func (d *Document) above(n *Node, comments []string) splice {
	at := n.Value.From
	for _, e := range d.entries {
		if !e.heading && e.at.From <= at && at < e.at.To {
			at = d.lineFrom(e.at.From)
		}
	}
	return splice{Span{at, at}, d.kept(at, comments)}
}

// replace puts a value in another's place. One that says the same stays as it is
// written; of a list with comments those items stay that both begin or end with. The
// comments of what goes stand above the key then.
func (d *Document) replace(at *Node, value string) (*Document, error) {
	with, err := ParseValue("", value)
	if err != nil {
		return nil, err
	}
	if same(at, with) {
		return d, nil
	}
	had, has := commentsInValue([]byte(at.Raw())), commentsInValue([]byte(value))
	if len(had) > 0 && len(has) == 0 && singles(at) && singles(with) {
		if s := d.changedItems(at, with); s.From != at.Items[0].Value.From ||
			s.To != last(at).Value.To {
			gone := slices.Concat([]byte("["), d.text[s.From:s.To], []byte("]"))
			return d.spliced(d.above(at, commentsInValue(gone)), s)
		}
	}
	return d.spliced(d.above(at, without(had, has)), splice{at.Value, value})
}

// last is the last item of a list.
func last(n *Node) *Node { return n.Items[len(n.Items)-1] }

// singles tells whether a value is a list of single values, and not empty.
func singles(n *Node) bool {
	return n.Kind == Array && len(n.Items) > 0 && !slices.ContainsFunc(n.Items, func(i *Node) bool {
		return i.Kind == Array || i.Kind == Table
	})
}

// changedItems changes the items of a list between those that stay at its beginning
// and at its end; at least one, so that there is a place for what is new.
func (d *Document) changedItems(old, with *Node) splice {
	from, to, now := 0, len(old.Items), len(with.Items)
	for from < min(to, now) && same(old.Items[from], with.Items[from]) {
		from++
	}
	for from < min(to, now) && same(old.Items[to-1], with.Items[now-1]) {
		to, now = to-1, now-1
	}
	switch {
	case from < to && from < now: // something on both sides
	case to < len(old.Items):
		to, now = to+1, now+1
	default:
		from--
	}
	first, comma := old.Items[from].Value.From, ", "
	if line := d.lineFrom(first); d.blank(line, first) {
		comma = "," + d.lineEnd() + string(d.text[line:first])
	}
	var items []string
	for _, item := range with.Items[from:now] {
		items = append(items, item.Raw())
	}
	return splice{Span{first, old.Items[to-1].Value.To}, strings.Join(items, comma)}
}

// same tells whether two values say the same, however they are written.
func same(a, b *Node) bool {
	if a.Kind != b.Kind || a.Text != b.Text || len(a.Table) != len(b.Table) {
		return false
	}
	for key, value := range a.Table {
		if other := b.Table[key]; other == nil || !same(value, other) {
			return false
		}
	}
	return slices.EqualFunc(a.Items, b.Items, same)
}

// without is one list less the items of another, each taken once.
func without(all, less []string) []string {
	less = slices.Clone(less)
	return slices.DeleteFunc(all, func(s string) bool {
		i := slices.Index(less, s)
		if i >= 0 {
			less = slices.Delete(less, i, i+1)
		}
		return i >= 0
	})
}
