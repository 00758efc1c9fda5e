package folder

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestName keeps folder names within what every file system takes.
const longestName = 80

// Name makes the name of a folder from a title: its letters and digits, in
// lower case, with single dashes between. It is never a path, never hidden,
// and never a name that a system keeps for its devices.
func Name(title string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(title) {
		switch {
		case unicode.IsLetter(r), unicode.IsDigit(r), unicode.Is(unicode.M, r) &&
			b.Len() > 0 && !gap:
			if gap && b.Len() > 0 {
				b.WriteByte('-')
			}
			gap = false
			if b.Len()+utf8.UTFMax > longestName {
				return strings.TrimRight(b.String(), "-")
			}
			b.WriteRune(r)
		case r != '\'' && r != '’':
			gap = true
		}
	}
	return unreserved(strings.TrimRight(b.String(), "-"))
}

// devices are names that mean no file on Windows; with a digit: com1, lpt1.
var devices = map[string]bool{"con": true, "prn": true, "aux": true, "nul": true, "com": true,
	"lpt": true}

func unreserved(name string) string {
	switch {
	case name == "":
		return "towels"
	case devices[strings.TrimRightFunc(name, unicode.IsNumber)]:
		return name + "-towels"
	}
	return name
}
