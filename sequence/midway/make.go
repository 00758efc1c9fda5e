package midway

import (
	"context"
	"fmt"

	"stripesong/sequence/brief"
	"stripesong/sequence/fit"
	"stripesong/sequence/measure"
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
	a := r.place()
	if r.woven == len(p.Pieces) {
		a.Nearest = fmt.Sprintf("all %s of the set are woven; for one more raise pieces in [set] "+
			"and give it a [[piece]] table",
			measure.Count(r.woven, "piece"))
		return a, nil
	}
	f := &finder{ctx: ctx, source: s, r: r}
	if err := f.begin(); err != nil {
		return nil, err
	}
	r.takes(a, f.base.plan)
	if given, err := fit.Make(f.base.brief, f.base.plan,
		fit.Question{WarpMM: f.base.brief.Midway.Warp.MM}); err == nil {
		a.Fit = given
	}
	a.Ways = f.ways()
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("looking for ways to weave the rest: %w", err)
	}
	if len(a.Ways) == 0 {
		a.Nearest = f.nearest()
	}
	return a, nil
}
