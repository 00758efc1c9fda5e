package svg

import (
	"strconv"

	"stripesong/sequence/plan"
)

// threads draws cloth crossing by crossing, from tiles. Everything inside its
// groups is in threads, one unit a crossing, so that drawn at one pixel a
// crossing it is the PNG; only the groups' transforms know the paper.
type threads struct {
	pen   *pen
	cloth *cloth
	warp  []plan.WarpRun
	units map[string][]int // shafts of one threading unit, by block
	tiles *tiles
	clips map[clip]string
}

// clip is the columns of one block.
type clip struct {
	block string
	back  bool
}

// band is neighbouring picks that are equally far apart, and where they lie
// on paper.
type band struct {
	spans  []span
	y, h   um
	picks  int
	lowest int // first pick
}

func newThreads(pen *pen, c *cloth, p *plan.Plan) *threads {
	t := &threads{pen: pen, cloth: c, warp: p.Warp.Runs, units: map[string][]int{}, clips: map[clip]string{}}
	t.tiles = &tiles{pen, c, map[tile]paint{}}
	for _, b := range p.Weave.Blocks {
		t.units[b.Letter] = b.Unit
	}
	return t
}

// side draws bands of one side into a frame x, w wide.
func (t *threads) side(x, w um, bands []band, back bool) {
	t.define(bands, back)
	t.pen.group(`shape-rendering="crispEdges"`)
	t.pen.title(map[bool]string{false: "face, to the thread", true: "back, to the thread"}[back])
	for _, b := range bands {
		t.band(x, w, b, back)
	}
	t.pen.end()
}

// define makes the tiles and clips that a side needs.
func (t *threads) define(bands []band, back bool) {
	t.pen.canvas.Def()
	blocks := t.blocks()
	for _, block := range blocks {
		for _, b := range bands {
			for _, s := range b.spans {
				t.tiles.of(s, t.units[block], block, back)
			}
		}
		if len(blocks) > 1 {
			t.clip(clip{block, back})
		}
	}
	t.pen.canvas.DefEnd()
}

// clip defines the columns of a block.
func (t *threads) clip(k clip) {
	var o outline
	for _, run := range t.columns(k.back, func(r plan.WarpRun) bool { return r.Block == k.block }) {
		o = o.cells(run[0], 0, run[1], len(t.cloth.picks))
	}
	id := t.pen.newID()
	t.clips[k] = id
	t.pen.canvas.ClipPath(`id="` + id + `"`)
	t.pen.canvas.Path(string(o))
	t.pen.canvas.ClipEnd()
}

// band draws warp first and the weft that lies over it.
func (t *threads) band(x, w um, b band, back bool) {
	ends, picks := len(t.cloth.ends), len(t.cloth.picks)
	top := picks - b.lowest - b.picks
	t.pen.group(`transform="translate(` + num(x) + " " + num(b.y) + ") scale(" + factor(w, ends) + " " + factor(b.h, b.picks) +
		") translate(0 " + strconv.Itoa(-top) + `)"`)
	t.warpOf(top, b.picks, back)
	for _, block := range t.blocks() {
		t.weftOf(b, block, back)
	}
	t.pen.end()
}

// warpOf draws the warp, one path a colour.
func (t *threads) warpOf(top, picks int, back bool) {
	drawn := map[string]bool{}
	for _, run := range t.warp {
		if drawn[run.Colour] {
			continue
		}
		drawn[run.Colour] = true
		var o outline
		for _, c := range t.columns(back, func(r plan.WarpRun) bool { return r.Colour == run.Colour }) {
			o = o.cells(c[0], top, c[1], picks)
		}
		first := t.cloth.ends[t.firstEnd(run.Colour)].colour
		t.pen.fill(o, t.pen.ink(t.cloth.inks[first].Hex()))
	}
}

// firstEnd is the first end of the first run of a colour.
func (t *threads) firstEnd(colour string) (end int) {
	for _, run := range t.warp {
		if run.Colour == colour {
			break
		}
		end += run.Ends
	}
	return end
}

// weftOf draws what lies over one block of the warp, one path a tile.
func (t *threads) weftOf(b band, block string, back bool) {
	id, clipped := t.clips[clip{block, back}]
	if clipped {
		t.pen.group(`clip-path="url(#` + id + `)"`)
	}
	paths, order := map[paint]outline{}, []paint(nil)
	for _, s := range b.spans {
		with := t.tiles.of(s, t.units[block], block, back)
		if paths[with] == nil {
			order = append(order, with)
		}
		paths[with] = paths[with].cells(0, len(t.cloth.picks)-s.from-s.count, len(t.cloth.ends), s.count)
	}
	for _, with := range order {
		t.pen.fill(paths[with], with)
	}
	if clipped {
		t.pen.end()
	}
}

// blocks lists the blocks that occur in the warp, in the order they come.
func (t *threads) blocks() (letters []string) {
	seen := map[string]bool{}
	for _, run := range t.warp {
		if !seen[run.Block] {
			seen[run.Block] = true
			letters = append(letters, run.Block)
		}
	}
	return letters
}

// columns gives the places of the runs that are wanted, as first column and
// number, neighbours joined, as seen on that side.
func (t *threads) columns(back bool, wanted func(plan.WarpRun) bool) (found [][2]int) {
	at := 0
	for _, run := range t.warp {
		if wanted(run) {
			if n := len(found); n > 0 && found[n-1][0]+found[n-1][1] == at {
				found[n-1][1] += run.Ends
			} else {
				found = append(found, [2]int{at, run.Ends})
			}
		}
		at += run.Ends
	}
	if back {
		for i := range found {
			found[i][0] = at - found[i][0] - found[i][1]
		}
	}
	return found
}
