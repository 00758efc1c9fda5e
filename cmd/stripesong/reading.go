package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"stripesong/sequence/brief"
)

// plainly words what the system says of a file, without the name, which the
// message has already.
func plainly(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file or folder"
	case errors.Is(err, fs.ErrPermission):
		return "it may not be opened or changed by you"
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	var link *os.LinkError // of a rename, whose names are the program's own
	if errors.As(err, &link) {
		return link.Err.Error()
	}
	return err.Error()
}

// shelfHint says what a shelf is.
const shelfHint = "a shelf is a file of [yarn.NAME] and [[colour]] tables, as a brief has them; " +
	"a brief will do as well"

// unreadable words a file that can't be read, and says what to do.
func unreadable(file, hint string, err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return mistake{what: fmt.Sprintf("there is no file %q", file),
			hint: nearestFile(file, hint), cause: err}
	}
	why := plainly(err)
	if info, missing := os.Stat(file); missing == nil && info.IsDir() {
		why = "it is a folder" // which not every system says
	}
	return mistake{what: fmt.Sprintf("can't read %q: %s", file, why), hint: hint, cause: err}
}

// nearestFile suggests the file of the same folder and ending whose name is
// nearest, or the only one, or says otherwise.
func nearestFile(file, otherwise string) string {
	ending := strings.ToLower(filepath.Ext(file))
	entries, err := os.ReadDir(filepath.Dir(file))
	if err != nil {
		return otherwise
	}
	if ending == "" {
		ending = ".toml"
	}
	var names []string
	for _, e := range entries {
		if e.Type().IsRegular() && strings.ToLower(filepath.Ext(e.Name())) == ending {
			names = append(names, e.Name())
		}
	}
	near := brief.Nearest(filepath.Base(file), names)
	if i := slices.Index(names, filepath.Base(file)+ending); i >= 0 {
		near = names[i]
	}
	if near == "" {
		return otherwise
	}
	return fmt.Sprintf("did you mean %q?", filepath.Join(filepath.Dir(file), near))
}
