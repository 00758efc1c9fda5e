package midway

import (
	"context"
	"fmt"

	"stripesong/sequence/brief"
	"stripesong/sequence/fit"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// Make answers for a brief, its plan, and how far the weaver is. The context may stop it;
// what was measured and can't be is an error of type [brief.Problems].
func Make(ctx context.Context, s remedy.Source, b *brief.Brief, p *plan.Plan,
	at *brief.Progress) (*Answer, error) {
	r := &reckoner{b: b, p: p, at: at}
	for _, work := range []func() error{
		r.number, r.lengths, r.beat, r.warp, r.takeUp, r.weftExtra, r.stock} {
		if err := work(); err != nil {
			return nil, err
		}
	}
	a, f := r.place(), &finder{ctx: ctx, source: s, r: r}
	if r.woven == len(p.Pieces) {
		f.oneMore(a)
		return a, stopped(ctx)
	}
	if err := f.begin(); err != nil {
		return nil, err
	}
	r.takes(a, f.base.plan)
	a.Fit = f.gives()
	a.Ways = f.ways()
	if err := stopped(ctx); err != nil {
		return nil, err
	}
	if len(a.Ways) == 0 {
		a.Nearest = f.nearest()
	}
	return a, nil
}

// stopped is the error that the context gives, if it does.
func stopped(ctx context.Context) error {
	if err := ctx.Err(); err != nil {
		return fmt.Errorf("looking for ways to weave the rest: %w", err)
	}
	return nil
}

// gives is what the warp gives, whatever the yarn; nil where that is nothing.
func (f *finder) gives() *fit.Answer {
	given, err := fit.Make(f.base.brief, f.base.plan,
		fit.Question{WarpMM: f.base.brief.Midway.Warp.MM})
	if err != nil {
		return nil
	}
	return given
}
