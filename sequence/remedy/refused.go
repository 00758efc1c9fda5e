package remedy

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// shelfRefused is what a brief has whose [vary] may use no more than is on hand, where
// that does not reach: no plan at all.
const shelfRefused = "vary.within"

// Refused tells whether an error is that the shelf does not reach for what is to be
// chosen within it.
func Refused(err error) bool {
	var problems brief.Problems
	within := func(p brief.Problem) bool { return p.Key == shelfRefused }
	return errors.As(err, &problems) && slices.ContainsFunc(problems, within)
}

// FindRefused looks for ways out of a brief that has no plan for that reason: smaller
// things left out, shorter pieces, fewer, more colours to choose from, and to buy yarn.
// The context may stop it.
func FindRefused(ctx context.Context, s Source, b *brief.Brief) (*Answer, error) {
	f := &finder{ctx: ctx, source: s, b: b, before: map[trouble]int{}, settled: s.Text}
	f.left, f.tries = 2*mostChoice, 2*mostChoice
	t := trouble{code: shelfRefused}
	a := &Answer{Remedies: []Remedy{}, Unmended: []Unmended{}}
	for _, w := range f.refusedWays(t) {
		p := f.planned(w.changes)
		if ctx.Err() != nil {
			return nil, fmt.Errorf("looking for ways out: %w", ctx.Err())
		}
		if p == nil || t.in(p) && w.weight < toBuy {
			continue
		}
		a.Remedies = append(a.Remedies, Remedy{
			Number: len(a.Remedies) + 1, For: t.code, What: w.what, Costs: f.planCosts(p),
			Left: len(p.NotesOf(plan.Warning)), Changes: w.changes, weight: w.weight,
		})
	}
	if len(a.Remedies) == 0 {
		a.Unmended = append(a.Unmended, Unmended{Code: t.code})
	}
	return a, nil
}

// refusedWays are in the order of how invasive they are.
func (f *finder) refusedWays(t trouble) (all []way) {
	if w, ok := f.moreColours(); ok {
		all = append(all, w)
	}
	for _, w := range f.extras() {
		if f.ends(t, w) {
			all = append(all, w)
		}
	}
	f.tries = mostChoice
	if w, ok := f.shorter(t); ok {
		all = append(all, w)
	}
	f.tries = mostChoice
	all = append(all, f.fewer(t)...)
	sortByWeight(all)
	return append(all, way{"choose whatever the shelf holds, and buy what is short",
		[]brief.Change{{Key: shelfRefused}}, toBuy})
}

// toBuy is more invasive than all else.
const toBuy = 1000

// moreColours lets the program choose from all colours of the yarns it may choose from
// that are neither warp nor ground.
func (f *finder) moreColours() (way, bool) {
	v := f.b.Vary
	taken := append(slices.Clone(f.b.Warp.Rule.Colours), f.b.Weft.Ground)
	for _, r := range f.b.Warp.Runs {
		taken = append(taken, r.Colour)
	}
	var names []string
	for i, c := range f.b.Colours {
		of := func(other int) bool { return f.b.Colours[other].Yarn == c.Yarn }
		free := slices.ContainsFunc(v.Colours, of) && !slices.Contains(taken, i)
		if free || slices.Contains(v.Colours, i) {
			names = append(names, c.Name)
		}
	}
	if len(names) == len(v.Colours) {
		return way{}, false
	}
	changes := []brief.Change{{Key: "vary.colours", Value: tomltext.List(names)}}
	what := fmt.Sprintf("choose from %d colours instead of %d", len(names), len(v.Colours))
	return way{what, changes, 1}, true
}

// planCosts is what a plan comes to, where there is none to hold it against.
func (f *finder) planCosts(p *plan.Plan) []string {
	costs := []string{"warp " + measure.FormatWarp(p.Warp.WoundMM, f.b.Units)}
	if len(p.Pieces) > 1 {
		costs = append(costs, fmt.Sprintf("least difference %.1f", p.Set.LeastDifference))
	}
	return costs
}
