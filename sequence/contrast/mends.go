package contrast

import (
	"context"
	"errors"
	"fmt"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// mostMends is how many combinations are advised on, mostTries how many changes
// of one kind are planned before giving up.
const mostMends, mostTries = 12, 4

// mends looks for what would help each combination that falls short, the worst
// first, and says how many more there are.
func (r *reckoner) mends(ctx context.Context) (mends []Mend, left int, err error) {
	mends = []Mend{}
	thicker := r.thicker()
	for i, t := range r.state.falling() {
		if i >= mostMends {
			left++
			continue
		}
		m, err := r.mend(ctx, t, thicker)
		if err != nil {
			return nil, 0, err
		}
		mends = append(mends, m)
	}
	return mends, left, nil
}

func (r *reckoner) mend(ctx context.Context, t look.Trio, thicker []*cloth) (Mend, error) {
	now, pieces := r.state.worst[t], r.state.shortIn(t)
	m := Mend{Warp: r.name(t.Warp), Ground: r.name(t.Ground), Pattern: r.name(t.Pattern),
		Pieces: r.pieceNames(pieces),
		Grade:  now.Grade, DeltaL: exact.RoundTo(now.DeltaL, 4), Vision: now.sight,
		HueOnly: now.HueOnly(), Options: []Option{},
		Range: r.rangeOf(t, now, r.state.widthMM[t])}
	for _, role := range r.roles() {
		for _, shelf := range []bool{false, true} {
			o, err := r.swapOption(ctx, r.swaps(role, t, pieces, shelf), t, pieces)
			if err != nil {
				return m, err
			}
			m.add(o)
		}
	}
	for _, kind := range []string{Strands, Beat} {
		o, err := r.thickerOption(ctx, kind, t, pieces, thicker)
		if err != nil {
			return m, err
		}
		m.add(o)
	}
	if len(m.Options) == 0 {
		m.Nearest = r.nearest(t, pieces)
	}
	return m, nil
}

// roles are those in which another colour may help: the warp's only as long as it is not
// on the loom.
func (r *reckoner) roles() []string {
	if r.b.Midway != nil {
		return []string{AsPattern, AsGround}
	}
	return []string{AsPattern, AsGround, AsWarp}
}

func (m *Mend) add(o *Option) {
	if o != nil {
		m.Options = append(m.Options, *o)
	}
}

func (r *reckoner) pieceNames(pieces []int) []string {
	names := []string{}
	for _, i := range pieces {
		names = append(names, r.p.Pieces[i].Name)
	}
	return names
}

// guess is a swap and what it would bring if no edge moved.
type guess struct {
	swap
	verdict
	short int
}

// swapOption is the least change that lifts a trio to [Target], or else as far
// as any does; nil where none helps.
func (r *reckoner) swapOption(ctx context.Context, swaps []swap, t look.Trio,
	pieces []int) (*Option, error) {
	now, _ := r.state.in(t, pieces)
	var guesses []guess
	for _, s := range swaps {
		guesses = append(guesses, r.guess(s, t, pieces))
	}
	tries := 0
	for target := Target; target > now.Grade; target-- {
		for _, g := range guesses {
			if g.Grade < target || !r.bearable(g.Grade, g.short) || tries == mostTries {
				continue
			}
			tries++
			o, err := r.try(ctx, g.swap, t, pieces, target)
			if o != nil || err != nil {
				return o, err
			}
		}
	}
	return nil, nil
}

// bearable reports whether a change that lifts a trio to a grade leaves few
// enough combinations short: one less where the trio no longer is, no more in
// any case.
func (r *reckoner) bearable(grade palette.Grade, short int) bool {
	if grade >= Target {
		return short < r.state.short()
	}
	return short <= r.state.short()
}

func (r *reckoner) guess(s swap, t look.Trio, pieces []int) guess {
	meetings := make([]meeting, len(r.state.meetings))
	for i, m := range r.state.meetings {
		meetings[i] = m
		if after := s.of(m.trio, m.piece); after != m.trio {
			meetings[i] = meeting{piece: m.piece, trio: after, widthMM: m.widthMM}
		}
	}
	after := r.judged(meetings, r.look)
	v, _ := after.in(s.of(t, pieces[0]), pieces)
	return guess{s, v, after.short()}
}

// try plans the brief with a swap made and offers it if the plan bears it out.
func (r *reckoner) try(ctx context.Context, s swap, t look.Trio, pieces []int,
	target palette.Grade) (*Option, error) {
	after, p, err := r.planned(ctx, s.apply(r.b))
	if err != nil || p == nil {
		return nil, err
	}
	v, all := after.in(s.of(t, pieces[0]), pieces)
	if !all || v.Grade < target || !r.bearable(v.Grade, after.short()) {
		return nil, nil
	}
	o := r.option(s.role, t, pieces, v, after)
	r.howSure(&o, s.of(t, pieces[0]), v, after)
	o.From, o.To, o.Shelf = r.name(s.from), r.name(s.to), r.b.Colours[s.to].Shelf
	o.Apart = exact.RoundTo(float64(r.apart(s.from, s.to))/1e6, 4)
	if s.role != AsWarp {
		o.Pieces = r.pieceNames(pieces)
	}
	for _, y := range p.Yarn {
		if y.Colour == o.To {
			o.ShortM = y.ShortM
		}
	}
	o.Changes = r.swapChanges(s)
	return &o, nil
}

func (r *reckoner) option(change string, t look.Trio, pieces []int, v verdict, after state) Option {
	now, _ := r.state.in(t, pieces)
	return Option{Change: change, Pieces: []string{}, Grade: v.Grade,
		DeltaL: exact.RoundTo(v.DeltaL, 4),
		Gain:   exact.RoundTo(float64(v.MicroL()-now.MicroL())/1e6, 4), Short: after.short()}
}

// howSure adds to an option how far its grade may lie from what is reckoned.
func (r *reckoner) howSure(o *Option, t look.Trio, v verdict, after state) {
	o.Reaches = v.Grade >= Target
	o.Certain = o.Reaches
	if after.cloth.Known() {
		return
	}
	seen := after.cloth.Range(t, v.sight, after.widthMM[t], r.q.DistanceM)
	o.Range, o.Certain = plan.RangeOf(seen), seen.Least.Grade >= Target
}

// planned makes the plan of a changed brief; nil where there is none, which is
// an error only if the context says so.
func (r *reckoner) planned(ctx context.Context, b *brief.Brief) (state, *plan.Plan, error) {
	p, err := plan.Make(ctx, b)
	var problems brief.Problems
	if errors.As(err, &problems) {
		return state{}, nil, nil
	}
	if err != nil {
		return state{}, nil, fmt.Errorf("looking for what would mend contrast: %w", err)
	}
	changed := *r
	changed.b, changed.p = b, p
	if b.Cloth.Strands != r.b.Cloth.Strands ||
		b.Cloth.Ground.PerMM.Cmp(r.b.Cloth.Ground.PerMM) != 0 {
		changed.look = look.Of(b)
	}
	return changed.stateOf(p), p, nil
}
