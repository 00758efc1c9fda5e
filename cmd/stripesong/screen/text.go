package screen

import (
	"strings"
	"unicode/utf8"

	"github.com/rivo/uniseg"

	"stripesong/sequence/brief/tomltext"
)

// Visible shows control characters in place of obeying them: those below
// space by their pictures (U+2400 and on), all others that steer rather than
// show as TOML escapes them. Bytes that are not UTF-8 become U+FFFD.
func Visible(s string) string { return tomltext.Visible(s) }

// Width is how many cells a terminal gives s, which holds no controls.
func Width(s string) int {
	if tomltext.Printable(s) {
		return len(s)
	}
	return uniseg.StringWidth(s)
}

// Pad fills s with spaces on the right to width cells; what is wider stays.
func Pad(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-Width(s)))
}

// PadLeft fills s with spaces on the left to width cells.
func PadLeft(s string, width int) string {
	return strings.Repeat(" ", max(0, width-Width(s))) + s
}

// Cut shortens s to at most width cells, an ellipsis standing for the rest.
// It never cuts through a character and its marks.
func Cut(s string, width int) string {
	if Width(s) <= width {
		return s
	}
	if width < 1 {
		return ""
	}
	var b strings.Builder
	used, state := 0, -1
	for s != "" {
		var cluster string
		var w int
		cluster, s, w, state = uniseg.FirstGraphemeClusterInString(s, state)
		if used+w > width-1 {
			break
		}
		b.WriteString(cluster)
		used += w
	}
	return b.String() + "…"
}

// Wrap breaks s at spaces into lines of at most width cells. A word wider
// than that gets a line of its own.
func Wrap(s string, width int) []string {
	var lines []string
	line := ""
	for word := range strings.FieldsSeq(s) {
		switch {
		case line == "":
			line = word
		case Width(line)+1+Width(word) <= width:
			line += " " + word
		default:
			lines = append(lines, line)
			line = word
		}
	}
	return append(lines, line)
}

// Caret lays out a line of a file and, under it, a caret at the col-th
// character (from 1). Tabs become spaces and controls visible; of a line wider
// than width the part around the caret is shown, and of marks without end, which
// take no width, so many as well.
func Caret(line string, col, width int) (text, under string) {
	before, after := splitAt(line, col-1)
	most := 4 * width
	from := utf8.RuneCountInString(before) - most
	_, near := splitAt(before, from)
	near = expand(near)
	if from > 0 || Width(near) > width*2/3 {
		near = "…" + tail(near, width/2)
	}
	after, rest := splitAt(after, most)
	after = expand(after)
	if rest != "" {
		after += "…"
	}
	return near + Cut(after, width-Width(near)), strings.Repeat(" ", Width(near)) + "^"
}

func splitAt(s string, runes int) (before, after string) {
	at := 0
	for ; runes > 0 && at < len(s); runes-- {
		_, n := utf8.DecodeRuneInString(s[at:])
		at += n
	}
	return s[:at], s[at:]
}

func expand(s string) string { return Visible(strings.ReplaceAll(s, "\t", "    ")) }

// tail is the end of s, at most width cells of it, in one pass.
func tail(s string, width int) string {
	if tomltext.Printable(s) {
		return s[max(0, len(s)-width):]
	}
	type cluster struct{ at, width int }
	var all []cluster
	for at, state := 0, -1; at < len(s); {
		one, _, w, next := uniseg.FirstGraphemeClusterInString(s[at:], state)
		all = append(all, cluster{at, w})
		at, state = at+len(one), next
	}
	from, used := len(s), 0
	for i := len(all) - 1; i >= 0 && used+all[i].width <= width; i-- {
		from, used = all[i].at, used+all[i].width
	}
	return s[from:]
}
