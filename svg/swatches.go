package svg

import (
	"fmt"
	"io"

	"stripesong/palette"
)

// Swatch is one colour of a palette.
type Swatch struct {
	Name   string
	Colour palette.RGB
	Note   string // below its name; may be empty
}

// The sizes of a swatch sheet.
const (
	swatchWidth  = 44 * mm
	swatchHeight = 30 * mm
	swatchPitchX = 48 * mm
	swatchPitchY = 48 * mm
	swatchesWide = 4
	swatchTop    = 28 * mm
	greyWidth    = 9 * mm
	swatchMargin = 10 * mm
)

// Swatches draws a palette as a sheet: each colour beside the grey of its
// lightness, with its name, number and lightness. It is four wide and as long
// as it takes.
func Swatches(w io.Writer, title, lead string, all []Swatch) error {
	rows := (len(all) + swatchesWide - 1) / swatchesWide
	width := 2*swatchMargin + swatchesWide*swatchPitchX - (swatchPitchX - swatchWidth)
	height := swatchTop + um(max(rows, 1))*swatchPitchY + swatchMargin/2
	p := open(w, width, height, title,
		fmt.Sprintf("A palette of %d colours, each beside the grey of its lightness.", len(all)))
	p.text(swatchMargin, 14*mm, head, head.fit(title, width-2*swatchMargin))
	p.text(swatchMargin, 20*mm, body, body.fit(lead, width-2*swatchMargin))
	for i, s := range all {
		p.swatch(swatchMargin+um(i%swatchesWide)*swatchPitchX,
			swatchTop+um(i/swatchesWide)*swatchPitchY, s)
	}
	return p.finish()
}

func (p *pen) swatch(x, y um, s Swatch) {
	l := s.Colour.Lab().L
	p.group()
	p.title(s.Name)
	p.fill(rect(x, y, swatchWidth-greyWidth, swatchHeight), ink(s.Colour))
	p.fill(rect(x+swatchWidth-greyWidth, y, greyWidth, swatchHeight), ink(greyOf(l)))
	p.stroke(rect(x, y, swatchWidth, swatchHeight), hair, 150)
	name := body.heavy()
	p.text(x, y+swatchHeight+4*mm, name, name.fit(s.Name, swatchWidth))
	p.text(x, y+swatchHeight+7500, small.in(black), fmt.Sprintf("%s   L* %.0f", s.Colour.Hex(), l))
	for i, l := range small.lines(s.Note, swatchPitchX-mm, 3) {
		p.text(x, y+swatchHeight+10500+um(i)*small.line(), small, l)
	}
	p.end()
}
