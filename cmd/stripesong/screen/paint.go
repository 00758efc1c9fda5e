package screen

import (
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"stripesong/palette"
)

// Paint is what a stream can show.
type Paint int

const (
	Plain  Paint = iota // no colours
	Cube                // the 256 colours of most terminals
	Direct              // any colour
)

// IsTerminal tells whether w is one.
func IsTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// Size is that of the terminal w, or 80 columns by 24 rows where it can't be
// told.
func Size(w io.Writer) (columns, rows int) {
	if f, ok := w.(*os.File); ok {
		if c, r, err := term.GetSize(int(f.Fd())); err == nil && c > 0 && r > 0 {
			return c, r
		}
	}
	return 80, 24
}

// Detect tells which colours w can show, going by what it is and by NO_COLOR
// (no-color.org: any value but an empty one), TERM and COLORTERM.
func Detect(w io.Writer, env func(string) string) Paint {
	if !IsTerminal(w) {
		return Plain
	}
	return promised(env)
}

func promised(env func(string) string) Paint {
	kind := env("TERM")
	switch {
	case env("NO_COLOR") != "", kind == "dumb":
		return Plain
	case env("COLORTERM") == "truecolor", env("COLORTERM") == "24bit",
		strings.HasSuffix(kind, "-direct"), env("WT_SESSION") != "":
		return Direct
	case strings.Contains(kind, "256color"):
		return Cube
	}
	return Plain
}

// Swatch is a patch of a colour, so many cells wide; nothing where there are
// no colours.
func (p Paint) Swatch(c palette.RGB, cells int) string {
	if p == Plain || cells <= 0 {
		return ""
	}
	return p.background(c) + strings.Repeat(" ", cells) + "\x1b[0m"
}

func (p Paint) background(c palette.RGB) string {
	if p == Direct {
		return fmt.Sprintf("\x1b[48;2;%d;%d;%dm", c.R, c.G, c.B)
	}
	return fmt.Sprintf("\x1b[48;5;%dm", cube(c))
}

// Strong makes text stand out.
func (p Paint) Strong(s string) string {
	if p == Plain {
		return s
	}
	return "\x1b[1m" + s + "\x1b[0m"
}

// Strip is a row of swatches in one go: neighbours of one colour share an
// escape.
func (p Paint) Strip(cells []palette.RGB) string {
	var b strings.Builder
	for i := 0; i < len(cells); {
		n := i + 1
		for n < len(cells) && cells[n] == cells[i] {
			n++
		}
		b.WriteString(p.Swatch(cells[i], n-i))
		i = n
	}
	return b.String()
}

// cube finds the nearest of the 216 colours (16 and on, steps of 0, 95, 135,
// 175, 215, 255) and the 24 greys (232 and on, 8 to 238) of a 256-colour
// terminal, as xterm lays them out.
func cube(c palette.RGB) int {
	r, g, b := step(c.R), step(c.G), step(c.B)
	best, index := apart(c, level(r), level(g), level(b)), 16+36*r+6*g+b
	for i := range 24 {
		v := 8 + 10*i
		if d := apart(c, v, v, v); d < best {
			best, index = d, 232+i
		}
	}
	return index
}

func step(v uint8) int {
	if v < 48 {
		return 0
	}
	return max(1, (int(v)-35)/40)
}

func level(step int) int {
	if step == 0 {
		return 0
	}
	return 55 + 40*step
}

func apart(c palette.RGB, r, g, b int) int {
	dr, dg, db := int(c.R)-r, int(c.G)-g, int(c.B)-b
	return dr*dr + dg*dg + db*db
}
