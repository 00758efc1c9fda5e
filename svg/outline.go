package svg

import "strconv"

// outline is the data of a path, put together from numbers alone.
type outline []byte

// rect is a rectangle on paper.
func rect(x, y, w, h um) outline { return outline(nil).rect(x, y, w, h) }

// rect adds a rectangle on paper.
func (o outline) rect(x, y, w, h um) outline {
	o = o.to('M', x, y)
	o = appendNum(append(o, 'h'), w)
	o = appendNum(append(o, 'v'), h)
	o = appendNum(append(o, 'h'), -w)
	return append(o, 'z')
}

// line adds a line on paper.
func (o outline) line(points ...um) outline {
	for i := 0; i+1 < len(points); i += 2 {
		command := byte('L')
		if i == 0 {
			command = 'M'
		}
		o = o.to(command, points[i], points[i+1])
	}
	return o
}

// shape is an area with straight edges between points on paper.
func shape(points ...um) outline { return append(outline(nil).line(points...), 'z') }

func (o outline) to(command byte, x, y um) outline {
	o = appendNum(append(o, command), x)
	return appendNum(append(o, ' '), y)
}

// cells adds a rectangle in threads: x and w in ends, y and h in picks.
func (o outline) cells(x, y, w, h int) outline {
	o = strconv.AppendInt(append(o, 'M'), int64(x), 10)
	o = strconv.AppendInt(append(o, ' '), int64(y), 10)
	o = strconv.AppendInt(append(o, 'h'), int64(w), 10)
	o = strconv.AppendInt(append(o, 'v'), int64(h), 10)
	o = strconv.AppendInt(append(o, 'h'), int64(-w), 10)
	return append(o, 'z')
}
