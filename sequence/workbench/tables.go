package workbench

import (
	"bytes"
	"fmt"
	"strings"
)

// block is the lines of one [[piece]] table, with the comments right above its
// heading and the tables below it.
type block struct{ from, to int }

// blocks are the [[piece]] tables of a text, in order.
func (l *layout) blocks() ([]block, error) {
	var found []block
	last := -1 // the line the latest block ends with
	for i, m := range l.lines {
		path := fmt.Sprintf("piece[%d]", len(found)-1)
		switch {
		case m.heading && m.path == fmt.Sprintf("piece[%d]", len(found)):
			found = append(found, block{l.comments(m.from), m.to})
			last = i
		case len(found) > 0 && m.within(path) && last == i-1:
			found[len(found)-1].to = m.to
			last = i
		case m.within("piece") || strings.HasPrefix(m.path, "piece["):
			return nil, refuse("write each piece as a [[piece]] table of its own, in one place", "the pieces are written in a way that can't be rearranged here")
		}
	}
	return found, nil
}

// comments is where the comment lines right above a line begin.
func (l *layout) comments(at int) int {
	for at > 0 {
		above := bytes.LastIndexByte(l.text[:at-1], '\n') + 1
		if !bytes.HasPrefix(bytes.TrimLeft(l.text[above:at], " \t"), []byte("#")) {
			return at
		}
		at = above
	}
	return at
}

// rearranged is the text with the [[piece]] tables of the numbers given, in
// that order: one named twice is there twice, one not named is gone. What lies
// between the tables stays.
func (l *layout) rearranged(order []int) ([]byte, error) {
	all, err := l.blocks()
	if err != nil || len(all) == 0 {
		return l.text, err
	}
	var out []byte
	at := 0
	for slot, b := range all {
		out = append(out, l.text[at:b.from]...)
		if slot < len(order) {
			out = append(out, l.block(all[order[slot]])...)
		} else {
			out = bytes.TrimSuffix(out, []byte(l.newline()))
		}
		at = b.to
		for extra := len(all); slot == len(all)-1 && extra < len(order); extra++ {
			out = append(out, l.newline()...)
			out = append(out, l.block(all[order[extra]])...)
		}
	}
	return append(out, l.text[at:]...), nil
}

// block is the text of one, ending in a line end.
func (l *layout) block(b block) []byte {
	text := l.text[b.from:b.to]
	if !bytes.HasSuffix(text, []byte("\n")) {
		text = append(bytes.Clone(text), l.newline()...)
	}
	return text
}

// withoutTable is the text without one table of a list of tables.
func (l *layout) withoutTable(list string, n int) ([]byte, error) {
	path := fmt.Sprintf("%s[%d]", list, n)
	for i, m := range l.lines {
		if m.path != path || !m.heading {
			continue
		}
		to := m.to
		for i++; i < len(l.lines) && l.lines[i].within(path); i++ {
			to = l.lines[i].to
		}
		out := splice(l.text, l.comments(m.from), to, nil)
		return out, nil
	}
	return nil, refuse("", "it is written in a way that can't be taken away here")
}
