package svg

import (
	"bytes"
	"crypto/sha256"
	"fmt"
)

// Sealed is a drawing with one more line, a comment that holds the SHA-256 of all
// before it. By that [IsSealed] tells later that nobody has changed the drawing,
// with nothing kept anywhere else.
func Sealed(drawing []byte) []byte {
	return append(bytes.Clone(drawing), seal(drawing)...)
}

// IsSealed tells whether a file is a drawing as [Sealed] gave it, to the byte.
func IsSealed(file []byte) bool {
	end := len(file) - len(seal(nil))
	return end >= 0 && bytes.Equal(file[end:], seal(file[:end]))
}

// seal is the line; it is of one length for all drawings.
func seal(drawing []byte) []byte {
	const line = "<!-- stripesong replaces this drawing while it is unchanged: sha256 %x -->\n"
	return fmt.Appendf(nil, line, sha256.Sum256(drawing))
}
