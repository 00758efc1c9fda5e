package midway

import (
	"bytes"
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// What is given up last: judgements, the same as those of package remedy.
const (
	mostWays    = 3
	pieceWeight = 4  // to give up a piece
	lossWeight  = 25 // to give up all of the length: 4 % is as bad as 1
)

// leastOfAll is the least part of the planned length that all pieces to come may have:
// shorter ones are another set.
var leastOfAll = big.NewRat(6, 10)

// leastOfLast is the least part of its planned length that a last piece may have: a hand
// towel's worth beside a kitchen towel.
var leastOfLast = big.NewRat(1, 3)

// shape is a number of pieces to come and how many weft units each has.
type shape struct {
	what   string
	units  []int
	length string // finished, that all of them now have; "" for those planned
	weight float64
}

// found is a shape that was planned, or a recoloured one.
type found struct {
	shape
	*rest
	costs    []string
	from     *finder // whose base it changes; nil for the one that looks
	recolour []brief.Change
}

// ways are the best few ways to weave the rest: of each shape the best first, then others.
func (f *finder) ways() []Way {
	all := f.candidates()
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(a.weight, b.weight) })
	ways := []Way{}
	var shapes [][]int
	for _, twice := range []bool{false, true} {
		for i := range all {
			one := &all[i]
			known := slices.ContainsFunc(shapes, func(units []int) bool {
				return slices.Equal(units, one.units)
			})
			if len(ways) == mostWays || one.rest == nil || known != twice {
				continue
			}
			if w, ok := cmp.Or(one.from, f).way(*one, len(ways)+1); ok && !offered(ways, w) {
				ways, shapes = append(ways, w), append(shapes, one.units)
			}
			one.rest = nil
		}
	}
	return ways
}

// offered tells whether a way is among some.
func offered(ways []Way, w Way) bool {
	return slices.ContainsFunc(ways, func(o Way) bool { return bytes.Equal(o.text, w.text) })
}

// candidates are all shapes that the rest gives: those for which warp and yarn reach as
// they are, and those for which the warp does and other colours stand in for what is
// short.
func (f *finder) candidates() (all []found) {
	planned := f.first(len(f.base.plan.Pieces) - f.r.woven)
	if lacks(f.base.plan) == "" {
		all = append(all, found{shape: planned, rest: f.base})
		if longer, ok := f.longer(); ok {
			all = append(all, longer)
		}
		if f.extra == nil {
			if more, ok := f.more(); ok {
				all = append(all, more)
			}
		}
		return all
	}
	for _, limit := range []limit{reaches, warpReaches} {
		n := f.asPlanned(len(planned.units), limit)
		shapes := f.shorter(n, limit)
		if n > 0 {
			shapes = append(shapes, f.first(n))
		}
		if last, ok := f.last(n, limit); ok {
			shapes = append(shapes, last)
		}
		for _, s := range shapes {
			all = append(all, f.reaching(s)...)
		}
	}
	return all
}

// reaching is a shape as it is where yarn reaches for it, else with other colours.
func (f *finder) reaching(s shape) []found {
	made := f.make(s)
	switch {
	case made == nil || !warpReaches(made.plan):
		return nil
	case yarnReaches(made.plan):
		return []found{{shape: s, rest: made}}
	}
	return f.recoloured(s, made)
}

// limit tells whether a plan of the rest can be woven, as far as it looks.
type limit func(*plan.Plan) bool

// lacks says what a plan of the rest lacks: "warp", "yarn", or nothing.
func lacks(p *plan.Plan) string {
	switch {
	case !warpReaches(p):
		return "warp"
	case !yarnReaches(p):
		return "yarn"
	}
	return ""
}

func reaches(p *plan.Plan) bool { return lacks(p) == "" }

func warpReaches(p *plan.Plan) bool {
	return !slices.ContainsFunc(p.Notes, func(n plan.Note) bool { return n.Code == "warp-short" })
}

