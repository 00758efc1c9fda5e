package svg

import (
	"io"
	"strconv"
)

// Proof draws a ruler of 100 mm and one of 4 inches, to be held against a real
// one: if they agree, the sheet was printed at true size.
func Proof(w io.Writer) error {
	p := open(w, 112*mm, 15*mm, "Ruler to check the size of print",
		"100 millimetres, and below 4 inches.")
	x := 4 * mm
	marks := outline(nil).line(x, 6*mm, x+100*mm, 6*mm)
	for k := range 101 {
		length := um(1200)
		if k%10 == 0 {
			length = 3 * mm
			p.text(x+um(k)*mm, 2500, tapeSmall.in(black).at(middle), strconv.Itoa(k))
		}
		marks = marks.line(x+um(k)*mm, 6*mm, x+um(k)*mm, 6*mm-length)
	}
	marks = marks.line(x, 8*mm, x+101600, 8*mm)
	for k := range 33 { // eighths of an inch
		length := um(1200)
		if k%8 == 0 {
			length = 3 * mm
			p.text(x+um(k)*3175, 13800, tapeSmall.in(black).at(middle), strconv.Itoa(k/8)+" in")
		}
		marks = marks.line(x+um(k)*3175, 8*mm, x+um(k)*3175, 8*mm+length)
	}
	p.stroke(marks, black, 200)
	p.text(x+103*mm, 5800, tapeSmall.in(black), "mm")
	return p.finish()
}
