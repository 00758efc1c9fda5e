package svg

import (
	"bufio"
	"fmt"
	"io"
	"strconv"

	"stripesong/palette"

	svgo "github.com/ajstarks/svgo/float"
)

// um is a length on paper in whole micrometres. All layout is done on whole
// numbers, so that a sheet is the same on every processor and no coordinate
// can be infinite or negative zero.
type um int

// mm is one millimetre.
const mm um = 1000

// paint is something an area can be filled with: a checked colour or a tile.
// Only [pen.ink] and [pen.tile] make one from what a plan holds.
type paint string

// The greys of the sheet itself; the cloth is its only colour.
const (
	none   paint = "none"
	paper  paint = "#ffffff"
	black  paint = "#1f1f1f"
	quiet  paint = "#5c5c5c"
	line   paint = "#9a9a9a"
	hair   paint = "#d2d2d2"
	shaded paint = "#ececec"
)

// pen is the one way anything gets into a drawing. User text becomes the body
// of a text element and nothing else, colours are checked, ids are counted,
// numbers are whole micrometres. The first error is kept and returned by
// [pen.finish]; later strokes are harmless.
type pen struct {
	canvas *svgo.SVG
	out    *bufio.Writer
	err    error
	ids    int

	scratch []byte // kept from text to text
}

// open starts a drawing of w by h on paper, with a title and a description
// for those who cannot see it.
func open(to io.Writer, w, h um, title, desc string) *pen {
	out := bufio.NewWriterSize(to, 1<<12) // a packet holds hundreds of drawings
	p := &pen{canvas: svgo.New(out), out: out}
	p.canvas.Decimals = 0
	p.canvas.Startraw(
		fmt.Sprintf(`width="%smm" height="%smm" viewBox="0 0 %s %s"`, num(w), num(h), num(w),
			num(h)),
		`role="img" font-family="sans-serif"`)
	p.canvas.Title(visible(title))
	p.canvas.Desc(visible(desc))
	p.fill(rect(0, 0, w, h), paper)
	return p
}

// finish ends the drawing and returns the first error met on the way, its
// own or the writer's.
func (p *pen) finish() error {
	p.canvas.End()
	if err := p.out.Flush(); p.err == nil {
		p.err = err
	}
	return p.err
}

// fail keeps the first error.
func (p *pen) fail(err error) {
	if p.err == nil {
		p.err = err
	}
}

// ink paints with a colour.
func ink(c palette.RGB) paint { return paint(c.Hex()) }

// newID counts up; ids never hold anything of the user's.
func (p *pen) newID() string {
	p.ids++
	return "n" + strconv.Itoa(p.ids)
}

// fill fills an outline.
func (p *pen) fill(d outline, with paint) {
	if len(d) == 0 {
		return
	}
	p.canvas.Path(string(d), `fill="`+string(with)+`"`)
}

// stroke draws an outline as lines of the given width.
func (p *pen) stroke(d outline, with paint, width um) {
	p.outlined(d, none, with, width)
}

// outlined fills an outline and draws its edge.
func (p *pen) outlined(d outline, with, edge paint, width um) {
	p.canvas.Path(string(d), `fill="`+string(with)+`" stroke="`+string(edge)+`" stroke-width="`+
		num(width)+`"`)
}

// group opens a group; attributes are the pen's own words, never the user's.
func (p *pen) group(attributes ...string) { p.canvas.Group(attributes...) }

// end closes a group.
func (p *pen) end() { p.canvas.Gend() }

// title names the group just opened, for those who cannot see it.
func (p *pen) title(s string) { p.canvas.Title(visible(s)) }

// use draws a defined group again.
func (p *pen) use(id, transform string) {
	p.canvas.Use(0, 0, "#"+id, `transform="`+transform+`"`)
}

// num writes micrometres as millimetres, at most three decimals and no
// trailing zeros.
func num(v um) string { return string(appendNum(nil, v)) }

func appendNum(b []byte, v um) []byte { return appendDecimal(b, int(v), 3) }

// factor writes the quotient of a length and a count as a scale factor: in
// millimetres, to six decimals, since an error grows with what it scales.
func factor(length um, count int) string {
	if count == 0 {
		return "0"
	}
	return string(appendDecimal(nil, divide(int(length)*1000, count), 6))
}

// appendDecimal writes v/10^places without trailing zeros.
func appendDecimal(b []byte, v, places int) []byte {
	if v < 0 {
		b = append(b, '-')
		v = -v
	}
	unit := 1
	for range places {
		unit *= 10
	}
	b = strconv.AppendInt(b, int64(v/unit), 10)
	if v %= unit; v > 0 {
		b = append(b, '.')
	}
	for v > 0 {
		unit /= 10
		b = append(b, byte('0'+v/unit))
		v %= unit
	}
	return b
}

// divide rounds a/b to the nearest whole number, halves away from zero; b > 0.
func divide(a, b int) int {
	if a < 0 {
		return -divide(-a, b)
	}
	return (a + b/2) / b
}

// part is the share a/b of a length.
func part(length um, a, b int) um { return um(divide(int(length)*a, b)) }

// micrometres is the size on paper of something measured in millimetres of cloth; 0
// for what is no size.
func micrometres(cloth float64) um {
	if !(cloth > 0 && cloth < 1e7) { // ten kilometres; NaN fails too
		return 0
	}
	return um(float64(cloth*1000) + 0.5)
}
