package svg

import (
	"fmt"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// grid divides the space for the pieces: columns read bottom up, from the
// left, as the cloth grows.
type grid struct {
	x, y, w, h    um
	columns, rows int
	face          um // width of one side on paper
	row, need     um // from one piece to the next above it; what a piece needs of that
}

const (
	sidesApart = 1500 * um(1)
	cellGap    = 4 * mm
	thinnest   = 300 * um(1) // no thread is drawn thinner than this
)

// gridFor finds the columns that show the pieces largest.
func gridFor(x, y, w, h um, pieces int, width, longest um) grid {
	best := grid{}
	for columns := 1; columns <= pieces; columns++ {
		g := grid{x: x, y: y, w: w, h: h, columns: columns, rows: (pieces + columns - 1) / columns}
		if (pieces+g.rows-1)/g.rows != columns { // a column would stand empty
			continue
		}
		cell := g.cell()
		g.face = min((cell.w-cellGap-sidesApart)/2, width)
		if longest > 0 {
			g.face = min(g.face, part(cell.h-g.caption(), int(width), int(longest)))
		}
		if g.face > best.face {
			best = g
		}
	}
	best.settle(width, longest)
	return best
}

// settle puts the rows no further apart than looks well.
func (g *grid) settle(width, longest um) {
	g.need = part(g.face, int(longest), int(width)) + g.caption()
	g.row = min(g.cell().h, g.need+6*mm)
}

type frame struct{ x, y, w, h um }

// cell is the size of one place.
func (g grid) cell() frame { return frame{w: g.w / um(g.columns), h: g.h / um(g.rows)} }

// at is the place of piece i.
func (g grid) at(i int) frame {
	c := g.cell()
	c.x = g.x + um(i/g.rows)*c.w
	c.y, c.h = g.y+um(g.rows-1-i%g.rows)*g.row, g.need
	return c
}

// shrunk is how far captions are set smaller where pieces are many, in
// percent.
func (g grid) shrunk() um { return max(25, min(100, g.cell().h*100/(30*mm), g.cell().w*100/(28*mm))) }

func (g grid) font(f font) font { return f.sized(f.size * g.shrunk() / 100) }

// caption is the height of the text under a piece.
func (g grid) caption() um { return 14500 * g.shrunk() / 100 }

// pieces draws every piece.
func (s *setSheet) pieces() {
	longest := um(0)
	for i := range s.plan.Pieces {
		longest = max(longest, sizesOf(s.plan, &s.plan.Pieces[i]).folded().whole())
	}
	width := micrometres(s.plan.Warp.FinishedWidthMM)
	if width == 0 {
		s.pen.fail(fmt.Errorf("the cloth of %q has no width", s.plan.Title))
		return
	}
	g := gridFor(margin, worksTop, panelLeft-margin-3*mm, setHeight-worksTop-10*mm, len(s.plan.Pieces), width, longest)
	scale := scale{g.face, width}
	m := newMixed(s.pen, s.plan)
	m.define()
	for i := range s.plan.Pieces {
		s.piece(g, scale, m, i)
	}
	s.foot(g, scale)
}

// piece draws face and back of one piece and what it is called.
func (s *setSheet) piece(g grid, scale scale, m *mixed, i int) {
	piece := &s.plan.Pieces[i]
	cell := g.at(i)
	foot := cell.y + cell.h - g.caption()
	of := sizesOf(s.plan, piece).folded().on(scale)
	h := of.whole()
	s.pen.group()
	s.pen.title(fmt.Sprintf("%d %s", i+1, piece.Name))
	for n, back := range []bool{false, true} {
		x := cell.x + um(n)*(g.face+sidesApart)
		s.side(m, i, frame{x, foot, g.face, h}, of, back)
		s.pen.stroke(rect(x, foot-h, g.face, h), line, 100)
		s.pen.text(x+g.face/2, foot+2600*g.shrunk()/100, g.font(small).at(middle), sideName(back))
	}
	s.caption(g, i, cell.x, foot, cell.w-2*mm)
	s.pen.end()
}

// side draws one side standing on f.y: in mixed colours where a thread would
// be too thin to print, else to the thread.
func (s *setSheet) side(m *mixed, i int, f frame, of sizes, back bool) {
	piece := &s.plan.Pieces[i]
	if f.w/um(max(1, s.plan.Warp.Ends)) < thinnest || f.h/um(max(1, piece.Picks)) < thinnest {
		m.side(piece, f.x, f.y, f.w, of, back)
		return
	}
	c, err := clothOf(s.plan, i)
	if err != nil {
		s.pen.fail(err)
		return
	}
	newThreads(s.pen, c, s.plan).side(f.x, f.w, c.bands(piece, f.y, of), back)
}

// caption writes number and name, size and picks, and how many patterns are
// hard to see.
func (s *setSheet) caption(g grid, i int, x, foot, room um) {
	piece := &s.plan.Pieces[i]
	k := g.shrunk()
	name := g.font(title)
	s.pen.text(x, foot+6200*k/100, name, name.fit(fmt.Sprintf("%d %s", i+1, piece.Name), room))
	text := g.font(small)
	size := fmt.Sprintf("%s, %d picks", measure.FormatLength(piece.FinishedMM, s.plan.Units), piece.Picks)
	s.pen.text(x, foot+9200*k/100, text, text.fit(size, room))
	full, short := hardToSee(piece)
	s.pen.text(x, foot+11800*k/100, text, widest(text, room, full, short))
}

// hardToSee sums up the weak contrasts of a piece, in full and in short.
func hardToSee(piece *plan.Piece) (full, short string) {
	counts := map[string]int{}
	for _, c := range piece.Contrast {
		if at := seenAt(c, 2); at != nil {
			counts[at.Grade]++
		}
	}
	text := ""
	for _, grade := range weak {
		if n := counts[grade]; n > 0 {
			if text != "" {
				text += ", "
			}
			text += fmt.Sprintf("%d %s", n, grade)
		}
	}
	if text == "" {
		return "", ""
	}
	contrasts := "contrasts"
	if len(piece.Contrast) == 1 {
		contrasts = "contrast"
	}
	return fmt.Sprintf("at 2 m: %s of %d %s", text, len(piece.Contrast), contrasts), text
}

// foot draws the scale bar and says how to read the pieces.
func (s *setSheet) foot(g grid, scale scale) {
	y := setHeight - margin
	w := s.pen.bar(margin, y, s.plan.Units, scale, 30*mm, small.in(black))
	x := margin + w + 4*mm
	ratio := fmt.Sprintf("1:%d", divide(int(scale.cloth), max(1, int(scale.paper))))
	text := fmt.Sprintf("%s, finished%s. Woven from the bottom up%s.%s", ratio,
		map[bool]string{true: ", hems turned under"}[s.plan.Pieces[0].HemPicks > 0],
		map[bool]string{true: ", columns from the left", false: ""}[g.columns > 1], s.cuts())
	s.pen.text(x, y, small, small.fit(text, panelLeft-3*mm-x))
}

// cuts says what marks the cut between pieces.
func (s *setSheet) cuts() string {
	for _, piece := range s.plan.Pieces {
		if piece.SeparatorPick > 0 {
			return fmt.Sprintf(" %d picks mark each cut.", piece.SeparatorPick)
		}
	}
	return ""
}
