package svg

import (
	"strings"
	"unicode"

	"github.com/rivo/uniseg"

	"stripesong/sequence/brief/tomltext"
)

// font is how a text is set.
type font struct {
	size   um
	bold   bool
	colour paint
	anchor anchor
	turned bool // reads upwards
}

type anchor string

const (
	start  anchor = ""
	middle anchor = "middle"
	end    anchor = "end"
)

// The sizes of the sheet: 2.1 mm is 6 point.
var (
	poster  = font{size: 6200, bold: true, colour: black}
	head    = font{size: 4600, bold: true, colour: black}
	section = font{size: 2400, bold: true, colour: black}
	title   = font{size: 2800, bold: true, colour: black}
	body    = font{size: 2400, colour: black}
	small   = font{size: 2100, colour: quiet}
)

func (f font) at(a anchor) font  { f.anchor = a; return f }
func (f font) in(c paint) font   { f.colour = c; return f }
func (f font) sized(s um) font   { f.size = s; return f }
func (f font) heavy() font       { f.bold = true; return f }
func (f font) upwards() font     { f.turned = true; return f }
func (f font) width(s string) um { return f.size * um(milliEms(s, f.bold)) / 1000 }
func (f font) line() um          { return f.size * 13 / 10 }

// text writes one line with its foot at y.
func (p *pen) text(x, y um, f font, s string) {
	if s == "" {
		return
	}
	p.scratch = f.attributes(p.scratch[:0], x, y)
	p.canvas.Text(0, 0, visible(s), string(p.scratch))
}

// attributes adds what the element of a text has: place, size, looks.
func (f font) attributes(b []byte, x, y um) []byte {
	b = appendNum(append(b, `transform="translate(`...), x)
	b = append(appendNum(append(b, ' '), y), ')')
	if f.turned {
		b = append(b, " rotate(-90)"...)
	}
	b = appendNum(append(b, `" font-size="`...), f.size)
	b = append(append(append(b, `" fill="`...), f.colour...), '"')
	if f.bold {
		b = append(b, ` font-weight="bold"`...)
	}
	if f.anchor != start {
		b = append(append(append(b, ` text-anchor="`...), f.anchor...), '"')
	}
	return b
}

// visible makes a text fit for XML, which forbids controls, and honest on paper.
func visible(s string) string { return tomltext.Visible(s) }

// fit shortens a text to a width, ending it with an ellipsis, without cutting
// through a character.
func (f font) fit(s string, room um) string {
	if f.width(s) <= room {
		return s
	}
	kept, rest, state := "", s, -1
	for rest != "" {
		var cluster string
		cluster, rest, _, state = uniseg.FirstGraphemeClusterInString(rest, state)
		if f.width(kept+cluster+"…") > room {
			break
		}
		kept += cluster
	}
	kept = strings.TrimRight(kept, " ,;")
	if kept == "" {
		return ""
	}
	return kept + "…"
}

// wrap breaks a text into lines at spaces; a word wider than the room is cut.
func (f font) wrap(s string, room um) []string {
	var lines []string
	current := ""
	for _, word := range words(visible(s)) {
		switch joined := current + " " + word; {
		case current == "":
			current = word
		case f.width(joined) <= room:
			current = joined
		default:
			lines = append(lines, f.fit(current, room))
			current = word
		}
	}
	if current != "" {
		lines = append(lines, f.fit(current, room))
	}
	return lines
}

// lines is a text in at most so many lines, the last shortened where it has to
// be.
func (f font) lines(s string, room um, most int) []string {
	all := f.wrap(s, room)
	if len(all) > most {
		all[most-1] = f.fit(strings.Join(all[most-1:], " "), room)
		all = all[:most]
	}
	return all
}

// words divides a text at its spaces, but keeps a number and its unit together.
func words(s string) (found []string) {
	for _, word := range strings.Fields(s) {
		n := len(found)
		if n > 0 && len(word) <= 3 && strings.Trim(found[n-1], "0123456789.") == "" {
			found[n-1] += "\u00a0" + word
			continue
		}
		found = append(found, word)
	}
	return found
}

// milliEms reckons the width of a text in thousandths of its size, on the wide
// side of the sans-serif faces in use, since which one will set it is unknown.
func milliEms(s string, bold bool) int {
	sum := 0
	for _, r := range visible(s) {
		sum += advance(r)
	}
	if bold {
		sum += sum / 8
	}
	return sum
}

// advances holds the widths of the ASCII characters from space on.
var advances = asciiAdvances()

func asciiAdvances() (w [128]int) {
	for r := range w {
		w[r] = 640
		if r >= 'A' && r <= 'Z' {
			w[r] = 780
		}
	}
	for _, class := range []struct {
		chars string
		width int
	}{
		{" .,'|!:;iljI`", 340}, {"ftrJ-()[]/\\\"", 420}, {"mWM@%", 1000}, {"w+<=>~#&_^*", 860},
	} {
		for _, r := range class.chars {
			w[r] = class.width
		}
	}
	return w
}

func advance(r rune) int {
	switch {
	case r < 128:
		return advances[r]
	case unicode.Is(unicode.Mn, r), unicode.Is(unicode.Me, r), unicode.Is(unicode.Cf, r):
		return 0
	case r == '\u00a0' || r == '·' || r == '’' || r == '‘':
		return 340
	case r < 0x250:
		return 700
	}
	switch uniseg.StringWidth(string(r)) {
	case 2:
		return 1280
	default:
		return 900
	}
}
