//go:build linux || darwin

package whole

import (
	"bytes"

	"golang.org/x/sys/unix"
)

// mostAttributes is more than the names, or one value, of a file's attributes take.
const mostAttributes = 64 << 10

// keepAttributes gives a new file the extended attributes of the one it replaces,
// such as a list of who may read it or a colour in the file manager, as far as this
// user may.
func keepAttributes(path, of string) {
	names := make([]byte, mostAttributes)
	n, err := unix.Listxattr(of, names)
	if err != nil {
		return
	}
	value := make([]byte, mostAttributes)
	for name := range bytes.SplitSeq(names[:n], []byte{0}) {
		if len(name) == 0 {
			continue
		}
		if n, err := unix.Getxattr(of, string(name), value); err == nil {
			unix.Setxattr(path, string(name), value[:n], 0)
		}
	}
}
