package midway

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// moreWeight is to weave one piece more than was planned; mostVariants is how many are
// looked at for it: judgements.
const moreWeight, mostVariants = 0.5, 24

// variant is a further piece, made of one that the set has.
type variant struct {
	name, how string
	changes   []brief.Change
}

// said is what it is, in words.
func (v *variant) said() string { return fmt.Sprintf("one more, %q, %s", v.name, v.how) }

// more is all pieces to come as planned, and one piece more at full length or as long as
// the warp lasts.
func (f *finder) more() (found, bool) {
	n := len(f.base.plan.Pieces) - f.r.woven
	g, ok := f.withMore(f.base.brief, f.base.text, nil)
	if !ok {
		return found{}, false
	}
	s := g.first(n + 1)
	if !reaches(g.base.plan) {
		if s, ok = g.last(n, reaches); !ok {
			return found{}, false
		}
	}
	s.weight += moreWeight
	return found{shape: s, rest: g.make(s), from: g}, true
}

// withMore is a finder for the set with one piece more, whose brief is a text with some
// changes: that piece of all that could be made of its pieces which differs most from
// them, those first for which the yarn reaches.
func (f *finder) withMore(b *brief.Brief, text []byte, changes []brief.Change) (*finder, bool) {
	var best *finder
	most := -1.0
	for _, v := range variants(b) {
		all := slices.Concat(changes, v.changes)
		g := &finder{ctx: f.ctx, source: f.source, r: f.r, extra: &v}
		edited, err := brief.Edit(f.source.Name, text, all)
		if err != nil {
			continue
		}
		if g.base, err = f.planned(edited); err != nil || !f.set(g.base.plan) {
			continue
		}
		differs := differsFrom(g.base.plan, len(b.Pieces)+1)
		if yarnReaches(g.base.plan) {
			differs += 1000 // more than any two colours
		}
		if differs > most {
			best, most = g, differs
		}
	}
	if best == nil {
		return nil, false
	}
	best.left = f.left
	return best, true
}

// differsFrom is how far a piece, by its number, is from the one most like it.
func differsFrom(p *plan.Plan, number int) float64 {
	least := math.Inf(1)
	for _, pair := range p.Set.Pairs {
		if pair.NumberB == number {
			least = min(least, pair.Difference)
		}
	}
	return least
}

// variants are what a further piece may be: each piece of a brief in which all are written
// out with its blocks exchanged, its pattern colours in turn, or both.
func variants(b *brief.Brief) (all []variant) {
	for _, piece := range b.Pieces {
		blocks := exchangedBlocks(piece.Weft.Runs, len(b.Structure.Blocks))
		all = append(all, further(b, piece, blocks, "its blocks exchanged"))
		colours, ok := turnedColours(piece.Weft.Runs)
		if ok {
			all = append(all, further(b, piece, colours, "its colours exchanged"))
			both := exchangedBlocks(colours, len(b.Structure.Blocks))
			all = append(all, further(b, piece, both, "its blocks and colours exchanged"))
		}
	}
	return all[:min(len(all), mostVariants)]
}

// exchangedBlocks are runs with the next block in the place of each.
func exchangedBlocks(runs []brief.Run, blocks int) []brief.Run {
	all := slices.Clone(runs)
	for i := range all {
		if all[i].Block >= 0 {
			all[i].Block = (all[i].Block + 1) % blocks
		}
	}
	return all
}

// turnedColours are runs with the next of their pattern colours in the place of each; not
// where they have one only.
func turnedColours(runs []brief.Run) ([]brief.Run, bool) {
	var colours []int
	for _, r := range runs {
		if r.Block >= 0 && !slices.Contains(colours, r.Colour) {
			colours = append(colours, r.Colour)
		}
	}
	all := slices.Clone(runs)
	for i, r := range all {
		if r.Block >= 0 {
			at := slices.Index(colours, r.Colour)
			all[i].Colour = colours[(at+1)%len(colours)]
		}
	}
	return all, len(colours) > 1
}

// further writes down a further piece that is another with other runs.
func further(b *brief.Brief, like brief.Piece, runs []brief.Run, how string) variant {
	n := len(b.Pieces)
	table := fmt.Sprintf("piece[%d].", n)
	name := "after " + like.Name
	w := like.Weft
	v := variant{name: name, how: fmt.Sprintf("like %q with %s", like.Name, how),
		changes: []brief.Change{brief.Text(table+"name", name),
			brief.Text(table+"ground", b.Colours[w.Ground].Name)}}
	if w.Hem >= 0 {
		v.changes = append(v.changes, brief.Text(table+"hem", b.Colours[w.Hem].Name))
	}
	if w.Order != nil {
		v.changes = append(v.changes, brief.Text(table+"pick_order", weave.OrderText(w.Order)))
	}
	v.changes = append(v.changes,
		brief.Change{Key: table + "runs", Value: brief.RunList(b.RunTexts(runs))},
		brief.Change{Key: "set.pieces", Value: fmt.Sprint(n + 1)})
	return v
}

// beginAgain is a finder for one piece more where all of the set are woven.
func (f *finder) beginAgain() (*finder, bool) {
	var out, on []brief.Change
	for _, c := range f.r.changes() {
		if strings.HasPrefix(c.Key, "midway.") {
			on = append(on, c)
		} else {
			out = append(out, c)
		}
	}
	out = append(out, brief.Change{Key: "midway"})
	text, err := brief.Edit(f.source.Name, f.source.Text, out)
	if err != nil {
		return nil, false
	}
	b, err := f.source.Read(text)
	if err != nil {
		return nil, false
	}
	f.left = leastPlans
	return f.withMore(b, text, on)
}

// oneMore answers where all pieces of the set are woven.
func (f *finder) oneMore(a *Answer) {
	all := "all " + measure.Count(f.r.woven, "piece") + " of the set are woven"
	g, ok := f.beginAgain()
	if !ok {
		a.Nearest = all + "; for one more raise pieces in [set] and give it a [[piece]] table"
		return
	}
	f.r.takes(a, g.base.plan)
	a.Warp.TakesMM = 0 // nothing more was planned
	a.Fit = g.gives()
	if a.Ways = g.ways(); len(a.Ways) == 0 {
		a.Nearest = all + "; " + g.nearest()
	}
}
