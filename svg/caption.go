package svg

import (
	"fmt"
	"strings"

	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// wording is how what is said of a piece is set under it: its name, and so many
// lines below that.
type wording struct {
	name, text font
	lines      int
}

// height is from the foot of a piece to below its words.
func (w wording) height() um {
	return w.name.size*13/10 + um(w.lines)*w.text.line() + w.text.size*3/10
}

// wording finds how the words are set in the room there is for them.
func (s *setSheet) wording(room um) wording {
	w := wording{
		name: title.sized(max(1700, min(title.size, room*6/100))),
		text: small.sized(max(1500, min(small.size, room*45/1000))),
	}
	for i := range s.plan.Pieces {
		_, _, below := s.said(w, i, room)
		w.lines = max(w.lines, len(below))
	}
	if room < 24*mm {
		w.lines = min(w.lines, 1)
	}
	return w
}

// said is what is said of piece i: its number and name, its size where that has
// room beside them, and the lines below.
func (s *setSheet) said(w wording, i int, room um) (name, beside string, below []string) {
	piece := &s.plan.Pieces[i]
	name = fmt.Sprintf("%d %s", i+1, piece.Name)
	size := s.sizeOf(piece)
	var parts []string
	if w.name.width(name)+w.text.width("  "+size) <= room {
		beside = size
	} else {
		parts = append(parts, size)
	}
	if s.plan.IsWoven(i) {
		parts = append(parts, "woven")
	}
	if at := plan.Faintest(piece.Contrast, look.DecisiveM); at != nil {
		parts = append(parts, at.Words()+" at "+s.plan.FromTable())
	}
	if piece.Lighter != nil {
		parts = append(parts, piece.Lighter.Words)
	}
	return w.name.fit(name, room), beside, packed(w.text, room, parts)
}

// sizeOf is the finished size of a piece: "46.2 × 65.9 cm".
func (s *setSheet) sizeOf(piece *plan.Piece) string {
	width := measure.FormatLength(s.plan.Warp.FinishedWidthMM, s.plan.Units)
	length := measure.FormatLength(s.plan.AsFinishedMM(piece), s.plan.Units)
	number, unit, _ := strings.Cut(width, " ")
	if strings.HasSuffix(length, " "+unit) {
		width = number
	}
	return width + " × " + length
}

// packed puts parts of a text into as few lines as hold them, at most two. What has
// no room is shortened, or left out.
func packed(f font, room um, parts []string) (lines []string) {
	for _, part := range parts {
		if n := len(lines); n > 0 && f.width(lines[n-1]+" · "+part) <= room {
			lines[n-1] += " · " + part
			continue
		}
		if len(lines) == 2 {
			break
		}
		lines = append(lines, f.fit(part, room))
	}
	return lines
}

// caption writes what is said of piece i under it.
func (s *setSheet) caption(i int, x, foot um) {
	w := s.grid.words
	name, beside, below := s.said(w, i, s.grid.room())
	y := foot + w.name.size*13/10
	s.pen.text(x, y, w.name, name)
	right := max(s.grid.scale.paper, w.name.width(name)+w.text.width("  "+beside))
	s.pen.text(x+right, y, w.text.at(end), beside)
	for _, l := range below[:min(len(below), w.lines)] {
		y += w.text.line()
		s.pen.text(x, y, w.text, l)
	}
}
