package whole

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// Within tells whether path is the place of dir or lies in it, by whatever names:
// links are followed, and what is there is known by what it is, so that two
// spellings are one folder where the disk takes them so. Neither need be there.
func Within(path, dir string) bool {
	path = real(path)
	folder, missing := nearest(real(dir))
	if folder == nil {
		return false
	}
	for p := path; ; p = filepath.Dir(p) {
		if is, err := os.Stat(p); err == nil && os.SameFile(is, folder) {
			return under(path, filepath.Join(p, missing))
		}
		if filepath.Dir(p) == p {
			return false
		}
	}
}

// under tells whether path is dir or lies in it, by their names alone.
func under(path, dir string) bool {
	rel, err := filepath.Rel(dir, path)
	return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
}

// nearest is what is there of a path, the path itself or what is nearest above
// it, and the names from there on.
func nearest(path string) (is fs.FileInfo, rest string) {
	for p := path; ; p = filepath.Dir(p) {
		if is, err := os.Stat(p); err == nil {
			rest, _ = filepath.Rel(p, path)
			return is, rest
		}
		if filepath.Dir(p) == p {
			return nil, ""
		}
	}
}

// mostLinks is how many links to nowhere are followed one after another.
const mostLinks = 40

// real is a path from the root without links, as far as it is there. It is not
// cleaned before: what follows a link goes up from where the link leads.
func real(path string) string {
	if here, err := os.Getwd(); err == nil && !filepath.IsAbs(path) {
		path = here + string(filepath.Separator) + path
	}
	rest := ""
	for links := 0; ; {
		if is, err := filepath.EvalSymlinks(path); err == nil {
			return filepath.Join(is, rest)
		}
		path = strings.TrimRightFunc(path, isSeparator)
		dir, name := filepath.Split(path)
		if to, err := os.Readlink(path); err == nil && links < mostLinks {
			links++
			if path = to; !filepath.IsAbs(to) {
				path = dir + to
			}
			continue
		}
		if name == "" {
			return filepath.Join(path, rest)
		}
		path, rest = dir, filepath.Join(name, rest)
	}
}

func isSeparator(r rune) bool { return r < 0x80 && os.IsPathSeparator(uint8(r)) }
