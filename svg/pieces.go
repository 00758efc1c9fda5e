package svg

import (
	"fmt"

	"stripesong/sequence/plan"
)

// stripRoom is what the warp's stripes over the pieces take.
const stripRoom = 7 * mm

// pieces draws every piece, and the warp's stripes over each column of them.
func (s *setSheet) pieces() {
	lengths := make([]um, len(s.plan.Pieces))
	for i := range s.plan.Pieces {
		lengths[i] = sizesOf(s.plan, &s.plan.Pieces[i]).folded().whole()
	}
	area := frame{margin, worksTop, panelLeft - margin - 6*mm, setHeight - margin - worksTop}
	area.y, area.h = area.y+stripRoom, area.h-stripRoom
	s.grid = gridFor(area, micrometres(s.plan.Warp.FinishedWidthMM), lengths, s.wording)
	s.strips()
	m := newMixed(s.pen, s.plan)
	m.define(s.plan.Pieces, true)
	turned := s.corner(lengths)
	for i := range s.plan.Pieces {
		x, foot := s.grid.at(i)
		piece := &s.plan.Pieces[i]
		s.pen.group()
		s.pen.title(fmt.Sprintf("%d %s", i+1, piece.Name))
		s.piece(m, piece, turned, x, foot)
		s.pen.end()
		s.caption(i, x, foot)
	}
}

// corner is the lower right corner of every piece that is turned over: how far it
// reaches along both edges, and the clip of it, from the lower left corner of
// the piece.
type corner struct {
	reach um
	clip  string
}

// corner is a quarter of a piece's width, unless the shortest is too short for it.
func (s *setSheet) corner(lengths []um) corner {
	w := s.grid.scale.paper
	reach := w / 4
	for _, l := range lengths {
		reach = min(reach, s.grid.scale.of(l)/3)
	}
	id := s.pen.newID()
	s.pen.canvas.Def()
	s.pen.canvas.ClipPath(`id="` + id + `"`)
	s.pen.canvas.Path(string(shape(w-reach, 0, w, -reach, w-reach, -reach)))
	s.pen.canvas.ClipEnd()
	s.pen.canvas.DefEnd()
	return corner{reach, id}
}

// piece draws the face of a piece standing on foot, and the back where its corner
// is turned over.
func (s *setSheet) piece(m *mixed, piece *plan.Piece, turned corner, x, foot um) {
	of := sizesOf(s.plan, piece)
	hem := s.grid.scale.of(of.hem)
	of = edged(piece, of.folded().on(s.grid.scale))
	w, h, q := s.grid.scale.paper, of.whole(), turned.reach
	m.side(piece, x, foot, w, of, false)
	const over = 200 // beyond the edges of the cloth
	right, below := x+w+over, foot+over
	s.pen.fill(shape(x+w-q, foot, x+w, foot-q, right, foot-q, right, below, x+w-q, below), paper)
	s.pen.group(`transform="translate(`+num(x)+" "+num(foot)+`)"`,
		`clip-path="url(#`+turned.clip+`)"`)
	s.pen.group(`transform="translate(` + num(w-q) + " " + num(-q) + `) rotate(90)"`)
	m.corner(piece, w, of, hem, q)
	s.pen.end()
	s.pen.end()
	s.pen.stroke(shape(x, foot-h, x+w, foot-h, x+w, foot-q, x+w-q, foot, x, foot), line, 100)
	s.pen.stroke(shape(x+w-q, foot, x+w, foot-q, x+w-q, foot-q), quiet, 100)
}

// edged gives a piece whose hems are turned under, all out of sight, the edge that
// is seen where they turn: at most a fiftieth of its length at each end.
func edged(piece *plan.Piece, of sizes) sizes {
	if piece.HemPicks > 0 && of.show == 0 {
		of.show = min(600, of.body/50)
		of.body -= 2 * of.show
	}
	return of
}

// turnedUnder is the part of a hem that lies on the back, in percent: it is folded
// twice, two fifths of it out of sight (common practice, no source).
const turnedUnder = 60

// corner draws the lower left corner of the back, w wide in all, as far up as
// reach, standing at 0 with its hem of some length turned under. A corner of the
// face turned over shows this a quarter turned to the right.
func (m *mixed) corner(piece *plan.Piece, w um, of sizes, hem, reach um) {
	m.pen.group(`shape-rendering="crispEdges"`)
	m.pen.title("a corner of the back")
	runs := len(piece.Runs)
	for runs > 1 && of.show+foot(piece, runs-1, of.body) >= reach {
		runs--
	}
	for i := runs - 1; i >= 0; i-- {
		m.down(kindOf(piece.Runs[i], true), 0, 0, w, of.show+foot(piece, i+1, of.body))
	}
	m.down(showKind(piece, true), 0, 0, w, max(of.show, hem*turnedUnder/100))
	m.pen.end()
}
