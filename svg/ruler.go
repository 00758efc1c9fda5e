package svg

import "strconv"

// The steps of scale bars, smallest first, in tenths of a millimetre of cloth, for
// centimetres and inches.
var (
	cmSteps   = []int{100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000}
	inchSteps = []int{254, 508, 1016, 1524, 3048, 6096, 9144, 18288, 36576}
)

// measureOf is what one step of a length ruler counts in: tenths of a
// millimetre to a centimetre or an inch, and the steps to choose from.
func measureOf(units string) (name string, size int, steps []int) {
	if units == "in" {
		return "in", 254, inchSteps
	}
	return "cm", 100, cmSteps
}

// bar draws a scale bar, at most room long, standing on y, and gives its
// length.
func (p *pen) bar(x, y um, units string, s scale, room um, f font) um {
	name, size, steps := measureOf(units)
	best := steps[0]
	for _, step := range steps {
		if s.of(um(step)*100) <= room {
			best = step
		}
	}
	w := s.of(um(best) * 100)
	p.fill(rect(x, y-900, w/2, 900), black)
	p.outlined(rect(x, y-900, w, 900), none, black, 150)
	label := strconv.Itoa(best/size) + " " + name
	p.text(x+w+mm, y, f, label)
	return w + mm + f.width(label)
}
