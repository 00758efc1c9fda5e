package tomltext

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// ArrangeItems puts the items of a list of single values into the order of their
// numbers, each of which stands there once. Where every item stands on lines of its own,
// these go with it, with the comments above it; else a list without comments keeps its
// layout, and the comments of one that has some stay as [Document.Set] has it.
func (d *Document) ArrangeItems(path string, order []int) (*Document, error) {
	list := d.Root.Find(path)
	if list == nil || !list.assigned() || !singles(list) {
		return nil, fmt.Errorf("%q is no list of single values", path)
	}
	items, sorted := list.Items, slices.Sorted(slices.Values(order))
	for i := range max(len(items), len(sorted)) {
		if i >= len(items) || i >= len(sorted) || sorted[i] != i {
			return nil, fmt.Errorf("%v is no order of %d items", order, len(items))
		}
	}
	if lines, apart := d.itemLines(list); apart {
		var b strings.Builder
		for _, from := range order {
			b.WriteString(d.withItsComma(items[from], lines[from]))
		}
		all := Span{lines[0].From, lines[len(lines)-1].To}
		return d.spliced(splice{all, b.String()})
	}
	var places []splice
	var values []string
	for to, from := range order {
		values = append(values, items[from].Raw())
		places = append(places, splice{items[to].Value, items[from].Raw()})
	}
	if len(commentsInValue([]byte(list.Raw()))) > 0 {
		return d.replace(list, "["+strings.Join(values, ", ")+"]")
	}
	return d.spliced(places...)
}

// itemLines are the whole lines of each item of a list, with the blank lines and
// comments above them; apart tells whether each has lines of its own.
func (d *Document) itemLines(list *Node) (all []Span, apart bool) {
	at := d.lineTo(list.Value.From)
	for _, item := range list.Items {
		first := d.lineFrom(item.Value.From)
		lines := Span{at, d.lineTo(item.Value.To)}
		after := d.text[item.Value.To:lines.To]
		after = bytes.TrimSpace(bytes.TrimPrefix(bytes.TrimLeft(after, " \t"), []byte(",")))
		if first < at || !d.blank(first, item.Value.From) || !unsaid(d.text[at:first]) ||
			!unsaid(after) {
			return nil, false
		}
		all, at = append(all, lines), lines.To
	}
	// a comma on a line of its own after the last item would be its second
	return all, len(all) > 0 && unsaid(d.text[at:max(at, list.Value.To-1)])
}

// unsaid tells whether lines hold nothing but blanks and comments.
func unsaid(text []byte) bool {
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return false
		}
	}
	return true
}

// withItsComma is the lines of an item with a comma after it, as one has that is not
// the last.
func (d *Document) withItsComma(item *Node, lines Span) string {
	to := item.Value.To
	comma := ","
	if bytes.HasPrefix(bytes.TrimLeft(d.text[to:lines.To], " \t"), []byte(",")) {
		comma = ""
	}
	return string(d.text[lines.From:to]) + comma + string(d.text[to:lines.To])
}
