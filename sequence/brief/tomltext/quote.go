package tomltext

import (
	"fmt"
	"strings"
	"unicode"
)

// Quote is a text as a basic string of TOML, which knows fewer escapes than Go.
// What [Steers] is escaped, so that the file can be shown as it is.
func Quote(text string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range text {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case Steers(r) && r > 0xffff:
			fmt.Fprintf(&b, `\U%08x`, r)
		case Steers(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// Visible is a text with what [Steers] made harmless, for whatever people read:
// control characters of ASCII as their pictures (U+2400 and on), the rest as TOML
// escapes it, \u202e. Bytes that are not UTF-8 become U+FFFD.
func Visible(text string) string {
	if Printable(text) {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		switch {
		case r < 0x20:
			b.WriteRune(0x2400 + r)
		case r == 0x7f:
			b.WriteRune(0x2421)
		case Steers(r) && r > 0xffff:
			fmt.Fprintf(&b, `\U%08x`, r)
		case Steers(r) || unicode.Is(unicode.Noncharacter_Code_Point, r) && r <= 0xffff:
			fmt.Fprintf(&b, `\u%04x`, r)
		case unicode.Is(unicode.Noncharacter_Code_Point, r):
			fmt.Fprintf(&b, `\U%08x`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// Printable tells whether a text is printable ASCII throughout, as most are.
func Printable(text string) bool {
	for i := range len(text) {
		if text[i] < 0x20 || text[i] > 0x7e {
			return false
		}
	}
	return true
}

// Steers is true of what turns, breaks or hides text: all controls, line and
// paragraph separators, and format characters, apart from the two joiners that
// some scripts and pictures are spelled with.
func Steers(r rune) bool {
	if r == 0x200c || r == 0x200d {
		return false
	}
	return unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Cf, r) || r == 0x2028 || r == 0x2029
}

// List is texts as a list of TOML on one line.
func List(texts []string) string {
	quoted := make([]string, len(texts))
	for i, text := range texts {
		quoted[i] = Quote(text)
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

// bare are the characters of keys that need no quotes.
const bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-"

// keyOf is the keys of a path as one dotted key, in quotes where they have to be.
func keyOf(path []step) string {
	keys := make([]string, len(path))
	for i, s := range path {
		keys[i] = s.key
		if s.key == "" || strings.Trim(s.key, bare) != "" {
			keys[i] = Quote(s.key)
		}
	}
	return strings.Join(keys, ".")
}
