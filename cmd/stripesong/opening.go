package main

import (
	"errors"
	"fmt"
	"html"
	"io/fs"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"

	"stripesong/cmd/stripesong/lock"
)

// opening is a file that leads the browser to an address. Every user of a machine
// can read what a program is started with, so it is started with this file's name,
// and only this user can read what is in the file. It lies in a folder of its own,
// locked while the program is there.
type opening struct {
	dir  string
	lock *lock.Lock
}

const openingPrefix = "stripesong-open-"

// openingTries is how often a folder is made that another program clears away
// before it is locked.
const openingTries = 100

// openingPlaces are the folders where an opening may lie. A browser that is
// installed as a snap sees neither the folder for what is temporary nor hidden
// folders, but what is visible in the user's own.
func (w *world) openingPlaces() []string {
	all := []string{os.TempDir()}
	if home := w.env("HOME"); hasSnaps("/") && filepath.IsAbs(home) {
		all = []string{home, os.TempDir()}
	}
	return all
}

// hasSnaps tells whether programs are installed as snaps on the system at root.
func hasSnaps(root string) bool {
	for _, dir := range []string{"snap/bin", "var/lib/snapd/snap/bin"} {
		if info, err := os.Stat(filepath.Join(root, dir)); err == nil && info.IsDir() {
			return true
		}
	}
	return false
}

// newOpening writes a file that leads to address, in the first of the folders
// where it can be kept from other users.
func newOpening(address string, places []string) (*opening, error) {
	var failed error
	for _, place := range places {
		o, err := beginOpening(place)
		if err == nil {
			err = o.write(address)
		}
		if err == nil {
			return o, nil
		}
		failed = errors.Join(failed, err)
	}
	return nil, failed
}

func beginOpening(place string) (*opening, error) {
	for range openingTries {
		dir, err := os.MkdirTemp(place, openingPrefix+"*")
		if err != nil {
			return nil, err
		}
		if err := privateFolder(dir, false); err != nil { // some disks know no permissions
			os.Remove(dir)
			return nil, err
		}
		held, err := lock.Try(filepath.Join(dir, "lock"))
		switch {
		case err == nil:
			return &opening{dir, held}, nil
		case errors.Is(err, lock.ErrHeld), errors.Is(err, fs.ErrNotExist):
			continue
		}
		os.Remove(filepath.Join(dir, "lock"))
		os.Remove(dir)
		return nil, err
	}
	return nil, lock.ErrHeld
}

func (o *opening) path() string { return filepath.Join(o.dir, "open.html") }

// url is the file's address. Some systems take a path with blanks for two.
func (o *opening) url() string {
	path := filepath.ToSlash(o.path())
	if !strings.HasPrefix(path, "/") { // as in C:/Users
		path = "/" + path
	}
	return (&url.URL{Scheme: "file", Path: path}).String()
}

const openingText = `<!DOCTYPE html>
<html lang="en">
<meta charset="utf-8">
<meta name="referrer" content="no-referrer">
<meta http-equiv="refresh" content="0; url=%[1]s">
<link rel="icon" href="data:,">
<title>stripesong</title>
<p>The page opens by itself. If it does not, <a href="%[1]s">open it</a>.</p>
</html>
`

// write writes the file; where that fails nothing is left.
func (o *opening) write(address string) error {
	const anew = os.O_WRONLY | os.O_CREATE | os.O_EXCL
	f, err := os.OpenFile(o.path(), anew, 0o600)
	if err == nil {
		_, err = fmt.Fprintf(f, openingText, html.EscapeString(address))
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		o.close()
	}
	return err
}

// close takes the file and its folder away.
func (o *opening) close() {
	os.Remove(o.path())
	o.lock.Release()
	os.Remove(o.dir) // which takes away no folder that holds anything
}

// clearOpenings takes away what programs have left that were killed. What they
// served has ended with them, so that what is in the files opens nothing.
func clearOpenings(places []string) {
	for _, place := range places {
		entries, err := os.ReadDir(place)
		if err != nil {
			continue
		}
		for _, e := range entries {
			if strings.HasPrefix(e.Name(), openingPrefix) {
				clearOpening(filepath.Join(place, e.Name()))
			}
		}
	}
}

func clearOpening(dir string) {
	if privateFolder(dir, false) != nil {
		return
	}
	held, err := lock.TryThere(filepath.Join(dir, "lock"))
	switch {
	case err == nil:
		(&opening{dir, held}).close()
	case errors.Is(err, fs.ErrNotExist):
		os.Remove(dir) // if it is empty
	}
}

// startBrowser asks the system to show an address.
func startBrowser(address string) error {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	c := exec.Command(name, args...)
	c.Env = os.Environ()
	if err := c.Start(); err != nil {
		return err
	}
	go c.Wait()
	return nil
}