func yarnReaches(p *plan.Plan) bool {
	return !slices.ContainsFunc(p.Yarn, func(y plan.Yarn) bool {
		return y.OnHandM != nil && *y.OnHandM < y.NeededM()
	})
}

// first is the first n pieces to come as they were planned.
func (f *finder) first(n int) shape {
	p := f.base.plan
	s := shape{what: f.asPlannedWords(n)}
	for _, piece := range p.Pieces[f.r.woven : f.r.woven+n] {
		s.units = append(s.units, piece.BodyUnits)
	}
	if gone := len(p.Pieces) - f.r.woven - n; gone > 0 {
		s.what = fmt.Sprintf("%s as planned, without %s", measure.Count(n, "piece"),
			f.names(f.r.woven+n, len(p.Pieces)))
		s.weight = float64(pieceWeight * gone)
	}
	return s
}

// asPlannedWords are what is said of the first n pieces to come as they are.
func (f *finder) asPlannedWords(n int) string {
	switch {
	case f.extra == nil:
		return "as planned"
	case n == 1:
		return f.extra.said()
	}
	return "as planned, and " + f.extra.said()
}

// names are the pieces from one number to another, counted from 0.
func (f *finder) names(from, to int) string {
	var names []string
	for i := from; i < to; i++ {
		names = append(names, f.base.plan.Called(i))
	}
	if len(names) > 3 {
		return fmt.Sprintf("the last %d", len(names))
	}
	return strings.Join(names, ", ")
}

// changes write a shape: pieces that are given up lose their tables, others are scaled.
func (f *finder) changes(s shape) ([]brief.Change, error) {
	b, from := f.base.brief, f.r.woven
	var all []brief.Change
	for i, n := range s.units {
		if n == f.base.plan.Pieces[from+i].BodyUnits {
			continue
		}
		runs, err := plan.Scaled(b, from+i, n)
		if err != nil {
			return nil, err
		}
		all = append(all, brief.Change{Key: fmt.Sprintf("piece[%d].runs", from+i),
			Value: brief.RunList(b.RunTexts(runs))})
	}
	for i := len(b.Pieces) - 1; i >= from+len(s.units); i-- {
		all = append(all, brief.Change{Key: fmt.Sprintf("piece[%d]", i)})
	}
	if len(s.units) < len(b.Pieces)-from {
		all = append(all, brief.Change{Key: "set.pieces", Value: fmt.Sprint(from + len(s.units))})
	}
	if s.length != "" && b.Set.Length != nil {
		all = append(all, brief.Text("set.length", s.length))
	}
	return all, nil
}

// make plans a shape; nil where it has no plan.
func (f *finder) make(s shape) *rest {
	changes, err := f.changes(s)
	if err != nil {
		return nil
	}
	return f.try(changes)
}

// asPlanned is how many of n pieces to come, the first ones, a limit allows as they are.
func (f *finder) asPlanned(n int, limit limit) int {
	return most(0, n, func(k int) bool { return f.holds(f.first(k), limit) })
}

// holds tells whether a limit allows a shape.
func (f *finder) holds(s shape, limit limit) bool {
	made := f.make(s)
	return made != nil && limit(made.plan)
}

