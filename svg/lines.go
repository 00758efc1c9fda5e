package svg

import (
	"fmt"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// woven is weft that is drawn as one: a unit of a run, or a whole stretch of plain.
type woven struct {
	picks  []weave.Woven
	plain  bool
	fewest int // lines below which its picks are narrower than a pixel
	drawn  func(warp plan.WarpRun) (plan.Drawn, bool)
	run    plan.WeftRun // what it is called by
}

func (v *view) unitOf(run plan.WeftRun) woven {
	drawn := func(warp plan.WarpRun) (plan.Drawn, bool) {
		return v.shades.BodyDrawn(warp, run, v.back)
	}
	s := v.plan.InOrder(run.PickOrder)
	return woven{s.UnitPicks(run.Block), run.Block == "", len(s.Order), drawn, run}
}

// drawShow draws one stretch of plain that stays in sight; no lines where there is
// none.
func (v *view) drawShow() ([]int, error) {
	n := v.piece.ShowPicks
	if n == 0 {
		return nil, nil
	}
	drawn := func(warp plan.WarpRun) (plan.Drawn, bool) {
		return v.shades.HemDrawn(warp.Colour, v.piece.Hem)
	}
	picks := v.plan.Weave.Picks(n, nil)[:n]
	plain := woven{picks, true, n, drawn, plan.WeftRun{Ground: v.piece.Hem}}
	return v.draw(plain, max(1, v.show))
}

// draw draws the lines of some weft and numbers them, the lowest first.
func (v *view) draw(weft woven, lines int) (numbers []int, err error) {
	tiles := make([][]int32, len(v.kinds))
	for k := range v.kinds {
		if tiles[k], err = v.tile(&v.kinds[k], weft, lines); err != nil {
			return nil, err
		}
		v.patches = append(v.patches, tiles[k])
	}
	for line := range lines {
		if line == 0 || !v.again(tiles, line) {
			v.lines = append(v.lines, v.line(tiles, line))
		}
		numbers = append(numbers, len(v.lines)-1)
	}
	return numbers, nil
}

// again tells whether a line is the same as the one below it.
func (v *view) again(tiles [][]int32, line int) bool {
	for _, tile := range tiles {
		below, here := tile[(line-1)*v.phases:line*v.phases], tile[line*v.phases:(line+1)*v.phases]
		if !slices.Equal(below, here) {
			return false
		}
	}
	return true
}

// line is one line of pixels.
func (v *view) line(tiles [][]int32, line int) []int32 {
	pixels := make([]int32, v.width)
	at := func(s stretch) int32 { return tiles[s.kind][line*v.phases+s.phase] }
	for x := range pixels {
		met := v.met[v.from[x]:v.from[x+1]]
		if len(met) == 1 {
			pixels[x] = at(met[0])
			continue
		}
		var light palette.Linear
		for _, s := range met {
			light = plusLight(light, s.part, v.colours[at(s)].light)
		}
		pixels[x] = v.tint(light)
	}
	return pixels
}

// tile works out the colours of one kind of warp under some weft: line by line, the lowest first,
// in each all phases. A line that is the same as the one below it has the same numbers.
func (v *view) tile(k *warpKind, weft woven, lines int) ([]int32, error) {
	drawn, ok := weft.drawn(k.run)
	if !ok {
		return nil, noMix(k.run, weft.run)
	}
	rows := drawn.Widths.Rows(weft.picks)
	edges := []float64{0}
	for _, r := range rows {
		edges = append(edges, r.To*float64(lines))
	}
	strips := v.stripsOf(k, drawn.Widths.Warp, weft.plain)
	tile := make([]int32, 0, lines*v.phases)
	light, below := make([]palette.Linear, len(strips.all)), []palette.Linear(nil)
	for line := range lines {
		shown := reduce(edges, float64(line)+0.5)
		if lines < weft.fewest { // picks are narrower than a pixel
			shown = evenly(edges)
		}
		for i, s := range strips.all {
			light[i] = palette.Linear{}
			for _, w := range shown {
				yarn := rows[w.of].At(s.shaft, s.mid, v.back)
				light[i] = plusLight(light[i], w.part, drawn.Light[yarn])
			}
		}
		if slices.Equal(light, below) {
			tile = append(tile, v.usedAgain(tile[len(tile)-v.phases:])...)
			continue
		}
		for _, phase := range strips.phases {
			var all palette.Linear
			for _, w := range phase {
				all = plusLight(all, w.part, light[w.of])
			}
			tile = append(tile, v.tint(all))
		}
		below = append(below[:0], light...)
	}
	return tile, nil
}

// usedAgain counts that colours are used once more.
func (v *view) usedAgain(numbers []int32) []int32 {
	for _, n := range numbers {
		v.colours[n].uses++
	}
	return numbers
}

func noMix(warp plan.WarpRun, weft plan.WeftRun) error {
	return fmt.Errorf("the plan mixes no colour for warp %q, ground %q, pattern %q",
		warp.Colour, weft.Ground, weft.Pattern)
}
