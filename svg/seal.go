package svg

import (
	"bytes"
	"crypto/sha256"
	"fmt"
)

// Sealed is a drawing with one more line, a comment that says what made it and holds
// the SHA-256 of all before it. By that [IsSealed] tells later that nobody has changed
// the drawing, with nothing kept anywhere else.
func Sealed(by string, drawing []byte) []byte {
	return append(bytes.Clone(drawing), seal(by, drawing)...)
}

// IsSealed tells whether a file is a drawing as [Sealed] gave it, to the byte.
func IsSealed(by string, file []byte) bool {
	end := len(file) - len(seal(by, nil))
	return end >= 0 && bytes.Equal(file[end:], seal(by, file[:end]))
}

// seal is the line; it is of one length for all drawings of one maker.
func seal(by string, drawing []byte) []byte {
	const line = "<!-- \"stripesong %s\" replaces this drawing while it is unchanged: " +
		"sha256 %x -->\n"
	return fmt.Appendf(nil, line, by, sha256.Sum256(drawing))
}