// most is the greatest number from low up to high for which something holds that holds
// for all below it; low where it holds for none.
func most(low, high int, holds func(int) bool) int {
	for low < high {
		middle := (low + high + 1) / 2
		if holds(middle) {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}

// last is the first n pieces to come as planned and one more, shorter, as long as it
// lasts.
func (f *finder) last(n int, limit limit) (shape, bool) {
	if n >= len(f.base.plan.Pieces)-f.r.woven {
		return shape{}, false
	}
	full := f.base.plan.Pieces[f.r.woven+n].BodyUnits
	low := max(1, exact.Ceil(exact.Times(exact.Whole(full), leastOfLast)))
	if !f.holds(f.withLast(n, low), limit) {
		return shape{}, false
	}
	units := most(low, full-1, func(units int) bool { return f.holds(f.withLast(n, units), limit) })
	return f.withLast(n, units), true
}

// longer is all pieces to come, the last as long as it lasts, if that is worth a word.
func (f *finder) longer() (found, bool) {
	n := len(f.base.plan.Pieces) - f.r.woven - 1
	full := f.base.plan.Pieces[f.r.woven+n].BodyUnits
	units := most(full, min(4*full, brief.MaxUnits), func(units int) bool {
		return f.holds(f.withLast(n, units), reaches)
	})
	if 10*units < 11*full {
		return found{}, false
	}
	s := f.withLast(n, units)
	return found{shape: s, rest: f.make(s)}, true
}

// withLast is the first n pieces to come as planned and one more of so many weft units.
func (f *finder) withLast(n, units int) shape {
	s, at := f.first(n+1), f.r.woven+n
	was := f.base.plan.Pieces[at]
	s.units[n] = units
	body := plan.BodyMM(f.base.brief, at, units)
	ends := exact.Times(exact.Whole(2), exactly(was.ShowWovenMM))
	finished := exact.Rounded(exact.Times(exact.Plus(body, ends),
		exact.Remains(f.r.b.Cloth.ShrinkLength.Part)))
	s.what = fmt.Sprintf("%s, but %s %s long instead of %s", s.what,
		f.base.plan.Called(at),
		f.r.length(finished), f.r.length(was.FinishedMM))
	s.weight += 1 + float64(3*math.Abs(1-float64(units)/float64(was.BodyUnits)))
	return s
}

func (r *reckoner) length(mm float64) string { return measure.FormatLength(mm, r.b.Units) }

// shorter are all pieces to come, or as many as can be but more than a limit allows as
// planned, at one length that is less.
func (f *finder) shorter(planned int, limit limit) []shape {
	for n := len(f.base.plan.Pieces) - f.r.woven; n > planned; n-- {
		if s, ok := f.equal(n, limit); ok {
			return []shape{s}
		}
	}
	return nil
}

// equal is the first n pieces to come at the greatest length, in whole centimetres or
// quarter inches, that a limit allows.
func (f *finder) equal(n int, limit limit) (shape, bool) {
	longest := 0.0
	for _, piece := range f.base.plan.Pieces[f.r.woven : f.r.woven+n] {
		longest = max(longest, piece.FinishedMM)
	}
	step := exact.Whole(10)
	if f.r.b.Units == "in" {
		step = big.NewRat(635, 100)
	}
	at := func(steps int) shape {
		return f.allOf(n, exact.Times(exact.Whole(steps), step), longest)
	}
	top := exact.Floor(exact.Over(exactly(longest), step))
	low := exact.Ceil(exact.Over(exact.Times(exactly(longest), leastOfAll), step))
	if low > top || !f.holds(at(low), limit) {
		return shape{}, false
	}
	return at(most(low, top, func(steps int) bool { return f.holds(at(steps), limit) })), true
}

// allOf is the first n pieces to come, none longer than a finished length.
func (f *finder) allOf(n int, mm *big.Rat, longest float64) shape {
	s, from, all := f.first(n), f.r.woven, len(f.base.plan.Pieces)
	s.length = measure.WriteLength(mm, f.r.b.Units)
	for i := range s.units {
		s.units[i] = min(s.units[i], plan.UnitsWithin(f.base.brief, from+i, mm))
	}
	s.what = fmt.Sprintf("%s of %s instead of %s", measure.Count(n, "piece"), s.length,
		f.r.length(longest))
	if from+n < all {
		s.what += ", without " + f.names(from+n, all)
	}
	s.weight += float64(lossWeight * (1 - exact.Rounded(mm)/longest))
	return s
}

// recoloured are a shape with other colours in place of those that are short.
func (f *finder) recoloured(s shape, made *rest) (all []found) {
	source := remedy.Source{Name: f.source.Name, Text: made.text, Read: f.source.Read}
	remedies, err := remedy.Instead(f.ctx, source, made.brief, made.plan)
	if err != nil {
		return nil
	}
	for _, one := range remedies {
		text, err := brief.Edit(f.source.Name, made.text, one.Changes)
		if err != nil {
			continue
		}
		again, err := f.planned(text)
		if err != nil || !reaches(again.plan) {
			continue
		}
		t := s
		t.what = s.what + "; " + one.What
		t.weight += one.Weight()
		all = append(all, found{shape: t, rest: again, costs: one.Costs, recolour: one.Changes})
	}
	return all
}

// written is the text of what was found with all that the brief has, [vary] too, which was
// left out so that plans take no time; planned once more where it has that.
func (f *finder) written(one found) *rest {
	if f.r.b.Vary == nil {
		return one.rest
	}
	changes, err := f.changes(one.shape)
	if err != nil {
		return nil
	}
	all := slices.DeleteFunc(f.r.changes(), func(c brief.Change) bool { return c.Key == "vary" })
	if f.extra != nil {
		all = append(all, f.extra.changes...)
	}
	text, err := brief.Edit(f.source.Name, f.source.Text, slices.Concat(all, changes, one.recolour))
	if err != nil {
		return nil
	}
	made, err := f.planned(text)
	if err != nil || len(plan.ChangedPieces(one.plan, made.plan)) > 0 {
		return nil
	}
	return made
}

// way is what was found as it is offered, if it is still a set.
func (f *finder) way(one found, number int) (Way, bool) {
	if one.rest == nil || !reaches(one.plan) || !f.set(one.plan) {
		return Way{}, false
	}
	made := f.written(one)
	if made == nil || !reaches(made.plan) {
		return Way{}, false
	}
	p := made.plan
	w := Way{Number: number, What: one.what, Costs: []string{}, Pieces: []Piece{},
		TakesMM: p.Warp.WoundMM, OverMM: p.Midway.LeftMM,
		Least: p.Set.LeastDifference, Pair: p.Set.PairNumber, text: made.text}
	for i := f.r.woven; i < len(p.Pieces); i++ {
		piece := &p.Pieces[i]
		planned := f.base.plan.Pieces[i].WovenMM
		w.Pieces = append(w.Pieces,
			Piece{Number: i + 1, Name: piece.Name, PlannedMM: planned, WovenMM: piece.WovenMM,
				FinishedMM: piece.FinishedMM})
	}
	if math.Abs(w.Least-f.r.p.Set.LeastDifference) >= 0.05 && len(p.Pieces) > 1 {
		w.Costs = append(w.Costs,
			fmt.Sprintf("least difference %.1f, was %.1f", w.Least, f.r.p.Set.LeastDifference))
	}
	for _, cost := range one.costs {
		if strings.HasPrefix(cost, "weakest contrast") {
			w.Costs = append(w.Costs, cost)
		}
	}
	return w, true
}

// set tells whether the pieces of a plan are still a set: none that is yet to come passes
// for another, or differs less than the brief asks, unless that was so before.
func (f *finder) set(p *plan.Plan) bool {
	least := float64(plan.AlikeE)
	if v := f.r.b.Vary; v != nil && v.AtLeast != nil {
		asked, _ := v.AtLeast.Float64()
		least = max(least, asked)
	}
	for _, pair := range p.Set.Pairs {
		if !p.IsWoven(pair.NumberB-1) && pair.Difference < least &&
			pair.Difference < f.difference(pair) {
			return false
		}
	}
	return true
}

// difference is by how much the same two pieces differ as they were planned; of a piece
// that was not, more than any.
func (f *finder) difference(of plan.Pair) float64 {
	for _, pair := range f.r.p.Set.Pairs {
		if pair.NumberA == of.NumberA && pair.NumberB == of.NumberB {
			return pair.Difference
		}
	}
	if of.NumberB > len(f.r.p.Pieces) {
		return math.Inf(1)
	}
	return 0
}
