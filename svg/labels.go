package svg

import (
	"fmt"

	"stripesong/sequence/plan"
)

// label is a name and where along an edge it would like to stand.
type label struct {
	at   um
	text string
}

// labelPitch is how close two names may stand.
const labelPitch = 3600 * um(1)

// warpNames names the warp runs above a side, reading upwards, each tied to
// the middle of its run. They may reach into the gap between the sides.
func (s *pieceSheet) warpNames(x, w, gap um, back bool) {
	var labels []label
	at, ends := 0, s.plan.Warp.Ends
	for _, run := range s.plan.Warp.Runs {
		middle := 2*at + run.Ends
		if back {
			middle = 2*ends - middle
		}
		labels = append(labels,
			label{x + part(w, middle, 2*ends),
				fmt.Sprintf("%s %d %s", run.Block, run.Units, run.Colour)})
		at += run.Ends
	}
	if back {
		for i, j := 0, len(labels)-1; i < j; i, j = i+1, j-1 {
			labels[i], labels[j] = labels[j], labels[i]
		}
	}
	f := largeSmall.in(black).upwards()
	shown, places, every := arrange(labels, x+1500-(gap-between)/2, x+w-1500+(gap-between)/2)
	var ties outline
	room := clothTop - 3500 - 22*mm
	if every > 1 {
		room -= 4 * mm
	}
	for i, l := range shown {
		ties = ties.line(l.at, clothTop-300, l.at, clothTop-mm, places[i], clothTop-3*mm)
		s.pen.text(places[i]+f.size*36/100, clothTop-3500, f, f.fit(l.text, room))
	}
	s.pen.stroke(ties, line, 150)
	if every > 1 {
		s.pen.text(x, 25*mm, largeSmall,
			largeSmall.fit(fmt.Sprintf("one run in %d is named", every), w+gap-between))
	}
}

// weftNames names hems and weft runs to the left of the face.
func (s *pieceSheet) weftNames(x, foot um, of sizes) {
	spans := s.cloth.spans
	labels := make([]label, len(spans))
	for i := range spans { // from the top down
		span := spans[len(spans)-1-i]
		from, height := span.place(s.piece, of)
		labels[i] = label{foot - from - height/2, s.spanName(span)}
	}
	top := foot - of.whole()
	f := largeSmall.in(black).at(end)
	shown, places, every := arrange(labels, top+1500, foot-1500)
	var ties outline
	for i, l := range shown {
		ties = ties.line(x-300, l.at, x-mm, l.at, x-3*mm, places[i])
		s.pen.text(x-3500, places[i]+f.size*36/100, f, f.fit(l.text, gutter-3500))
	}
	s.pen.stroke(ties, line, 150)
	if every > 1 {
		s.pen.text(x-3500, top-2*mm, largeSmall.at(end),
			fmt.Sprintf("one run in %d is named", every))
	}
}

// arrange thins labels to what an edge has room for and moves them apart.
func arrange(labels []label, lo, hi um) (shown []label, places []um, every int) {
	every = thin(len(labels), labelPitch, hi-lo)
	var want []um
	for i := 0; i < len(labels); i += every {
		shown = append(shown, labels[i])
		want = append(want, labels[i].at)
	}
	return shown, spread(want, labelPitch, lo, hi), every
}

func (s *pieceSheet) spanName(span span) string {
	switch {
	case span.show:
		return fmt.Sprintf("in sight %d %s", span.count, s.piece.Hem)
	case span.hem:
		return fmt.Sprintf("hem %d %s", span.count, s.piece.Hem)
	}
	return weftName(s.piece.Runs[span.run])
}

// weftName is a weft run as a brief writes it.
func weftName(run plan.WeftRun) string {
	if run.Block == "" {
		return fmt.Sprintf("plain %d", run.Units)
	}
	return fmt.Sprintf("%s %d %s", run.Block, run.Units, run.Pattern)
}
