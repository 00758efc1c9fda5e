package svg

import (
	"fmt"
	"io"

	"stripesong/palette"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// The size of a small picture of a piece, and the room beside it.
const (
	partWide, partHigh = 22 * mm, 32 * mm
	partAside          = 26 * mm
)

// Part writes a small picture of the face of piece i, as it lies on the loom with its
// hems unfolded, on which the stretch between two woven lengths in mm is marked.
func Part(w io.Writer, p *plan.Plan, i int, fromMM, toMM float64) error {
	piece := &p.Pieces[i]
	what := fmt.Sprintf("from %s to %s", measure.FormatLength(fromMM, p.Units),
		measure.FormatLength(toMM, p.Units))
	pen := open(w, partWide+partAside, partHigh+2*mm, piece.Name,
		"The part of the piece on this page, "+what+".")
	wide, high := micrometres(p.Warp.WovenWidthMM), micrometres(piece.WovenMM)
	if wide*partHigh > high*partWide {
		wide, high = partWide, part(partWide, int(high), int(wide))
	} else {
		wide, high = part(partHigh, int(wide), int(high)), partHigh
	}
	at := func(mm float64) um {
		return part(high, int(micrometres(mm)), int(micrometres(piece.WovenMM)))
	}
	x, y := um(mm), high+mm
	cells(newMixed(pen, p), piece, x, y, wide, at)
	pen.stroke(rect(x, y-high, wide, high), line, 100)
	from, to := at(fromMM), at(toMM)
	bar := x + wide + mm
	pen.fill(rect(bar, y-to, mm, to-from), black)
	pen.text(bar+2*mm, y-to+1800, tapeSmall.in(black), measure.FormatLength(toMM, p.Units))
	if to-from > 6*mm {
		pen.text(bar+2*mm, y-from, tapeSmall.in(black), measure.FormatLength(fromMM, p.Units))
	}
	return pen.finish()
}

// cells draws a piece patch by patch, standing on y: drawings that share a page can't
// share what is drawn once.
func cells(m *mixed, piece *plan.Piece, x, y, wide um, at func(mm float64) um) {
	m.pen.group(`shape-rendering="crispEdges"`)
	paths, order := map[palette.RGB]outline{}, []palette.RGB(nil)
	row := func(kind weftKind, fromMM, toMM float64) {
		ends := 0
		for _, run := range m.plan.Warp.Runs {
			c := m.colour(run, kind)
			if paths[c] == nil {
				order = append(order, c)
			}
			left, right := part(wide, ends, m.plan.Warp.Ends),
				part(wide, ends+run.Ends, m.plan.Warp.Ends)
			paths[c] = paths[c].rect(x+left, y-at(toMM), right-left, at(toMM)-at(fromMM))
			ends += run.Ends
		}
	}
	end := piece.HemWovenMM + piece.ShowWovenMM
	if end > 0 {
		row(showKind(piece, false), 0, end)
		row(showKind(piece, false), piece.WovenMM-end, piece.WovenMM)
	}
	units := 0
	for _, run := range piece.Runs {
		up := func(n int) float64 {
			return end + float64(piece.BodyWovenMM*float64(n))/float64(piece.BodyUnits)
		}
		row(kindOf(run, false), up(units), up(units+run.Units))
		units += run.Units
	}
	for _, c := range order {
		m.pen.fill(paths[c], ink(c))
	}
	m.pen.end()
}
