package svg

// The shape of what lies on top of a crossing: a lens, its ends rounded, a little
// thicker in the middle. It covers as much as the rectangle that it stands for.
const (
	capLength  = 300 // of a rounded end, in thousandths of the way from end to end
	leastCap   = 200 // where there is hardly a way to be thicker
	capHeight  = 800 // where it meets the rest, in thousandths of the middle
	quarterPi  = 0.78539816339744830962
	twoThirds  = 2.0 / 3
	notRounded = 1 - quarterPi // what rounding takes of a rectangle
)

// lens is a shape about a point, in parts of a micrometre.
type lens struct {
	length float64 // from tip to tip
	cap    float64 // the length of each rounded end
	height float64 // in the middle
	side   float64 // where the rounded ends begin
}

// lensFor is the lens that covers a rectangle of a length and a height, and is no
// higher than room; way is from end to end. Where there is no room to be thicker in
// the middle it grows at its ends if it may, and else is less rounded.
func lensFor(length, height, room, way float64, grow bool) lens {
	area := float64(length * height)
	l := lens{length: length, cap: min(way*capLength/1000, length/5, height/2)}
	const part = capHeight / 1000.0
	middle := length - 2*l.cap
	const bulging = part + twoThirds*(1-part) // of the middle, on average
	l.height = area / (float64(2*quarterPi*part*l.cap) + float64(bulging*middle))
	l.side = part * l.height
	if l.height <= room {
		return l
	}
	l.height, l.side = room, room
	l.cap = min(l.cap, (length-area/room)/(2*notRounded))
	if least := min(way*leastCap/1000, length/5); grow && l.cap < least {
		l.cap = least
		l.length = area/room + float64(2*notRounded*least)
	}
	l.height = area / (l.length - float64(2*notRounded*l.cap))
	l.side = l.height
	return l
}

// inset is the lens less a margin all around, for an edge to be drawn there.
func (l lens) inset(margin float64) lens {
	both := float64(2 * margin)
	l.length -= both
	l.height -= both
	l.side -= both
	return l
}

// lens adds a lens about a point, to a hundredth of a millimetre.
func (o outline) lens(x, y float64, l lens) outline {
	cap, middle := tens(l.cap), tens(l.length-2*l.cap)
	side, bulge := tens(l.side), tens(l.height-l.side)
	o = o.to('M', tens(x-float64(float64(middle)/2)), tens(y-float64(float64(side)/2)))
	o = o.bow(middle, -bulge).halfOval(cap, side)
	o = o.bow(-middle, bulge).halfOval(cap, -side)
	return append(o, 'z')
}

// halfOval adds half of an oval that lies on its side, turning right, down (or up)
// to a height; a line where it has no length.
func (o outline) halfOval(length, height um) outline {
	if length == 0 {
		return appendNum(append(o, 'v'), height)
	}
	o = appendNum(append(o, 'a'), length)
	o = appendNum(append(o, ' '), max(height, -height)/2)
	return appendNum(append(o, " 0 0 1 0 "...), height)
}

// bow adds a curve along a length, whose middle is half of off away from the
// straight line.
func (o outline) bow(along, off um) outline {
	if off == 0 {
		return appendNum(append(o, 'h'), along)
	}
	o = o.to('q', along/2, off)
	o = appendNum(append(o, ' '), along)
	return append(o, " 0"...)
}

// tens is the nearest whole hundredth of a millimetre.
func tens(v float64) um { return umOf(float64(v/10)) * 10 }

// umOf is the nearest whole micrometre.
func umOf(v float64) um {
	if v < 0 {
		return -umOf(-v)
	}
	return um(float64(v) + 0.5)
}
