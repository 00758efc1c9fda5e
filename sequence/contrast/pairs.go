package contrast

import (
	"cmp"
	"context"
	"math"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/parallel"
	"stripesong/sequence/plan"
)

// pairs works out every ground and pattern colour over the warp, the plainest
// first: by the grade over the warp colour where the pair fares worst, then by
// lightness, then in the order of the brief. Patterns are shared out among the
// processors; each pair is the same whoever works it out.
func (r *reckoner) pairs(ctx context.Context) ([]Pair, error) {
	widths, n := r.widths(), len(r.b.Colours)
	all := make([]Pair, n*n)
	err := parallel.Ranges(ctx, n, 8, func(from, to int) {
		mine := *r
		mine.blurs = make(map[view]palette.Blur)
		for pattern := from; pattern < to; pattern++ {
			for ground := range n {
				all[pattern*n+ground] = mine.pair(ground, pattern, widths)
			}
		}
	})
	if err != nil {
		return nil, err
	}
	slices.SortStableFunc(all, func(a, b Pair) int {
		return cmp.Or(cmp.Compare(b.decided.Grade, a.decided.Grade),
			cmp.Compare(b.decided.MicroL(), a.decided.MicroL()))
	})
	return all, nil
}

// pair decides how a ground and a pattern colour show, over the warp colour where
// they fare worst.
func (r *reckoner) pair(ground, pattern int, widths map[int]float64) Pair {
	p := Pair{Ground: r.name(ground), Pattern: r.name(pattern)}
	for i, w := range r.warp {
		t := look.Trio{Warp: w, Ground: ground, Pattern: pattern}
		width, meets := r.narrowestOf(t, widths)
		on, off := r.look.OnOff(t)
		v := r.decide(on, off, width)
		p.Meets = p.Meets || meets
		if i == 0 || v.Worse(p.decided.Difference) {
			p.Warp, p.decided = r.name(w), v
		}
	}
	p.Grade, p.Vision = p.decided.Grade, p.decided.sight
	p.DeltaL = exact.RoundTo(p.decided.DeltaL, 4)
	return p
}

// narrowestOf is the narrowest edge of a trio, and whether it meets in the plan.
func (r *reckoner) narrowestOf(t look.Trio, widths map[int]float64) (widthMM float64, meets bool) {
	if width, meets := r.state.widthMM[t]; meets {
		return width, true
	}
	return widths[t.Warp], false
}

// combo is everything about one combination.
func (r *reckoner) combo(t look.Trio, widthMM float64, pieces []string) Combo {
	patch := r.look.Patch(t)
	v := r.decide(patch.On, patch.Off, widthMM)
	near := look.Apart(patch.OnLab, patch.OffLab)
	return Combo{
		Warp:        r.name(t.Warp),
		Ground:      r.name(t.Ground),
		Pattern:     r.name(t.Pattern),
		Pieces:      append([]string{}, pieces...),
		NarrowestMM: exact.RoundTo(widthMM, 4),
		On:          patch.OnLab.Rounded(),
		Off:         patch.OffLab.Rounded(),
		OnRGB:       patch.On.RGB(),
		OffRGB:      patch.Off.RGB(),
		DeltaL:      exact.RoundTo(near.DeltaL, 4),
		DeltaE:      exact.RoundTo(near.DeltaE, 4),
		BackDeltaL:  exact.RoundTo(-near.DeltaL, 4),
		Grade:       v.Grade,
		Range:       r.rangeOf(t, v, widthMM),
		SeenL:       exact.RoundTo(v.DeltaL, 4),
		Vision:      v.sight,
		HueOnly:     v.HueOnly(),
		Seen:        r.seen(patch.On, patch.Off, widthMM),
	}
}

// rangeOf is how far what decides may lie from what is reckoned; nil where the
// brief leaves nothing open.
func (r *reckoner) rangeOf(t look.Trio, v verdict, widthMM float64) *plan.Range {
	if r.look.Known() {
		return nil
	}
	return plan.RangeOf(r.look.Range(t, v.sight, widthMM, r.q.DistanceM))
}

// Combos is a pair over each warp colour, from the left.
func (r *Report) Combos(p Pair) []Combo {
	widths, pieces := r.reckoner.widths(), r.reckoner.piecesOf()
	return r.combos(p, widths, pieces)
}

func (r *Report) combos(p Pair, widths map[int]float64,
	pieces map[look.Trio][]string) (all []Combo) {
	k := r.reckoner
	for _, w := range k.warp {
		t := look.Trio{Warp: w, Ground: k.number[p.Ground], Pattern: k.number[p.Pattern]}
		width, _ := k.narrowestOf(t, widths)
		all = append(all, k.combo(t, width, pieces[t]))
	}
	return all
}

// Words is the grade of a pair with its range: "clear to strong".
func (r *Report) Words(p Pair) string {
	for _, c := range r.Combos(p) {
		if c.Warp == p.Warp {
			return c.Range.Or(p.Grade)
		}
	}
	return p.Grade.String()
}

// PairOf is the pair of a ground and a pattern colour of the brief.
func (r *Report) PairOf(ground, pattern string) Pair {
	i := slices.IndexFunc(r.Pairs, func(p Pair) bool {
		return p.Ground == ground && p.Pattern == pattern
	})
	if i < 0 {
		return Pair{}
	}
	return r.Pairs[i]
}

// widths is, for every colour of the warp, the narrowest edge a pattern could
// have over it: its narrowest stripe or the narrowest weft run of any piece.
func (r *reckoner) widths() map[int]float64 {
	weft := math.Inf(1)
	for _, piece := range r.p.Pieces {
		for _, run := range piece.Runs {
			if run.Block != "" {
				weft = min(weft, r.runMM(run.Units))
			}
		}
	}
	widths := make(map[int]float64)
	for _, run := range r.p.Warp.Runs {
		c := r.number[run.Colour]
		width, ok := widths[c]
		if !ok {
			width = weft
		}
		widths[c] = min(width, r.stripeMM(run.Ends))
	}
	return widths
}

// stripeMM is the finished width of so many ends, runMM the finished length of
// so many weft units.
func (r *reckoner) stripeMM(ends int) float64 {
	return r.p.Warp.FinishedWidthMM * float64(ends) / float64(r.p.Warp.Ends)
}

func (r *reckoner) runMM(units int) float64 {
	return r.p.Cloth.WeftUnitMM * (1 - r.p.Cloth.ShrinkLength) * float64(units)
}

// piecesOf names the pieces in which each trio meets.
func (r *reckoner) piecesOf() map[look.Trio][]string {
	names := make(map[look.Trio][]string)
	for _, m := range r.state.meetings {
		names[m.trio] = append(names[m.trio], r.p.Pieces[m.piece].Name)
	}
	return names
}
