package svg

import (
	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// finest is the thinnest thread that is drawn: four pixels of a screen at its usual
// 96 to the inch. Renderers average finer ones in another light than the eye.
const finest = 1058 * um(1)

// threads draws cloth thread by thread, every thread as wide as it lies. What a weft
// unit does across the warp is drawn once and used wherever it is woven.
type threads struct {
	pen    *pen
	plan   *plan.Plan
	shades *plan.Shades
	xs     []um      // the edges of the ends, on paper
	shafts []int     // of the ends, left to right on the face
	of     []int     // which of runs each end belongs to
	runs   []warpRun // of the warp, those of one block and colour as one
	ends   int       // how many are drawn, from the left on the face
	edge   um        // width of an edge round each thread; 0 for none
	known  map[weftStrip][3]string
}

// warpRun is all runs of one block and one colour, as columns of the face.
type warpRun struct {
	plan.WarpRun
	columns [][2]int // from one to before another
}

// weftStrip is one weft unit, or one pick of plain, across the warp.
type weftStrip struct {
	weftKind
	pick int // which of the unit's; -1 for the whole unit
	h    um
}

// newThreads draws so many ends of the warp, from the left on the face, w wide. Of the
// back all are drawn, or none.
func newThreads(pen *pen, p *plan.Plan, ends int, w um) *threads {
	t := &threads{pen: pen, plan: p, shades: p.Shades(), ends: ends,
		known: map[weftStrip][3]string{}}
	var warp []weave.Strip
	numbers := map[[2]string]int{}
	for _, run := range p.Warp.Runs {
		warp = append(warp, weave.Strip{Block: run.Block, Units: run.Units})
		kind := [2]string{run.Block, run.Colour}
		n, ok := numbers[kind]
		if !ok {
			n = len(t.runs)
			numbers[kind] = n
			t.runs = append(t.runs, warpRun{WarpRun: run})
		}
		from := len(t.of)
		for range run.Ends {
			t.of = append(t.of, n)
		}
		t.runs[n].columns = append(t.runs[n].columns, [2]int{from, len(t.of)})
	}
	t.shafts = p.Weave.Threading(warp)
	for e := range len(t.shafts) + 1 {
		t.xs = append(t.xs, part(w, e, ends))
	}
	return t
}

// cut leaves the ends from one to before another of the face, a pitch each.
func (t *threads) cut(from, past int, pitch um) {
	t.shafts, t.of, t.ends = t.shafts[from:past], t.of[from:past], past-from
	for n := range t.runs {
		var columns [][2]int
		for _, c := range t.runs[n].columns {
			c = [2]int{max(c[0], from) - from, min(c[1], past) - from}
			if c[0] < c[1] {
				columns = append(columns, c)
			}
		}
		t.runs[n].columns = columns
	}
	t.xs = t.xs[:t.ends+1]
	for e := range t.xs {
		t.xs[e] = um(e) * pitch
	}
}

// unit is the picks of a strip.
func (t *threads) unit(s weftStrip) []weave.Woven {
	picks := t.plan.InOrder(s.order).UnitPicks(s.block)
	if s.hem {
		picks = t.plan.Weave.Picks(2, nil)[:2]
	}
	if s.pick >= 0 {
		picks = picks[s.pick : s.pick+1]
	}
	return picks
}

// need draws a strip where there is none yet: what lies below the ends, the ground
// picks above them, and above all the floats.
func (t *threads) need(s weftStrip) {
	if _, ok := t.known[s]; ok {
		return
	}
	all := make([]shapes, len(t.runs))
	light := make([][3]palette.Linear, len(t.runs))
	var thick [3]float64
	for n, run := range t.runs {
		drawn, ok := t.drawn(s.weftKind, run.WarpRun)
		if !ok {
			t.pen.fail(noMix(run.WarpRun, s.weft()))
			return
		}
		light[n] = drawn.Light
		shape := t.shaper(s, drawn)
		thick = shape.thick()
		for _, c := range t.seen(run, s.back) {
			shape.draw(c[0], c[1], &all[n])
		}
		shape.floats(t.ends, &all[n], func(x int) bool { return t.of[t.column(x, s.back)] == n })
	}
	const ground, warp, pattern = look.GroundYarn, look.WarpYarn, look.PatternYarn
	t.known[s] = [3]string{
		t.layerOf(len(all), true, func(n int) {
			if t.edge > 0 {
				t.thread(all[n].passing, light[n][ground], thick[ground])
			}
			t.pen.fill(all[n].wider, inkOfLight(light[n][warp]))
			t.pen.fill(all[n].behind, inkOfLight(light[n][pattern]))
		}),
		t.layerOf(len(all), true, func(n int) {
			t.thread(all[n].ground, light[n][ground], thick[ground])
		}),
		t.layerOf(len(all), !s.plain(), func(n int) {
			t.thread(all[n].pattern, light[n][pattern], thick[pattern])
		}),
	}
}

// plain tells whether there is no pattern weft.
func (k weftKind) plain() bool { return k.block == "" }

// layerOf is a group of what is drawn of every run; none where there is nothing to be.
func (t *threads) layerOf(runs int, any bool, draw func(int)) string {
	if !any {
		return ""
	}
	id := t.pen.newID()
	t.pen.group(`id="` + id + `"`)
	for n := range runs {
		draw(n)
	}
	t.pen.end()
	return id
}

func (t *threads) shaper(s weftStrip, drawn plan.Drawn) *shaper {
	unit := t.unit(s)
	one := &shaper{
		xs: t.xs, shafts: make([]int, len(t.shafts)), back: s.back, h: s.h,
		rows: drawn.Widths.Rows(unit), widths: drawn.Widths, parts: patternPicks(unit),
		strands: max(1, t.plan.Cloth.Strands), margin: float64(t.edge) / 2,
	}
	if one.parts == 0 {
		one.parts, one.plain = len(unit), true
	}
	for x := range one.shafts {
		one.shafts[x] = t.shafts[t.column(x, s.back)]
	}
	return one
}

// column is the end seen at a place counted from the left.
func (t *threads) column(x int, back bool) int {
	if back {
		return len(t.shafts) - 1 - x
	}
	return x
}

// seen is the columns of a run as they are seen from a side, as far as they are drawn.
func (t *threads) seen(run warpRun, back bool) (all [][2]int) {
	for _, c := range run.columns {
		if back {
			c = [2]int{len(t.shafts) - c[1], len(t.shafts) - c[0]}
		}
		if c[1] = min(c[1], t.ends); c[0] < c[1] {
			all = append(all, c)
		}
	}
	return all
}

func patternPicks(unit []weave.Woven) (n int) {
	for _, pick := range unit {
		if pick.Pattern {
			n++
		}
	}
	return n
}

// drawn is what a kind of weft is drawn with over a run of the warp.
func (t *threads) drawn(kind weftKind, run plan.WarpRun) (drawn plan.Drawn, ok bool) {
	if kind.hem {
		drawn, ok = t.shades.HemDrawn(run.Colour, kind.ground)
	} else {
		drawn, ok = t.shades.BodyDrawn(run, kind.weft(), kind.back)
	}
	return drawn, ok
}

// weft is the run that a kind was made of, as far as colours go.
func (k weftKind) weft() plan.WeftRun {
	return plan.WeftRun{Block: k.block, Ground: k.ground, Pattern: k.pattern, PickOrder: k.order}
}

// thread fills shapes of a yarn that are so thick.
func (t *threads) thread(o outline, light palette.Linear, thick float64) {
	if len(o) > 0 {
		t.pen.canvas.Path(string(o), t.paints(light, thick))
	}
}

// paints is the fill of a yarn that is so thick, and its edge where threads are edged:
// as much as the edge is darker or lighter the rest is the other way.
func (t *threads) paints(light palette.Linear, thick float64) string {
	if t.edge == 0 {
		return `fill="` + string(inkOfLight(light)) + `"`
	}
	edge := edgeOf(light)
	fill := beside(light, edge, min(0.5, 2*float64(t.edge)/thick))
	return `fill="` + string(inkOfLight(fill)) +
		`" stroke="` + string(inkOfLight(edge)) + `" stroke-width="` + num(t.edge) + `"`
}

// edgeOf is the colour of an edge that shows on a yarn: darker, or on a dark one
// lighter.
func edgeOf(light palette.Linear) palette.Linear {
	const dark = 0.05 // of all light
	less, more := 0.72, 0.0
	if light.XYZ()[1] < dark {
		less, more = 0.9, 0.035
	}
	for ch := range light {
		light[ch] = float64(less*light[ch]) + more
	}
	return light
}

// beside is the colour that with a part of another averages to some light, as near
// as there is one.
func beside(light, other palette.Linear, part float64) palette.Linear {
	for ch := range light {
		light[ch] = min(1, max(0, (light[ch]-float64(part*other[ch]))/(1-part)))
	}
	return light
}

func inkOfLight(light palette.Linear) paint { return ink(light.RGB()) }
