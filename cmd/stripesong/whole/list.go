package whole

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// A list says what a folder was written with: the SHA-256 of each file by its
// name. It lies in the folder, as "sha256sum -c" reads it.
type list map[string]string

const listName = ".stripesong-files"

// isLitter tells of what file managers leave in folders they show, and network
// disks in place of a file that is taken away while somebody has it open.
func isLitter(name string) bool {
	return slices.Contains([]string{".DS_Store", "Thumbs.db", "desktop.ini"}, name) ||
		strings.HasPrefix(name, ".nfs")
}

func sumOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

func (l list) text() []byte {
	var names []string
	for name := range l {
		names = append(names, name)
	}
	slices.Sort(names)
	var b bytes.Buffer
	for _, name := range names {
		fmt.Fprintf(&b, "%s  %s\n", l[name], name)
	}
	return b.Bytes()
}

// mostList is more than the list of any folder takes, in bytes.
const mostList = 1 << 20

func readList(dir string) (list, error) {
	path := filepath.Join(dir, listName)
	if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() {
		return nil, fs.ErrNotExist
	}
	text, err := Read(path, mostList)
	if err != nil {
		return nil, err
	}
	l := make(list)
	for line := range strings.Lines(string(text)) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		if sum, name, ok := strings.Cut(strings.TrimRight(line, "\r\n"), "  "); ok {
			l[name] = sum
		}
	}
	return l, nil
}

// has tells whether an entry of dir is as the program wrote it; the error says
// what it is otherwise.
func (l list) has(dir string, e fs.DirEntry) error {
	name := e.Name()
	sum, listed := l[name]
	switch {
	case e.Type().IsRegular() && isLitter(name):
		return nil
	case listed && !e.Type().IsRegular():
		return fmt.Errorf("it is there already, and %q in it is no longer a file of its own", name)
	case !listed:
		return fmt.Errorf("it is there already and holds %q, which is no part of it", name)
	}
	is, err := sumOfFile(filepath.Join(dir, name))
	if err == nil && is != sum {
		err = fmt.Errorf("it is there already, and %q in it was changed since it was written", name)
	}
	return err
}

func sumOfFile(path string) (string, error) {
	f, err := os.Open(path)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
