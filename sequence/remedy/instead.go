package remedy

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/plan"
)

// Instead looks for other colours in place of all that are short at once, in as few
// pieces as save enough, each of the same yarn and with enough left: once those that look
// most like the ones they stand in for, once those of which most is left. The pieces must
// be written out. There are none where no colours reach.
func Instead(ctx context.Context, s Source, b *brief.Brief, p *plan.Plan) ([]Remedy, error) {
	f := &finder{ctx: ctx, source: s, b: b, p: p, before: troubles(p), settled: s.Text}
	f.budget()
	found := []Remedy{}
	for _, most := range []bool{false, true} {
		w, ok := f.instead(most)
		if !ok || slices.ContainsFunc(found, func(r Remedy) bool {
			return slices.Equal(r.Changes, w.changes)
		}) {
			continue
		}
		after := f.planned(w.changes)
		if after == nil || len(shortYarns(after)) > 0 || f.worseBesides(after) {
			continue
		}
		found = append(found, f.remedy(trouble{code: yarnShort}, w, after))
	}
	return found, ctx.Err()
}

// worseBesides tells whether a plan has more of any trouble but short yarn.
func (f *finder) worseBesides(after *plan.Plan) bool {
	for kind, n := range troubles(after) {
		if kind.code != yarnShort && !kind.onlyNoted() && n > f.before[kind] {
			return true
		}
	}
	return false
}

func shortYarns(p *plan.Plan) (all []plan.Yarn) {
	for _, y := range p.Yarn {
		if short(y) {
			all = append(all, y)
		}
	}
	return all
}

// exchange is a set of pieces whose colours are being exchanged, and what is left of each
// colour meanwhile.
type exchange struct {
	f      *finder
	most   bool // take those of which most is left, not those that look most alike
	pieces []plan.Piece
	left   []float64 // metres of each colour of the brief; below 0 where it is short
	done   map[int]bool
	words  []string
}

// instead exchanges every colour that is short.
func (f *finder) instead(most bool) (way, bool) {
	x := &exchange{f: f, most: most, left: make([]float64, len(f.b.Colours)), done: map[int]bool{}}
	for _, piece := range f.p.Pieces {
		piece.Runs = slices.Clone(piece.Runs)
		x.pieces = append(x.pieces, piece)
	}
	for c := range f.b.Colours {
		x.left[c] = f.spareM(c)
	}
	for _, y := range shortYarns(f.p) {
		if !x.colour(y) {
			return way{}, false
		}
	}
	changes := x.changes()
	return way{strings.Join(x.words, "; "), changes, 1 + float64(len(x.done))}, len(changes) > 0
}

// colour exchanges one colour in as few pieces as will do, those that take most of it
// first.
func (x *exchange) colour(y plan.Yarn) bool {
	from := x.f.b.ColourNamed(y.Colour)
	order := make([]int, len(x.pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(y.ByPiece[b], y.ByPiece[a])
	})
	for _, i := range order {
		if x.left[from] >= enough {
			return true
		}
		if y.ByPiece[i] > 0 && !x.piece(i, from) {
			return false
		}
	}
	return x.left[from] >= enough
}

// enough is what sums of rounded metres may come to where nothing is short; the plan of
// the exchange decides.
const enough = -0.001

// piece exchanges a colour in all that one piece has of it.
func (x *exchange) piece(i, from int) bool {
	f, p := x.f, &x.pieces[i]
	pick := f.p.Cloth.PickM
	thrown := p.Thrown(f.b.Colours[from].Name, f.b.Cloth.Strands)
	if !f.p.IsWoven(i) && (!x.role(i, from, "pattern", float64(float64(thrown.Pattern)*pick)) ||
		!x.role(i, from, "ground", float64(float64(thrown.Ground)*pick)) ||
		!x.role(i, from, "hem", float64(float64(thrown.Hem)*pick))) {
		return false
	}
	return x.role(i, from, "separator", float64(float64(thrown.Separator)*pick))
}

// role exchanges a colour in one of its uses in a piece, which takes some metres.
func (x *exchange) role(i, from int, role string, metres float64) bool {
	if metres == 0 {
		return true
	}
	to := x.other(i, from, role, metres)
	if to < 0 {
		return false
	}
	x.left[from], x.left[to] = x.left[from]+metres, x.left[to]-metres
	p, was, is := &x.pieces[i], x.f.b.Colours[from].Name, x.f.b.Colours[to].Name
	switch role {
	case "hem":
		p.Hem = is
	case "separator":
		p.Separator = is
	}
	for j := range p.Runs {
		r := &p.Runs[j]
		if role == "pattern" && r.Pattern == was {
			r.Pattern = is
		}
		if role == "ground" {
			r.Ground = is
		}
	}
	x.done[i] = true
	where := "in "
	if role == "separator" {
		where = "after "
	}
	x.say(fmt.Sprintf("%s %q instead of %q ", role, is, was), where, x.f.p.Called(i))
	return true
}

// say adds a piece to the words of the same exchange before it.
func (x *exchange) say(what, where, piece string) {
	for k, w := range x.words {
		if strings.HasPrefix(w, what) {
			x.words[k] = w + ", " + piece
			return
		}
	}
	x.words = append(x.words, what+where+piece)
}

// other is the colour to take in place of another; -1 where none has enough left. It is
// of the same yarn, and not one that it would lie beside in the piece.
func (x *exchange) other(i, from int, role string, metres float64) int {
	b := x.f.b
	var all []int
	for to, c := range b.Colours {
		if to != from && c.Yarn == b.Colours[from].Yarn && x.left[to] >= metres &&
			!x.beside(i, c.Name, role) {
			all = append(all, to)
		}
	}
	if len(all) == 0 {
		return -1
	}
	if x.most {
		return slices.MaxFunc(all, func(a, c int) int { return cmp.Compare(x.left[a], x.left[c]) })
	}
	return slices.MinFunc(all, func(a, c int) int {
		return cmp.Compare(x.f.apart(from, a), x.f.apart(from, c))
	})
}

// beside tells whether a colour lies in a piece already where another would lose its
// edges to it.
func (x *exchange) beside(i int, name, role string) bool {
	p := x.pieces[i]
	switch role {
	case "separator":
		next := min(i+1, len(x.pieces)-1)
		return p.Hem == name || x.pieces[next].Hem == name
	case "hem":
		return p.Separator == name && p.SeparatorPick > 0
	}
	return slices.ContainsFunc(p.Runs, func(r plan.WeftRun) bool {
		return r.Pattern == name || r.Ground == name
	})
}

// apart is how different two colours of the brief look by themselves, in millionths of
// dE00.
func (f *finder) apart(a, b int) int64 {
	lab := func(n int) palette.Lab { return f.b.Colours[n].RGB.Lab() }
	return int64(math.Round(float64(palette.DeltaE00(lab(a), lab(b)) * 1e6)))
}

// changes write the exchanged pieces.
func (x *exchange) changes() (all []brief.Change) {
	for i, p := range x.pieces {
		if !x.done[i] {
			continue
		}
		table := fmt.Sprintf("piece[%d].", i)
		if !x.f.p.IsWoven(i) {
			all = append(all, brief.Change{Key: table + "runs",
				Value: brief.RunList(plan.RunTexts(p))})
			if len(p.Runs) > 0 {
				all = append(all, brief.Change{Key: table + "ground",
					Value: tomltext.Quote(p.Runs[0].Ground)})
			}
			all = append(all, brief.Text(table+"hem", p.Hem))
		}
		if p.Separator != x.f.p.Pieces[i].Separator {
			all = append(all, brief.Text(table+"separator", p.Separator))
		}
	}
	return all
}
