package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"stripesong/sequence/brief"
)

// threeFiles are one too many. After a bare --write, one that does not exist
// was meant as its file.
func (c *calibrating) threeFiles(names []string) error {
	last := names[len(names)-1]
	m := mistake{what: fmt.Sprintf("%q is more than calibrate takes", last),
		hint: "a brief and a file of measurements are enough"}
	if c.write.given && !c.toFile {
		if i := slices.IndexFunc(names, missing); i >= 0 {
			m.what, last = fmt.Sprintf("%q is more than calibrate takes", names[i]), names[i]
		}
		m.hint = fmt.Sprintf("join the file to its flag: --write=%s", last)
	}
	return m
}

// missing tells whether there is no file of that name.
func missing(file string) bool {
	_, err := os.Stat(file)
	return errors.Is(err, fs.ErrNotExist)
}

// measurements opens and reads the file of measurements; a brief in its place
// is told from one.
func (c *calibrating) measurements(w *world, name string,
	from *source) (*source, *brief.Measured, error) {
	const template = "\"stripesong calibrate --template\" prints one to fill in"
	s, err := w.open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist) && c.write.given && !c.toFile:
		return nil, nil, mistake{what: fmt.Sprintf("there is no file %q", name), cause: err,
			hint: fmt.Sprintf("the measurements are read from it; if it is the file to write: "+
				"--write=%s", name)}
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil, mistake{what: fmt.Sprintf("there is no file %q", name), cause: err,
			hint: nearestFile(name, template)}
	case err != nil:
		return nil, nil, err
	case looksLikeBrief(s.text) && !looksLikeBrief(from.text):
		return nil, nil,
			mistake{what: fmt.Sprintf("%q looks like a brief, and %q like measurements", name,
				from.name), hint: "the brief comes first, the file of measurements after it"}
	case looksLikeBrief(s.text):
		return nil, nil, mistake{what: fmt.Sprintf("%q looks like a brief", name),
			hint: "name the file of measurements after it; " + template}
	}
	m, err := brief.ParseMeasured(s.name, s.text)
	return s, m, s.named(err)
}

// looksLikeBrief finds a table in a text that briefs have and measurements
// have not.
func looksLikeBrief(text []byte) bool {
	for line := range strings.Lines(string(text)) {
		table, _, _ := strings.Cut(line, "#")
		switch strings.TrimSpace(table) {
		case "[set]", "[cloth]", "[loom]", "[vary]", "[[colour]]", "[[piece]]":
			return true
		}
	}
	return false
}
