package svg

import (
	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// laid is neighbouring strips of one kind where they lie on paper.
type laid struct {
	weftKind
	top, h um
	strips []laidStrip
}

type laidStrip struct {
	weftStrip
	top um
}

// stack lays the strips of a piece from the foot up.
func (t *threads) stack(piece *plan.Piece, spans []span, y um, of sizes, back bool) (all []laid) {
	for _, s := range spans {
		from, height := s.place(piece, of)
		if height == 0 {
			continue
		}
		one := laid{weftKind: showKind(piece, back), top: y - from - height, h: height}
		n := s.count
		if s.run >= 0 {
			one.weftKind, n = kindOf(piece.Runs[s.run], back), piece.Runs[s.run].Units
		}
		for k := range n {
			strip := weftStrip{weftKind: one.weftKind, pick: -1,
				h: tens(float64(height) / float64(n))}
			if one.hem {
				strip.pick = k % 2
			}
			one.strips = append(one.strips, laidStrip{strip, y - from - part(height, k+1, n)})
		}
		all = append(all, one)
	}
	return all
}

// draw draws what was laid, its left edge at x.
func (t *threads) draw(x um, all []laid, title string) {
	if len(all) == 0 {
		return
	}
	clips := make([]string, len(all))
	t.pen.canvas.Def()
	for i, l := range all {
		for _, s := range l.strips {
			t.need(s.weftStrip)
		}
		clips[i] = t.pen.newID()
		t.pen.canvas.ClipPath(`id="` + clips[i] + `"`)
		t.pen.canvas.Path(string(rect(0, l.top, t.xs[t.ends], l.h)))
		t.pen.canvas.ClipEnd()
	}
	ends := t.warp(all)
	t.pen.canvas.DefEnd()
	t.pen.group(`transform="translate(` + num(x) + ` 0)"`)
	t.pen.title(title)
	for i, l := range all {
		t.pen.group(`clip-path="url(#` + clips[i] + `)"`)
		t.span(l, ends)
		t.pen.end()
	}
	t.pen.end()
}

// warp defines the ends of each run from beyond the foot to beyond the top, for every
// span to use in its colours.
func (t *threads) warp(all []laid) (ids []string) {
	const beyond = 500 // to be cut off with its edge
	foot, top := all[0].top+all[0].h+beyond, all[len(all)-1].top-beyond
	for _, run := range t.runs {
		width := 0.0
		if drawn, ok := t.drawn(all[0].weftKind, run.WarpRun); ok {
			width = drawn.Widths.Warp
		}
		var o outline
		for _, c := range t.seen(run, all[0].back) {
			for x := c[0]; x < c[1]; x++ {
				room := float64(float64(t.xs[x+1]-t.xs[x]) * (1 - width))
				gap := umOf(float64((room + float64(t.edge)) / 2))
				o = o.rect(t.xs[x]+gap, top, t.xs[x+1]-t.xs[x]-2*gap, foot-top)
			}
		}
		if o == nil {
			ids = append(ids, "")
			continue
		}
		ids = append(ids, t.pen.newID())
		t.pen.canvas.Path(string(o), `id="`+ids[len(ids)-1]+`"`)
	}
	return ids
}

// span draws neighbouring strips of one kind: the ground, what lies on it below the
// ends, the ends, and over them ground picks and floats.
func (t *threads) span(l laid, ends []string) {
	light := make([][3]palette.Linear, len(t.runs))
	thick := make([]float64, len(t.runs))
	for n, run := range t.runs {
		drawn, _ := t.drawn(l.weftKind, run.WarpRun)
		light[n], thick[n] = drawn.Light, float64(t.xs[1])*drawn.Widths.Warp
		var o outline
		for _, c := range t.seen(run, l.back) {
			o = o.rect(t.xs[c[0]], l.top, t.xs[c[1]]-t.xs[c[0]], l.h)
		}
		t.pen.fill(o, inkOfLight(light[n][look.GroundYarn]))
	}
	t.layer(l, 0)
	for n, id := range ends {
		if id != "" {
			t.pen.canvas.Use(0, 0, "#"+id, t.paints(light[n][look.WarpYarn], thick[n]))
		}
	}
	t.layer(l, 1)
	t.layer(l, 2)
}

// layer uses one of the drawings of each strip.
func (t *threads) layer(l laid, which int) {
	for _, s := range l.strips {
		if id := t.known[s.weftStrip][which]; id != "" {
			t.pen.use(id, "translate(0 "+num(s.top)+")")
		}
	}
}

// mostDrawn is how many ends are drawn at most, over all strips of a piece: more
// would make a file too large to be opened at once.
const mostDrawn = 800

// shows tells whether every thread of a piece is thick enough to be drawn where the
// piece has some sizes, and whether there are few enough.
func (t *threads) shows(piece *plan.Piece, of sizes) bool {
	kinds := map[weftKind]bool{}
	thinnest := of.width
	meets := func(kind weftKind, length um, patterns, grounds int) {
		if length > 0 {
			kinds[kind] = true
			thinnest = min(thinnest, t.thinnest(kind, of.width, length, patterns, grounds))
		}
	}
	picks := piece.ShowPicks
	if of.hem > 0 {
		picks = piece.EndPicks()
	}
	meets(showKind(piece, false), of.end(), 0, picks)
	for i, run := range piece.Runs {
		length := foot(piece, i+1, of.body) - foot(piece, i, of.body)
		meets(kindOf(run, false), length, run.PatternPicks, run.GroundPicks)
	}
	return thinnest >= finest && 2*len(kinds)*t.ends <= mostDrawn
}

// thinnest is how wide the thinnest thread is where some weft crosses the warp.
func (t *threads) thinnest(kind weftKind, width, length um, patterns, grounds int) um {
	least := width
	for _, run := range t.plan.Warp.Runs {
		drawn, ok := t.drawn(kind, run)
		if !ok {
			continue
		}
		w := drawn.Widths
		least = min(least, wide(width, t.ends, w.Warp), wide(length, grounds, w.Ground))
		if patterns > 0 {
			least = min(least, wide(length, patterns, w.Pattern))
		}
	}
	return least
}

// wide is how wide a thread is of which so many lie on a length.
func wide(length um, threads int, width float64) um {
	return umOf(float64(float64(length) / float64(max(1, threads)) * width))
}
