package screen

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// What a message shows of text that came from a file or the command line: of a
// word without blanks its beginning, and of a very long message both ends.
const (
	longestWord    = 120  // characters
	shownOfWord    = 60   // characters of a longer one
	longestMessage = 2000 // bytes
	shownOfMessage = 800  // bytes of each end of a longer one
)

// Short shortens text that would flood a terminal, and says by how much. Text of
// ordinary length stays as it is.
func Short(s string) string {
	if len(s) <= longestWord {
		return s
	}
	var b strings.Builder
	for len(s) > 0 {
		end := strings.IndexByte(s, ' ')
		if end < 0 {
			end = len(s)
		}
		b.WriteString(shortWord(s[:end]))
		if end < len(s) {
			b.WriteByte(' ')
			end++
		}
		s = s[end:]
	}
	return shortMiddle(b.String())
}

func shortWord(word string) string {
	n := utf8.RuneCountInString(word)
	if n <= longestWord {
		return word
	}
	shown, _ := splitAt(word, shownOfWord)
	return fmt.Sprintf("%s… (%d characters)", shown, n)
}

func shortMiddle(s string) string {
	if len(s) <= longestMessage {
		return s
	}
	head := strings.ToValidUTF8(s[:shownOfMessage], "")
	end := strings.ToValidUTF8(s[len(s)-shownOfMessage:], "")
	left := len(s) - len(head) - len(end)
	return fmt.Sprintf("%s … (%d bytes left out) … %s", head, left, end)
}
