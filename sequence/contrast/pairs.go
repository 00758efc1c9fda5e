package contrast

import (
	"cmp"
	"context"
	"math"
	"slices"

	"stripesong/sequence/look"
)

// pairs works out every ground and pattern colour over the warp, the plainest
// first: by the grade over the warp colour where the pair fares worst, then by
// lightness, then in the order of the brief.
func (r *reckoner) pairs(ctx context.Context) ([]Pair, error) {
	widths := r.widths()
	pieces := r.piecesOf()
	var all []Pair
	for pattern := range r.b.Colours {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		for ground := range r.b.Colours {
			all = append(all, r.pair(ground, pattern, widths, pieces))
		}
	}
	slices.SortStableFunc(all, func(a, b Pair) int {
		return cmp.Or(cmp.Compare(b.decided.Grade, a.decided.Grade), cmp.Compare(b.decided.MicroL(), a.decided.MicroL()))
	})
	return all, nil
}

func (r *reckoner) pair(ground, pattern int, widths map[int]float64, pieces map[look.Trio][]string) Pair {
	p := Pair{Ground: r.name(ground), Pattern: r.name(pattern)}
	for _, w := range r.warp {
		t := look.Trio{Warp: w, Ground: ground, Pattern: pattern}
		width, meets := r.state.widthMM[t]
		if !meets {
			width = widths[w]
		}
		c, v := r.combo(t, width, pieces[t])
		p.Meets = p.Meets || meets
		if len(p.Trios) == 0 || v.Worse(p.decided.Seen) {
			p.Warp, p.decided = c.Warp, v
		}
		p.Trios = append(p.Trios, c)
	}
	p.Grade, p.Vision, p.DeltaL = p.decided.Grade.String(), p.decided.sight.String(), round4(p.decided.DeltaL)
	return p
}

func (r *reckoner) combo(t look.Trio, widthMM float64, pieces []string) (Combo, verdict) {
	patch := r.look.Patch(t)
	v := r.decide(patch.On, patch.Off, widthMM)
	near := look.Apart(patch.OnLab, patch.OffLab)
	return Combo{Warp: r.name(t.Warp), Ground: r.name(t.Ground), Pattern: r.name(t.Pattern), Pieces: append([]string{}, pieces...),
		NarrowestMM: round4(widthMM), On: lab4(patch.OnLab), Off: lab4(patch.OffLab), OnHex: patch.On.RGB().Hex(), OffHex: patch.Off.RGB().Hex(),
		DeltaL: round4(near.DeltaL), DeltaE: round4(near.DeltaE), BackDeltaL: round4(-near.DeltaL),
		Grade: v.Grade.String(), SeenL: round4(v.DeltaL), Vision: v.sight.String(), HueOnly: v.HueOnly(), Seen: r.seen(patch.On, patch.Off, widthMM)}, v
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
