package tomltext

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
)

// splice puts a text in place of a stretch of a document.
type splice struct {
	Span
	with string
}

// spliced is the document with stretches replaced, which do not overlap. A last
// line without an end stays one.
func (d *Document) spliced(all ...splice) (*Document, error) {
	slices.SortStableFunc(all, func(a, b splice) int { return cmp.Compare(a.From, b.From) })
	out, at := bytes.Clone(d.mark), 0
	for _, s := range all {
		out = append(append(out, d.text[at:s.From]...), s.with...)
		at = s.To
	}
	out = append(out, d.text[at:]...)
	if at == len(d.text) && at > 0 && d.text[at-1] != '\n' {
		out = bytes.TrimSuffix(bytes.TrimSuffix(out, []byte("\n")), []byte("\r"))
	}
	return Parse(d.Name, out)
}

// SetTexts puts other texts in place of values of the kind [String], as many as
// there are values.
func (d *Document) SetTexts(at []*Node, with []string) (*Document, error) {
	all := make([]splice, len(at))
	for i, n := range at {
		all[i] = splice{n.Value, Quote(with[i])}
	}
	return d.spliced(all...)
}

// Drop takes away what a path leads to, if it is there: a key, whose comments stay as
// lines; a table under headings with the comments right above these and between its
// lines; a key of an inline table. An item of a list in brackets can't be dropped.
func (d *Document) Drop(path string) (*Document, error) {
	if _, err := parsePath(path); err != nil {
		return nil, err
	}
	n := d.Root.Find(path)
	if n == nil {
		return d, nil
	}
	var cuts []splice
	if outer := n.inline(); outer != nil {
		cuts = d.cutMembers(outer, n)
	} else {
		for _, s := range d.stretches(n) {
			if n.assigned() || n.form == dotted {
				cuts = append(cuts, d.uncommented(s))
			} else {
				cuts = append(cuts, d.cut(s, true))
			}
		}
	}
	if len(cuts) == 0 {
		return nil, fmt.Errorf("%q stands inside another value and can't be taken away", path)
	}
	return d.spliced(cuts...)
}

// Arrange puts the tables of a list of tables into the order of their numbers,
// with the comments right above them and the tables below them: one named twice
// is there twice, one not named is gone. What lies between the tables stays. Each
// must be written under headings and in one stretch.
func (d *Document) Arrange(path string, order []int) (*Document, error) {
	list := d.Root.Find(path)
	if list == nil {
		return d, nil
	}
	var at []Span
	for _, item := range list.Items {
		s := d.stretches(item)
		if len(s) != 1 {
			return nil, fmt.Errorf("a table of %q is not written in one place", path)
		}
		at = append(at, s[0])
	}
	var all []splice
	for slot, here := range at {
		if slot < len(order) {
			all = append(all, splice{here, d.block(at[order[slot]])})
		} else {
			all = append(all, d.cut(here, true))
		}
	}
	for slot := len(at); slot < len(order); slot++ {
		all[len(at)-1].with += d.lineEnd() + d.block(at[order[slot]])
	}
	return d.spliced(all...)
}

// block is whole lines of the text, the last one with its end.
func (d *Document) block(s Span) string {
	return string(d.text[s.From:s.To]) + d.fresh(s.To)
}

// lines are the whole lines of a stretch.
func (d *Document) lines(s Span) Span { return Span{d.lineFrom(s.From), d.lineTo(s.To)} }

// stretches are the lines of a value or table and of what lies below it. From a
// heading on they go together as far as nothing else comes between, with the
// comments right above.
func (d *Document) stretches(n *Node) []Span {
	var all []Span
	together := false
	for i, e := range d.entries {
		lines := d.lines(e.at)
		switch {
		case !e.node.within(n):
			together = false
			continue
		case together:
			all[len(all)-1].To = lines.To
			continue
		case e.heading:
			lines.From = d.comments(i)
			together = true
		}
		all = append(all, lines)
	}
	return all
}

// comments is where the comment lines right above an entry begin, or its line.
func (d *Document) comments(i int) int {
	from, least := d.lineFrom(d.entries[i].at.From), 0
	if i > 0 {
		least = d.lineTo(d.entries[i-1].at.To)
	}
	for from > least {
		above := d.lineFrom(from - 1)
		if !bytes.HasPrefix(bytes.TrimLeft(d.text[above:from], " \t"), []byte("#")) {
			break
		}
		from = above
	}
	return from
}

// cut takes lines away; of a table also the blank line above, unless it is
// needed to part what is left.
func (d *Document) cut(s Span, table bool) splice {
	above := d.lineFrom(max(s.From-1, 0))
	if table && d.blank(above, s.From) && d.blank(s.To, d.lineTo(s.To)) {
		s.From = above
	}
	return splice{Span: s}
}

// uncommented takes whole lines away and leaves their comments, as lines of their own.
func (d *Document) uncommented(s Span) splice {
	return splice{s, d.kept(s.From, commentsIn(d.text[s.From:s.To]))}
}

func (d *Document) blank(from, to int) bool { return len(bytes.TrimSpace(d.text[from:to])) == 0 }
