package remedy

import (
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/contrast"
	"stripesong/sequence/plan"
)

// alikeWays set pieces that look alike apart: all of them at once, else one of them.
func (f *finder) alikeWays() (all []way) {
	pieces := f.alike()
	if len(pieces) > 1 {
		if all = f.allApart(pieces); len(all) > 0 {
			return all
		}
	}
	for _, i := range pieces {
		all = append(all, f.otherwise(i)...)
	}
	return all
}

// alike are the pieces, from 0, that look like an earlier one, and are not woven yet.
func (f *finder) alike() (all []int) {
	for _, pair := range f.p.Set.Pairs {
		i := pair.NumberB - 1
		if pair.Difference < plan.AlikeE && !f.p.IsWoven(i) && !slices.Contains(all, i) {
			all = append(all, i)
		}
	}
	return all
}

// allApart changes piece after piece, each by the first way that leaves fewer alike, and
// begins with each of the ways of the first.
func (f *finder) allApart(pieces []int) (all []way) {
	for _, first := range f.otherwise(pieces[0]) {
		if w, ok := f.goOn(first, pieces[1:]); ok {
			all = append(all, w)
		}
		if len(all) == mostNoted {
			break
		}
	}
	return all
}

func (f *finder) goOn(w way, pieces []int) (way, bool) {
	t := trouble{code: "pieces-alike"}
	p := f.planned(w.changes)
	if p == nil || !better(t, f.before, troubles(p)) {
		return w, false
	}
	for _, i := range pieces {
		for _, next := range f.otherwise(i) {
			now := troubles(p)
			if now[t] == 0 {
				return w, true
			}
			both, ok := w.and(next)
			if !ok {
				continue
			}
			if q := f.planned(both.changes); q != nil && better(t, now, troubles(q)) {
				w, p = both, q
				break
			}
		}
	}
	return w, !t.in(p)
}

// otherwise gives a piece another order of the same colours, or another colour.
func (f *finder) otherwise(i int) (all []way) {
	if w, ok := f.otherFirst(i); ok {
		all = append(all, w)
	}
	for _, from := range f.patternsOf(i) {
		for _, to := range f.others(from, contrast.AsPattern, []int{i}) {
			changes := contrast.Swap{Role: contrast.AsPattern, From: from, To: to,
				Pieces: []int{i}}.Changes(f.b, f.p)
			all = append(all, way{f.swapWords(contrast.AsPattern, from, to, []int{i}),
				changes, 1.5})
		}
	}
	return all
}

// otherFirst begins a piece that follows a rule with another block, where blocks change
// with every stripe.
func (f *finder) otherFirst(i int) (way, bool) {
	rule := f.b.Pieces[i].Weft.Rule
	if f.p.Pieces[i].Origin != "rules" || rule.Blocks.Apart || f.b.Pieces[i].Weft.Runs != nil {
		return way{}, false
	}
	blocks := f.b.Structure.Blocks
	to := blocks[(rule.Blocks.First+1)%len(blocks)].Letter
	changes := append(plan.PlaceOf(f.b, i), brief.Text(fmt.Sprintf("piece[%d].first", i), to))
	return way{fmt.Sprintf("%s begins with block %s", f.p.Called(i), to), changes, 1}, true
}

func (f *finder) patternsOf(piece int) (all []int) {
	for _, r := range f.p.Pieces[piece].Runs {
		if c := f.b.ColourNamed(r.Pattern); c >= 0 && !slices.Contains(all, c) {
			all = append(all, c)
		}
	}
	return all
}
