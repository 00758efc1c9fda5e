package tomltext

import (
	"bytes"
	"cmp"
	"slices"
)

// inline is the nearest inline table around a value; nil where there is none.
func (n *Node) inline() *Node {
	for n = n.parent; n != nil && n.form != braces; {
		n = n.parent
	}
	return n
}

// members are the assignments of an inline table in the order of the text, those
// by dotted keys included.
func (n *Node) members() []*Node {
	var all []*Node
	for _, value := range n.Table {
		if value.assigned() {
			all = append(all, value)
		} else {
			all = append(all, value.members()...)
		}
	}
	slices.SortFunc(all, func(a, b *Node) int { return cmp.Compare(a.line.From, b.line.From) })
	return all
}

// cutMembers takes those assignments of an inline table away that lie within a
// value: each with its line where it has one, else with one comma. Their comments
// stay as lines: in place of theirs, or above the table.
func (d *Document) cutMembers(table, gone *Node) []splice {
	var cuts []splice
	members := table.members()
	before := -1 // where the one before ends, if the comma after it may go
	for i, m := range members {
		s, comma := m.line, before
		before = s.To
		switch {
		case !m.within(gone):
			continue
		case d.alone(s, i == len(members)-1):
			s, before = d.lines(s), -1
			cuts = append(cuts, splice{s, d.kept(s.From, commentsInMember(d.text[s.From:s.To]))})
			continue
		case comma >= 0 && !bytes.ContainsRune(d.text[comma:s.From], '\n'):
			s.From = comma
		default:
			s, before = d.withComma(s), -1
		}
		cuts = append(cuts, splice{Span: s})
		cuts = append(cuts, d.above(table, commentsInMember(d.text[s.From:s.To])))
	}
	return cuts
}

// commentsInMember lists the comments of one assignment of an inline table.
func commentsInMember(text []byte) []string {
	text = bytes.TrimLeft(text, " \t,")
	return commentsInValue(slices.Concat([]byte("{"), text, []byte("\n}")))
}

// alone tells whether nothing but an assignment, its comma and a comment stands
// on its lines. Only the last may lack the comma.
func (d *Document) alone(s Span, last bool) bool {
	lines := d.lines(s)
	rest, comma := bytes.CutPrefix(bytes.TrimSpace(d.text[s.To:lines.To]), []byte(","))
	rest = bytes.TrimSpace(rest)
	return d.blank(lines.From, s.From) && (comma || last) && (len(rest) == 0 || rest[0] == '#')
}

// withComma is an assignment with the blanks before and the comma after it.
func (d *Document) withComma(s Span) Span {
	s.From = len(bytes.TrimRight(d.text[:s.From], " \t"))
	rest := bytes.TrimLeft(d.text[s.To:], " \t")
	if bytes.HasPrefix(rest, []byte(",")) {
		s.To = len(d.text) - len(rest) + 1
	}
	return s
}
