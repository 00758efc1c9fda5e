package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"stripesong/cmd/stripesong/whole"
)

// putText writes a text that a flag names a file for: a new one, or the brief
// it was made from, if that is as it was read.
func putText(path, flag string, s *source, text []byte) error {
	if path != "-" && s.isFile(path) {
		return unwritable(path, flag, whole.Rewrite(path, s.text, text))
	}
	return createText(path, flag, text)
}

// createText writes a text that a flag names a new file for.
func createText(path, flag string, text []byte) error {
	if path == "-" {
		return notAFile(flag)
	}
	err := whole.Create(path, text)
	if errors.Is(err, fs.ErrExist) {
		return existsAlready(path, flag, "it", err)
	}
	return unwritable(path, flag, err)
}

// notAFile refuses a name that means standard input or output elsewhere.
func notAFile(flag string) error {
	return mistake{
		what: `"-" is standard input or output, not a file`,
		hint: "name a file with " + flag,
	}
}

// notAFolder is [notAFile] where a folder is named.
func notAFolder() error {
	return mistake{
		what: `"-" is standard input or output, not a folder`,
		hint: "name a folder with --out DIR",
	}
}

// isFile tells whether path names the file the brief was read from.
func (s *source) isFile(path string) bool {
	if !s.fromFile() {
		return false
	}
	own, err := os.Stat(s.name)
	if err != nil {
		return filepath.Clean(path) == filepath.Clean(s.name)
	}
	other, err := os.Stat(path)
	return err == nil && os.SameFile(own, other)
}

// existsAlready refuses to write over a file; is begins the hint, as in "it".
func existsAlready(path, flag, is string, cause error) error {
	if info, missing := os.Stat(path); missing == nil && info.IsDir() {
		return mistake{
			what:  fmt.Sprintf("can't write %q: it is a folder", path),
			hint:  "name a file with " + flag,
			cause: cause,
		}
	}
	return mistake{
		what:  fmt.Sprintf("%q exists already", path),
		hint:  is + " was left as it is; name another with " + flag,
		cause: cause,
	}
}

// unwritable says why a file that flag names could not be written; nil for nil. Where
// no flag names it, flag is "".
func unwritable(path, flag string, err error) error {
	m, inside := mistake{cause: err}, &whole.InsideError{}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, whole.ErrChanged):
		m.what = fmt.Sprintf("%q was changed by another program meanwhile, and is left as it is",
			path)
		m.hint = "see what is in it now, and run this again"
	case errors.Is(err, whole.ErrLinked):
		m.what = fmt.Sprintf("can't write %q: %v", path, err)
		m.hint = "put a copy of it in its place"
		if flag != "" {
			m.hint += ", or name another file with " + flag
		}
	case errors.As(err, &inside):
		return insidePlan(path, flag, inside)
	default:
		m.what = fmt.Sprintf("can't write %q: %s", path, plainly(err))
		if flag != "" {
			m.hint = "name another file with " + flag
		}
	}
	return m
}

// insidePlan refuses what would lie in a plan's folder.
func insidePlan(path, flag string, err *whole.InsideError) error {
	return mistake{
		what: fmt.Sprintf("%q would lie in the plan's folder %q, which holds nothing else",
			path, shortPath(err.Folder)),
		hint:  "name a place outside it with " + flag,
		cause: err,
	}
}
