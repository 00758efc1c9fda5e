package svg

import (
	"fmt"
	"io"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// The sheet of a piece is A3 landscape less its margins; on A4 it is still readable.
const (
	pieceWidth  = 404 * mm
	pieceHeight = 283 * mm
	edge        = 4 * mm
	gutter      = 40 * mm // for the names of the weft runs
	between     = 6 * mm  // at least, from face to back
	sideColumn  = 88 * mm
	clothTop    = 56 * mm
	clothFoot   = pieceHeight - 14*mm
)

// The sizes of the larger sheet: 3 mm is 6 point when it is printed on A4.
var (
	largeHead  = font{size: 6500, bold: true, colour: black}
	largeTitle = font{size: 3900, bold: true, colour: black}
	largeBody  = font{size: 3300, colour: black}
	largeSmall = font{size: 3000, colour: quiet}
)

// Piece writes the sheet of piece i (from 0): face and back, hems unfolded, at one
// scale, to the thread where threads are thick enough and else in the colours they
// mix to; the runs named along both edges; a corner of the face enlarged until its
// crossings can be counted; the contrast of every combination of yarns at each
// distance.
func Piece(w io.Writer, p *plan.Plan, i int) error {
	c, err := clothOf(p, i)
	if err != nil {
		return err
	}
	piece := &p.Pieces[i]
	size := sizesOf(p, piece)
	if size.width == 0 || size.whole() == 0 {
		return fmt.Errorf("piece %q has no size", piece.Name)
	}
	name := fmt.Sprintf("%d %s", i+1, piece.Name)
	pen := open(w, pieceWidth, pieceHeight, name, describePiece(p, piece))
	s := &pieceSheet{pieceCloth: pieceCloth{p, piece, c}, pen: pen, index: i, size: size}
	s.heading(name)
	s.sides()
	s.detail()
	s.aside()
	return pen.finish()
}

type pieceSheet struct {
	pieceCloth
	pen   *pen
	index int
	size  sizes
	below um // where the enlarged part ends
}

// describePiece says in words what the sheet shows.
func describePiece(p *plan.Plan, piece *plan.Piece) string {
	text := pieceFacts(p, piece) + ". Weft, first woven first:"
	for i, run := range piece.Runs {
		if i == 80 {
			return text + fmt.Sprintf(" and %d more", len(piece.Runs)-i)
		}
		text += " " + weftName(run) + ";"
	}
	return text
}

// pieceFacts is a piece in one line.
func pieceFacts(p *plan.Plan, piece *plan.Piece) string {
	hems := ""
	if piece.HemPicks > 0 {
		hems = ", both hems included"
	}
	text := fmt.Sprintf("%s finished by %s; %s woven on the loom%s; %d picks",
		measure.FormatLength(p.AsFinishedMM(piece), p.Units),
		measure.FormatLength(p.Warp.FinishedWidthMM, p.Units),
		measure.FormatLength(piece.AsWovenMM(), p.Units), hems, piece.Picks)
	if piece.HemPicks > 0 {
		text += fmt.Sprintf(", %d of them in each hem", piece.HemPicks)
	}
	if piece.ShowPicks > 0 {
		text += fmt.Sprintf(", %d of plain in sight at each end", piece.ShowPicks)
	}
	if piece.SeparatorPick > 0 {
		text += fmt.Sprintf("; then %d picks of %s mark the cut", piece.SeparatorPick,
			piece.Separator)
	}
	return text
}

func (s *pieceSheet) heading(name string) {
	s.pen.text(edge, 10*mm, largeHead, largeHead.fit(name, 220*mm))
	right := titleOf(s.plan)
	s.pen.text(pieceWidth-edge, 10*mm, largeBody.at(end), largeBody.fit(right, 160*mm))
	s.pen.text(edge, 17*mm, largeBody,
		largeBody.fit(pieceFacts(s.plan, s.piece), pieceWidth-2*edge))
	s.pen.stroke(outline(nil).line(edge, 20*mm, pieceWidth-edge, 20*mm), hair, 200)
}

// sides draws face and back and names their runs.
func (s *pieceSheet) sides() {
	room := pieceWidth - 2*edge - gutter - sideColumn - 2*between
	w := min(room/2, part(clothFoot-clothTop, int(s.size.width), int(s.size.whole())))
	scale := scale{w, s.size.width}
	of := s.size.on(scale)
	left, gap := edge+gutter, max(between, min(40*mm, room/2-w))
	foot := clothTop + of.whole()
	m := newMixed(s.pen, s.plan)
	m.define(s.plan.Pieces[s.index:s.index+1], true)
	threads := newThreads(s.pen, s.plan, s.plan.Warp.Ends, w)
	drawn := threads.shows(s.piece, of)
	for n, back := range []bool{false, true} {
		x := left + um(n)*(w+gap)
		m.side(s.piece, x, foot, w, of, back)
		if drawn {
			threads.draw(x, threads.stack(s.piece, s.cloth.spans, foot, of, back),
				sideName(back)+", to the thread")
		}
		s.pen.stroke(rect(x, clothTop, w, of.whole()), line, 100)
		s.warpNames(x, w, gap, back)
		s.pen.text(x+w/2, foot+4500, largeBody.heavy().at(middle), sideName(back))
	}
	s.weftNames(left, foot, of)
	s.foot(scale, drawn)
}

func (s *pieceSheet) foot(scale scale, drawn bool) {
	y := pieceHeight - 5600
	w := s.pen.bar(edge, y, s.plan.Units, scale, 30*mm, largeSmall.in(black))
	hems := ""
	if s.piece.HemPicks > 0 {
		hems = ", hems unfolded"
	}
	text := fmt.Sprintf("1:%s, finished%s; the first pick is at the foot; the back is the cloth "+
		"turned over sideways",
		tenth(float64(scale.cloth)/float64(scale.paper)), hems)
	s.pen.text(edge+w+6*mm, y, largeSmall, largeSmall.fit(text, pieceWidth-sideColumn-edge-w-20*mm))
	if !drawn {
		s.pen.text(edge+w+6*mm, pieceHeight-1700, largeSmall,
			"colours are what the threads mix to; the enlarged part shows the threads")
	}
}
