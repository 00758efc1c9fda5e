package svg

// grid is where the pieces stand: in reading order, all at one scale, those of a
// row on one line.
type grid struct {
	area          frame
	columns, rows int
	scale         scale
	words         wording
	pitch         um   // from one column to the next
	left          um   // of the first column
	feet          []um // the line that each row stands on
	top           um   // of the longest piece of the first row
}

type frame struct{ x, y, w, h um }

const (
	columnGap = 6 * mm  // at least, between pieces side by side
	mostGap   = 16 * mm // and at most, as long as the first column stands at the edge
	rowGap    = 3 * mm  // at least, from the words of a piece to the row below
	mostRow   = 9 * mm
)

// gridFor finds the columns that show pieces of some lengths largest, at most as
// large as life. All lengths and the width are those of the cloth.
func gridFor(area frame, width um, lengths []um, wording func(room um) wording) *grid {
	var best *grid
	for columns := 1; columns <= len(lengths); columns++ {
		rows := (len(lengths) + columns - 1) / columns
		if (len(lengths)+rows-1)/rows != columns { // a column would stand empty
			continue
		}
		g := &grid{area: area, columns: columns, rows: rows}
		g.fit(width, lengths, wording)
		if best == nil || g.scale.paper > best.scale.paper {
			best = g
		}
	}
	best.settle(lengths)
	return best
}

// fit finds the scale. How high the words under a piece are hangs on how wide its
// column is, so that is found twice.
func (g *grid) fit(width um, lengths []um, wording func(room um) wording) {
	long := um(0)
	for _, l := range g.longest(lengths) {
		long += l
	}
	across := min(width, (g.area.w-um(g.columns-1)*columnGap)/um(g.columns))
	face := across
	for range 2 {
		g.words = wording(max(face, g.gap(face)+face-columnGap))
		down := g.area.h - um(g.rows)*g.words.height() - um(g.rows-1)*rowGap
		face = max(1, min(across, part(down, int(width), max(1, int(long)))))
	}
	g.scale = scale{face, width}
	g.pitch = face + g.gap(face)
}

// gap is the room between two columns of some width: what is left over, with the
// first column at the edge; where that is much, the same on both sides of every
// column.
func (g *grid) gap(face um) um {
	spare := g.area.w - um(g.columns)*face
	if gap := spare / um(g.columns); gap <= mostGap {
		return gap
	}
	return max(mostGap, spare/um(g.columns+1))
}

// longest is the longest piece of each row.
func (g *grid) longest(lengths []um) []um {
	rows := make([]um, g.rows)
	for i, l := range lengths {
		rows[i/g.columns] = max(rows[i/g.columns], l)
	}
	return rows
}

// settle shares out the room that is left over: some of it between the pieces, the
// rest round them all.
func (g *grid) settle(lengths []um) {
	g.left = g.area.x
	if gap := g.pitch - g.scale.paper; gap >= mostGap {
		g.left += (g.area.w - um(g.columns)*g.pitch + gap) / 2
	}
	rows, spare := g.longest(lengths), g.area.h
	for _, l := range rows {
		spare -= g.scale.of(l) + g.words.height() + rowGap
	}
	between := rowGap + min(mostRow-rowGap, max(0, spare)/um(g.rows))
	spare = g.area.h + between
	for _, l := range rows {
		spare -= g.scale.of(l) + g.words.height() + between
	}
	y := g.area.y + max(0, spare)*2/5
	g.top = y
	for _, l := range rows {
		y += g.scale.of(l)
		g.feet = append(g.feet, y)
		y += g.words.height() + between
	}
}

// at is where the lower left corner of piece i stands.
func (g *grid) at(i int) (x, foot um) {
	return g.left + um(i%g.columns)*g.pitch, g.feet[i/g.columns]
}

// room is how wide the words under a piece may be: they may reach into the gap to
// its right.
func (g *grid) room() um { return max(g.scale.paper, g.pitch-columnGap) }
