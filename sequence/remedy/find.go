package remedy

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// Source is a brief's text and how a changed text is read.
type Source struct {
	Name string
	Text []byte
	Read func(text []byte) (*brief.Brief, error)
}

// How many plans are made for one trouble: of large sets fewer, and fewer where pieces
// are chosen by the program, which takes as long as hundreds of plain plans.
const (
	mostPlans  = 120
	leastPlans = 16
	mostPieces = 1500 // that are planned in all
	mostChoice = 8
)

// mostEach is how many remedies are offered for one trouble, mostNoted for one that
// is no warning.
const mostEach, mostNoted = 4, 2

// finder looks for ways out of one brief's troubles.
type finder struct {
	ctx    context.Context
	source Source
	b      *brief.Brief
	p      *plan.Plan
	before map[trouble]int

	left    int // plans that may still be made for this trouble
	nearest near

	// settled is the brief's text with the pieces that the program chose held as they
	// are: sizes and numbers are searched in it, since nothing is chosen anew there.
	settled []byte
	tries   int // plans of it that may still be made for this trouble
}

// way is a change that may end a trouble. The weight is how invasive it is: a
// judgement, by which ways are put in order.
type way struct {
	what    string
	changes []brief.Change
	weight  float64
}

// Find looks for ways out of all that the brief's plan warns of. The context may
// stop it.
func Find(ctx context.Context, s Source, b *brief.Brief, p *plan.Plan) (*Answer, error) {
	f := &finder{ctx: ctx, source: s, b: b, p: p, before: troubles(p), settled: settled(s, b, p)}
	a := &Answer{Remedies: []Remedy{}, Unmended: []Unmended{}}
	best := mending{beyond: map[trouble]bool{}}
	for _, t := range order(p) {
		found, err := f.find(t)
		if err != nil {
			return nil, fmt.Errorf("looking for ways out: %w", err)
		}
		if len(found) == 0 {
			a.Unmended = append(a.Unmended, f.unmended(t))
		}
		for _, r := range found {
			a.add(r)
		}
		best.add(t, found)
	}
	if r, ok := f.everything(best); ok {
		a.Remedies = slices.DeleteFunc(a.Remedies, r.same)
		a.Remedies = slices.Insert(a.Remedies, 0, r)
	}
	for i := range a.Remedies {
		a.Remedies[i].Number = i + 1
	}
	return a, nil
}

// add puts a remedy down; where the same change is offered for another trouble already, it
// is told there.
func (a *Answer) add(r Remedy) {
	if i := slices.IndexFunc(a.Remedies, r.same); i >= 0 {
		a.Remedies[i].Also = append(a.Remedies[i].Also, Mended{r.For, r.About})
		return
	}
	a.Remedies = append(a.Remedies, r)
}

func (r Remedy) same(other Remedy) bool { return slices.Equal(r.Changes, other.Changes) }

// find is the best few ways out of one trouble that were borne out.
func (f *finder) find(t trouble) ([]Remedy, error) {
	f.budget()
	f.nearest = near{excess: excess(t, f.p)}
	var found []Remedy
	for _, w := range f.ways(t) {
		if f.ctx.Err() != nil {
			return nil, f.ctx.Err()
		}
		if p := f.borneOut(t, w); p != nil {
			found = append(found, f.remedy(t, w, p))
		}
	}
	slices.SortStableFunc(found, func(a, b Remedy) int { return cmp.Compare(a.weight, b.weight) })
	most := mostEach
	if t.onlyNoted() {
		most = mostNoted
	}
	return found[:min(len(found), most)], f.ctx.Err()
}

// ways lists what may end a trouble. Lengths and widths in them have been searched
// for already.
func (f *finder) ways(t trouble) []way {
	switch t.code {
	case "board-short":
		return f.boardWays(t)
	case "warp-short":
		return f.restWays(t)
	case yarnShort:
		return f.yarnWays(t)
	case "loom-narrow":
		return f.widthWays(t)
	case "heddles":
		return append(f.otherSett(t, -1), f.widthWays(t)...)
	case "beat-impossible", "beat-hard":
		return f.beatWays(t)
	case "contrast-unseen", "contrast-faint":
		return f.contrastWays()
	case "float-long":
		return append(f.otherSett(t, 1), f.otherStructures()...)
	case "shafts":
		return f.shaftWays()
	case "treadles":
		return f.treadleWays()
	case "treadles-at-once":
		return f.feetWays()
	case "reed-sett":
		return f.settWays()
	case "set-alike":
		return f.choiceWays()
	case "pieces-alike":
		return f.alikeWays()
	}
	return nil
}

// planned is the plan of the changed text; nil where it has none, or where enough
// plans were made.
func (f *finder) planned(changes []brief.Change) *plan.Plan {
	if f.left <= 0 || f.ctx.Err() != nil {
		return nil
	}
	f.left--
	return f.planOf(f.source.Text, changes)
}

// planOf is the plan of a text with changes; nil where it has none.
func (f *finder) planOf(text []byte, changes []brief.Change) *plan.Plan {
	text, err := brief.Edit(f.source.Name, text, changes)
	if err != nil {
		return nil
	}
	b, err := f.source.Read(text)
	if err != nil {
		return nil
	}
	p, err := plan.Make(f.ctx, b)
	if err != nil {
		return nil
	}
	return p
}

// borneOut plans a way and gives its plan if it ends the trouble and brings none; nil
// otherwise. What comes nearest is kept.
func (f *finder) borneOut(t trouble, w way) *plan.Plan {
	p := f.planned(w.changes)
	if p == nil {
		return nil
	}
	if better(t, f.before, troubles(p)) {
		return p
	}
	f.consider(t, w, p)
	return nil
}

// ends tells whether a way ends a trouble, whatever else it brings. What comes nearest is
// kept.
func (f *finder) ends(t trouble, w way) bool {
	if f.tries <= 0 || f.ctx.Err() != nil {
		return false
	}
	f.tries--
	p := f.planOf(f.settled, w.changes)
	if p == nil {
		return false
	}
	if t.in(p) {
		f.consider(t, w, p)
	}
	return !t.in(p)
}

// budget is what may be spent on one trouble.
func (f *finder) budget() {
	n := max(leastPlans, min(mostPlans, mostPieces/len(f.b.Pieces)))
	f.left, f.tries = n, n
	if f.b.Vary != nil {
		f.left = mostChoice
	}
}

// settled is a brief's text with what the program chose in it held, and without [vary];
// the text itself where nothing is chosen, or where it can't be written so.
func settled(s Source, b *brief.Brief, p *plan.Plan) []byte {
	var open []int
	for i, piece := range b.Pieces {
		if piece.Open {
			open = append(open, i)
		}
	}
	if b.Vary == nil || len(open) == 0 {
		return s.Text
	}
	text, err := brief.Edit(s.Name, s.Text,
		append(plan.HoldOf(b, p, open), brief.Change{Key: "vary"}))
	if err != nil {
		return s.Text
	}
	return text
}

// remedy is a way that was borne out, with what it costs.
func (f *finder) remedy(t trouble, w way, p *plan.Plan) Remedy {
	return Remedy{
		For: t.code, About: t.about, Lessens: t.in(p), What: w.what, Costs: f.costs(w, p),
		ends: f.ended(p),
		Left: len(p.NotesOf(plan.Warning)), Changes: w.changes, weight: w.weight,
	}
}
