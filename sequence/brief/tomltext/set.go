package tomltext

import (
	"errors"
	"fmt"
	"slices"
	"strings"
)

// Set gives a key a value, written as TOML has it; "" drops the key. A key that
// is not there is added below the last of its table; a table that is not there
// is added at the end of the text, also one more of a list of tables. A table
// under headings or by dotted keys gives way to the value. Comments stay; those in a
// value that is replaced stand above its key then. A value that says the same stays
// as it is written.
func (d *Document) Set(path, value string) (*Document, error) {
	if value == "" {
		return d.Drop(path)
	}
	steps, err := parsePath(path)
	switch {
	case err != nil:
		return nil, err
	case steps[len(steps)-1].index >= 0:
		return nil, fmt.Errorf("%q is not a key", path)
	}
	value = strings.TrimSpace(value)
	if _, err := ParseValue("", value); err != nil {
		return nil, fmt.Errorf("%q is no value for %s: %w", value, path, err)
	}
	value = strings.ReplaceAll(strings.ReplaceAll(value, "\r\n", "\n"), "\n", d.lineEnd())
	changed, err := d.set(steps, value)
	if err != nil {
		return nil, fmt.Errorf("%q has no place: %w", path, err)
	}
	if changed.Root.Find(path) == nil {
		return nil, fmt.Errorf("%q has no place", path)
	}
	return changed, nil
}

func (d *Document) set(steps []step, value string) (*Document, error) {
	at := d.Root
	for _, s := range steps {
		at = at.follow(s)
	}
	switch {
	case at == nil:
		return d.insert(steps, value)
	case at.assigned():
		return d.replace(at, value)
	case at.Kind == Array:
		return nil, errors.New("it is a list of tables with headings and can't be replaced")
	}
	without, err := d.spliced(d.linesOf(at)...)
	if err != nil {
		return nil, err
	}
	return without.insert(steps, value)
}

// linesOf cuts the lines of a table, or its part of an inline table, and leaves
// the comments above, between and in them.
func (d *Document) linesOf(table *Node) []splice {
	if outer := table.inline(); outer != nil {
		return d.cutMembers(outer, table)
	}
	var cuts []splice
	for _, e := range d.entries {
		if e.node.within(table) {
			cuts = append(cuts, d.uncommented(d.lines(e.at)))
		}
	}
	return cuts
}

// insert adds a key that is not there.
func (d *Document) insert(steps []step, value string) (*Document, error) {
	at, way := d.Root, steps   // the table nearest to the key, and the way on from it
	base, key := d.Root, steps // the nearest that is not by dotted keys, likewise
	listed := false            // it is, or lies in, a table of a list
	for len(way) > 1 && at.follow(way[0]) != nil {
		at, listed, way = at.follow(way[0]), listed || way[0].index >= 0, way[1:]
		if at.Kind != Table {
			return nil, fmt.Errorf("%q is %s", steps[len(steps)-len(way)-1].key, at.Kind)
		}
		if at.form != dotted {
			base, key = at, way
		}
	}
	switch {
	case base.form == implied && listed:
		return nil, errors.New("its table has no heading of its own")
	case base.form == braces:
		return d.insertMember(base, keyOf(key)+" = "+value)
	case base.form == implied, len(way) > 1 && !listed && at == base:
		return d.insertTable(steps, value)
	}
	return d.insertLines(d.endOf(at), keyOf(key)+" = "+value+d.lineEnd())
}

// insertLines adds whole lines at the beginning of a line or the end of the text.
func (d *Document) insertLines(at int, lines string) (*Document, error) {
	return d.spliced(splice{Span{at, at}, d.fresh(at) + lines})
}

// fresh is what a line that begins at a byte needs before it: a line end where
// the text has none before its end, or nothing.
func (d *Document) fresh(at int) string {
	if at == 0 || d.text[at-1] == '\n' {
		return ""
	}
	return d.lineEnd()
}

// insertMember adds an assignment to an inline table, below its last.
func (d *Document) insertMember(table *Node, assignment string) (*Document, error) {
	at, comma := table.Value.From+1, " "
	if members := table.members(); len(members) > 0 {
		at, comma = members[len(members)-1].line.To, ", "
	}
	return d.spliced(splice{Span{at, at}, comma + assignment})
}

// insertTable adds a table and its first key at the end of the text.
func (d *Document) insertTable(steps []step, value string) (*Document, error) {
	split, heading := len(steps)-1, "[%s]"
	if list := slices.IndexFunc(steps, func(s step) bool { return s.index >= 0 }); list >= 0 {
		split, heading = list+1, "[[%s]]"
	}
	heading = fmt.Sprintf(heading, keyOf(steps[:split]))
	lines := []string{"", heading, keyOf(steps[split:]) + " = " + value, ""}
	return d.insertLines(len(d.text), strings.Join(lines, d.lineEnd()))
}

// endOf is the byte after the line of a table's heading or of its last
// assignment, whichever is later. Of the root it is before the first heading.
func (d *Document) endOf(table *Node) int {
	end := table.Key.To
	for _, n := range table.Table {
		end = max(end, n.line.To)
	}
	if end == 0 {
		return 0
	}
	return d.lineTo(end)
}
