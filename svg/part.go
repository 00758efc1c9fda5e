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
// hems unfolded, on which the stretch between two woven lengths in mm is marked. Pieces
// count from 0.
func Part(w io.Writer, p *plan.Plan, i int, fromMM, toMM float64) error {
	piece := &p.Pieces[i]
	return marked{"The part of the piece on this page", piece.Name, piece.WovenMM,
		bandsOf(piece), mixedShades}.draw(w, p, fromMM, toMM)
}

// SamplePart writes a small picture of the sample as it lies on the loom, on which the
// stretch between two woven lengths in mm is marked. Each yarn has its own colour: a plan
// mixes only what its pieces weave together. The plan has a sample.
func SamplePart(w io.Writer, p *plan.Plan, fromMM, toMM float64) error {
	return marked{"The part of the sample on this page", "the sample", p.Sample.WovenMM,
		sampleBands(p), yarnShades}.draw(w, p, fromMM, toMM)
}

// marked is cloth of which a part is marked.
type marked struct {
	what, name string
	wovenMM    float64
	bands      []weftBand
	shades     func(*pen, *plan.Plan) shadeOf
}

// shadeOf is the colour of a warp run under a weft.
type shadeOf func(plan.WarpRun, weftKind) palette.RGB

// mixedShades are those of cloth seen from afar.
func mixedShades(pen *pen, p *plan.Plan) shadeOf { return newMixed(pen, p).colour }

// yarnShades are the yarn that lies on top: pattern where its block is, hems in their
// yarn, the warp elsewhere.
func yarnShades(_ *pen, p *plan.Plan) shadeOf {
	of := map[string]palette.RGB{}
	for _, c := range p.Colours {
		of[c.Name] = c.RGB
	}
	return func(warp plan.WarpRun, kind weftKind) palette.RGB {
		switch {
		case kind.hem:
			return of[kind.ground]
		case kind.pattern != "" && kind.block == warp.Block:
			return of[kind.pattern]
		}
		return of[warp.Colour]
	}
}

// weftBand is cloth of one weft, between two woven lengths in mm.
type weftBand struct {
	kind         weftKind
	fromMM, toMM float64
}

// bandsOf are the bands of a piece, hems and runs of its weft, from its first pick up.
func bandsOf(piece *plan.Piece) (all []weftBand) {
	end := piece.HemWovenMM + piece.ShowWovenMM
	if end > 0 {
		all = append(all, weftBand{showKind(piece, false), 0, end},
			weftBand{showKind(piece, false), piece.WovenMM - end, piece.WovenMM})
	}
	return append(all, runBands(piece.Runs, end, piece.BodyWovenMM, piece.BodyUnits)...)
}

// sampleBands are the bands of the sample: hem at its foot alone, then its runs.
func sampleBands(p *plan.Plan) (all []weftBand) {
	s := p.Sample
	hemMM := float64(s.HemPicks*10) / p.Cloth.HemGroundPerCM
	if s.HemPicks > 0 {
		all = append(all, weftBand{showKind(&plan.Piece{Hem: s.Hem}, false), 0, hemMM})
	}
	units := 0
	for _, run := range s.Runs {
		units += run.Units
	}
	return append(all, runBands(s.Runs, hemMM, s.WovenMM-hemMM, units)...)
}

// runBands are the bands of runs of so many units in all, which are bodyMM long.
func runBands(runs []plan.WeftRun, fromMM, bodyMM float64, units int) (all []weftBand) {
	up := func(n int) float64 { return fromMM + float64(bodyMM*float64(n))/float64(units) }
	at := 0
	for _, run := range runs {
		all = append(all, weftBand{kindOf(run, false), up(at), up(at + run.Units)})
		at += run.Units
	}
	return all
}

func (m marked) draw(w io.Writer, p *plan.Plan, fromMM, toMM float64) error {
	what := fmt.Sprintf("from %s to %s", measure.FormatLength(fromMM, p.Units),
		measure.FormatLength(toMM, p.Units))
	pen := open(w, partWide+partAside, partHigh+2*mm, m.name, m.what+", "+what+".")
	wide, high := micrometres(p.Warp.WovenWidthMM), micrometres(m.wovenMM)
	if wide*partHigh > high*partWide {
		wide, high = partWide, part(partWide, int(high), int(wide))
	} else {
		wide, high = part(partHigh, int(wide), int(high)), partHigh
	}
	at := func(mm float64) um {
		return part(high, int(micrometres(mm)), int(micrometres(m.wovenMM)))
	}
	x, y := um(mm), high+mm
	cells(pen, p.Warp, m.bands, m.shades(pen, p), x, y, wide, at)
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

// cells draws cloth patch by patch, standing on y: drawings that share a page can't
// share what is drawn once.
func cells(pen *pen, warp plan.Warp, all []weftBand, shade shadeOf, x, y, wide um,
	at func(mm float64) um) {
	pen.group(`shape-rendering="crispEdges"`)
	paths, order := map[palette.RGB]outline{}, []palette.RGB(nil)
	row := func(kind weftKind, fromMM, toMM float64) {
		ends := 0
		for _, run := range warp.Runs {
			c := shade(run, kind)
			if paths[c] == nil {
				order = append(order, c)
			}
			left, right := part(wide, ends, warp.Ends), part(wide, ends+run.Ends, warp.Ends)
			paths[c] = paths[c].rect(x+left, y-at(toMM), right-left, at(toMM)-at(fromMM))
			ends += run.Ends
		}
	}
	for _, s := range all {
		row(s.kind, s.fromMM, s.toMM)
	}
	for _, c := range order {
		pen.fill(paths[c], ink(c))
	}
	pen.end()
}
