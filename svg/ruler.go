package svg

import "strconv"

// The steps of rulers, smallest first: in whole things; in a tenth of a
// millimetre of cloth for centimetres and inches.
var (
	countSteps = []int{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000}
	cmSteps    = []int{100, 200, 500, 1000, 2000, 5000, 10000, 20000, 50000}
	inchSteps  = []int{254, 508, 1016, 1524, 3048, 6096, 9144, 18288, 36576}
)

// stepOf is the smallest step that takes at least room, where all take w.
func stepOf(steps []int, total int, w, room um) int {
	for _, s := range steps {
		if total > 0 && part(w, s, total) >= room {
			return s
		}
	}
	return steps[len(steps)-1]
}

// ruler draws ticks with numbers above the line (or below it) for every step
// of total, which takes w.
func (p *pen) ruler(x, y, w um, total, step, size int, below bool) {
	tick, foot := -1*mm, -1600*um(1)
	if below {
		tick, foot = mm, 3200
	}
	marks := outline(nil).line(x, y, x+w, y)
	for at := 0; at <= total; at += step {
		k := x + part(w, at, total)
		marks = marks.line(k, y, k, y+tick)
		p.text(k, y+foot, small.at(middle), strconv.Itoa(at/size))
	}
	p.stroke(marks, line, 150)
}

// measure is what one step of a length ruler counts in: tenths of a
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
