package svg

import (
	"fmt"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

// mixed draws cloth as it looks where threads can't be told apart: every
// patch in the colour its threads mix to. What a weft run does across the
// whole warp is drawn once for the sheet and used wherever it is woven.
type mixed struct {
	pen    *pen
	plan   *plan.Plan
	shades *plan.Shades
	strips map[weftKind]string
}

// weftKind is all that tells one weft run from another, its height apart.
type weftKind struct {
	block, ground, pattern string
	order                  string // of picks
	back                   bool
	hem                    bool // plain, of the hem's yarn, as close as hems
}

func newMixed(pen *pen, p *plan.Plan) *mixed {
	return &mixed{pen: pen, plan: p, shades: p.Shades(), strips: map[weftKind]string{}}
}

func kindOf(run plan.WeftRun, back bool) weftKind {
	return weftKind{block: run.Block, ground: run.Ground, pattern: run.Pattern,
		order: run.PickOrder, back: back}
}

// showKind is the plain that stays in sight beside the hems of a piece.
func showKind(piece *plan.Piece, back bool) weftKind {
	return weftKind{ground: piece.Hem, back: back, hem: true}
}

// define draws every strip that some pieces need, one unit high and one unit an
// end, for [mixed.side] to stretch; with hems where these are unfolded.
func (m *mixed) define(pieces []plan.Piece, hems bool) {
	m.pen.canvas.Def()
	for i := range pieces {
		piece := &pieces[i]
		for _, run := range piece.Runs {
			for _, back := range []bool{false, true} {
				m.need(kindOf(run, back))
			}
		}
		if piece.ShowPicks > 0 || hems && piece.HemPicks > 0 {
			m.need(showKind(piece, false))
			m.need(showKind(piece, true))
		}
	}
	m.pen.canvas.DefEnd()
}

// need draws a strip where there is none yet.
func (m *mixed) need(kind weftKind) {
	if m.strips[kind] == "" {
		m.strips[kind] = m.strip(kind)
	}
}

// strip is one group of columns, a path a colour.
func (m *mixed) strip(kind weftKind) string {
	id := m.pen.newID()
	m.pen.group(`id="` + id + `"`)
	paths, order := map[palette.RGB]outline{}, []palette.RGB(nil)
	at, ends := 0, m.plan.Warp.Ends
	for _, run := range m.plan.Warp.Runs {
		c := m.colour(run, kind)
		if paths[c] == nil {
			order = append(order, c)
		}
		x := at
		if kind.back {
			x = ends - at - run.Ends
		}
		paths[c] = paths[c].cells(x, 0, run.Ends, 1)
		at += run.Ends
	}
	for _, c := range order {
		m.pen.fill(paths[c], ink(c))
	}
	m.pen.end()
	return id
}

// colour is what a warp run and a weft run mix to.
func (m *mixed) colour(warp plan.WarpRun, kind weftKind) palette.RGB {
	weft := plan.WeftRun{Block: kind.block, Ground: kind.ground, Pattern: kind.pattern,
		PickOrder: kind.order}
	mix := m.shades.Body(warp, weft, kind.back)
	if kind.hem {
		mix = m.shades.Hem(warp.Colour, kind.ground)
	}
	if mix != nil {
		return mix.RGB
	}
	m.pen.fail(fmt.Errorf("the plan mixes no colour for warp %q, ground %q, pattern %q",
		warp.Colour, kind.ground, kind.pattern))
	return palette.RGB{}
}

// side draws a piece standing on y: the body, and at both ends its hem, where that has
// a size, and plain that stays in sight. What is on top is drawn down to the foot and all below it
// over that, so that no gap can open between them.
func (m *mixed) side(piece *plan.Piece, x, y, w um, of sizes, back bool) {
	m.pen.group(`shape-rendering="crispEdges"`)
	m.pen.title(sideName(back))
	down := func(kind weftKind, from um) { m.down(kind, x, y, w, from) }
	show := showKind(piece, back)
	if of.end() > 0 {
		down(show, of.whole())
	}
	for i := len(piece.Runs) - 1; i >= 0; i-- {
		down(kindOf(piece.Runs[i], back), of.end()+foot(piece, i+1, of.body))
	}
	down(show, of.end())
	m.pen.end()
}

// down draws a strip standing on y, so high as from.
func (m *mixed) down(kind weftKind, x, y, w, from um) {
	if from > 0 {
		m.pen.use(m.strips[kind],
			"translate("+num(x)+" "+num(y-from)+") scale("+factor(w, m.plan.Warp.Ends)+" "+
				num(from)+")")
	}
}

func sideName(back bool) string {
	if back {
		return "back"
	}
	return "face"
}
