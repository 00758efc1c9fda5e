package workbench

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// Asking says which others are wanted: of a piece, of the warp, or of the whole set
// ([Weft]); like the present one, or unlike it.
type Asking struct {
	Strip  int
	Unlike bool
	Count  int

	plan.Steering // what those of a piece or the warp are to be
	// the only ones that a set may have in its patterns; none for those of the brief
	Colours []string
}

// steered tells whether anything is said of what they are to be.
func (a Asking) steered() bool {
	s := a.Steering
	return len(s.Kinds)+s.Fewest+s.Most+s.Bold+s.Calm > 0 || s.LetColoursGo
}

// mostOthers is how many can be asked for.
const mostOthers = 12

// Others are other versions of the brief in which a piece, the warp or the whole set is
// another, the nearest first or, unlike it, the farthest. Those like it are what a
// weaver would try by hand, and the nearest of many trials; whole sets are chosen anew.
// The context may stop it.
func (b *Bench) Others(ctx context.Context, a Asking) ([]*Offer, error) {
	a.Count = min(max(1, a.Count), mostOthers)
	if a.Strip < Weft || a.Strip >= len(b.brief.Pieces) {
		return nil, refuse("", "there is no piece %d", a.Strip+1)
	}
	var all []*Offer
	var err error
	switch {
	case a.Strip == Weft && (a.Unlike || len(a.Colours) > 0):
		all, err = b.chosenSets(ctx, a.Count, a.Colours)
	case a.Strip == Weft:
		all, err = b.varied(ctx, setVariations(b))
	case a.Unlike, a.steered():
		all, err = b.trials(ctx, a)
	default:
		if all, err = b.varied(ctx, stripVariations(a.Strip)); err == nil {
			var more []*Offer
			more, err = b.trials(ctx, a)
			all = append(all, more...)
		}
	}
	if err != nil {
		return nil, err
	}
	all = b.unlikeEachOther(all, a)
	all = all[:min(len(all), a.Count)]
	for i, o := range all {
		if o.What == anotherSet { // as many as are seen, in the order they are seen in
			o.What = fmt.Sprintf("%s, number %d", anotherSet, i+1)
		}
	}
	return all, nil
}

// variation is a change that a weaver would try by hand.
type variation struct {
	what string
	do   func(*draft) error
}

// varied tries variations; those that can't be done are left out.
func (b *Bench) varied(ctx context.Context, all []variation) (offers []*Offer, err error) {
	for _, one := range all {
		d := &draft{bench: b, doc: b.doc, at: -1}
		if d.stayAll(-1) != nil || one.do(d) != nil {
			continue
		}
		v, err := b.try(ctx, d.doc.Bytes())
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		if err == nil {
			offers = append(offers, &Offer{What: one.what, version: v})
		}
	}
	return offers, nil
}

// changes are what may be done to the runs of a strip.
var changes = []struct {
	what string
	do   func([]run) []run
}{
	{"turned end for end", func(all []run) []run { slices.Reverse(all); return all }},
	{"blocks exchanged", exchanged},
	{"the next colours", nextColours},
	{"mirrored on its middle", mirrored},
	{"twice, half as wide", halved},
	{"one from each end changed places", func(all []run) []run {
		all[0], all[len(all)-1] = all[len(all)-1], all[0]
		return all
	}},
}

func stripVariations(strip int) (all []variation) {
	for _, c := range changes {
		all = append(all, variation{c.what, func(d *draft) error {
			return d.changeAll(strip, c.do)
		}})
	}
	return all
}

// setVariations change every piece that is not kept, or the warp under all where it is not.
func setVariations(b *Bench) (all []variation) {
	free, who := b.freePieces(), "every piece"
	if len(free) < len(b.brief.Pieces) {
		who = "every piece that is not kept"
	}
	for _, c := range changes {
		if len(free) == 0 {
			break
		}
		all = append(all, variation{who + ": " + c.what, func(d *draft) error {
			for _, i := range free {
				if err := d.changeAll(i, c.do); err != nil {
					return err
				}
			}
			return nil
		}})
	}
	for _, c := range changes[:3] {
		if b.brief.Warp.Runs != nil {
			break
		}
		all = append(all, variation{"the warp: " + c.what, func(d *draft) error {
			return d.changeAll(Warp, c.do)
		}})
	}
	return all
}

// freePieces are those that are not kept, by their places.
func (b *Bench) freePieces() (free []int) {
	for i := range b.brief.Pieces {
		if !b.keeps(i) {
			free = append(free, i)
		}
	}
	return free
}

// changeAll changes the runs of a strip; neighbours that are alike then are joined.
func (d *draft) changeAll(strip int, change func([]run) []run) error {
	return d.reshape(strip, func(runs []run) ([]run, error) { return joined(change(runs)), nil })
}

// exchanged takes the next block for each, in the order of their letters.
func exchanged(all []run) []run {
	letters := kinds(all, func(r *run) *string { return &r.block })
	slices.Sort(letters)
	return advanced(all, letters, func(r *run) *string { return &r.block })
}

// nextColours takes the next of a strip's colours for each.
func nextColours(all []run) []run {
	colour := func(r *run) *string { return &r.colour }
	return advanced(all, kinds(all, colour), colour)
}

// kinds are the different blocks or colours of runs that have a block, as they come.
func kinds(all []run, of func(*run) *string) (names []string) {
	for i := range all {
		if name := *of(&all[i]); all[i].block != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// advanced puts the next name in the place of each of them, and the first in that of the
// last.
func advanced(all []run, names []string, of func(*run) *string) []run {
	for i := range all {
		if at := slices.Index(names, *of(&all[i])); at >= 0 {
			*of(&all[i]) = names[(at+1)%len(names)]
		}
	}
	return all
}

// halved is a strip twice, at half the width; what does not come out even is wider the
// second time.
func halved(all []run) []run {
	var first, second []run
	for _, r := range all {
		half := r
		half.units = r.units / 2
		r.units -= half.units
		if half.units > 0 {
			first = append(first, half)
		}
		second = append(second, r)
	}
	return append(first, second...)
}

// triedTrials is how many trials are looked at for the nearest, and triedOf how many
// candidates they are taken from: few enough that one waits for them.
const triedTrials, triedOf = 18, 400

func (b *Bench) trials(ctx context.Context, a Asking) ([]*Offer, error) {
	fresh, err := brief.Parse(b.name, b.Text(), b.options)
	if err != nil {
		return nil, err
	}
	if fresh.Vary != nil {
		fresh.Vary.Candidates = min(fresh.Vary.Candidates, triedOf)
	}
	sheet, err := plan.Try(ctx, fresh, plan.Trying{
		Count: triedTrials, Warp: a.Strip == Warp, Piece: max(0, a.Strip), Steering: a.Steering})
	if err != nil {
		return nil, err
	}
	var all []*Offer
	for _, cell := range sheet.Cells {
		keys, err := sheet.Keep(fresh, cell.Number, false)
		if err != nil {
			return nil, err
		}
		more, err := b.varied(ctx,
			[]variation{{seedless(cell.Rhythm), func(d *draft) error {
				return d.setAll(a.Strip, keys)
			}}})
		if err != nil {
			return nil, err
		}
		all = append(all, more...)
	}
	return all, nil
}

// setAll sets keys of a strip's table.
func (d *draft) setAll(strip int, keys []plan.Setting) error {
	table, err := d.table(strip)
	if err != nil {
		return err
	}
	for _, k := range keys {
		if k.Value == "" && !d.has(table+"."+k.Key) {
			continue
		}
		if err := d.set(table+"."+k.Key, k.Value); err != nil {
			return err
		}
	}
	return nil
}

// anotherSet is what a set that is chosen anew is called.
const anotherSet = "another set"

// chosenSets are sets chosen anew, each by another seed, what she kept left as it is.
// The pieces are written out: what seed they were chosen by does not count any more.
func (b *Bench) chosenSets(ctx context.Context, count int,
	colours []string) (all []*Offer, err error) {
	for n := 1; n <= count; n++ {
		d := &draft{bench: b, doc: b.doc, at: -1}
		if _, err := d.piecesOpen(Op{}); err != nil {
			return nil, problems(err)
		}
		text := d.doc.Bytes()
		changes := []brief.Change{
			{Key: "seed", Value: strconv.FormatInt(b.brief.Seed+int64(n), 10)},
			{Key: "vary.candidates", Value: strconv.Itoa(min(max(b.Chooses(), 100), triedOf))},
		}
		quick, err := brief.Edit(b.name, text, append(changes, onlyThese(colours)...))
		if err != nil {
			return nil, problems(err)
		}
		v, err := b.try(ctx, quick)
		if err != nil {
			return nil, err
		}
		v, err = b.writtenOut(ctx, text, v)
		if err != nil {
			return nil, err
		}
		all = append(all, &Offer{What: anotherSet, version: v})
	}
	return all, nil
}

// onlyThese has pieces be chosen in a few colours, however many each would have of more.
func onlyThese(colours []string) []brief.Change {
	if len(colours) == 0 {
		return nil
	}
	var names []string
	for _, c := range colours {
		names = append(names, tomltext.Quote(c))
	}
	return []brief.Change{{Key: "vary.colours", Value: "[" + strings.Join(names, ", ") + "]"},
		{Key: "vary.per_piece", Value: fmt.Sprintf("[1, %d]", len(colours))}}
}

// writtenOut is a text in which the pieces that it leaves open are those of another
// version.
func (b *Bench) writtenOut(ctx context.Context, text []byte, chosen version) (version, error) {
	other := *b
	other.version = chosen
	doc, err := tomltext.Parse(b.name, text)
	if err != nil {
		return chosen, problems(err)
	}
	d := &draft{bench: &other, doc: doc, at: -1}
	if err := d.stayAll(-1); err != nil {
		return chosen, problems(err)
	}
	return b.try(ctx, d.doc.Bytes())
}

// unlikeEachOther puts offers in order, by how far they are from the present version,
// and leaves out those that can't be told from it or from another.
func (b *Bench) unlikeEachOther(all []*Offer, a Asking) (left []*Offer) {
	far := make(map[*Offer]float64, len(all))
	for _, o := range all {
		far[o] = apart(o.version, b.version, a.Strip)
	}
	order := func(x, y *Offer) int { return cmp.Compare(far[x], far[y]) }
	if a.Unlike {
		order = func(x, y *Offer) int { return cmp.Compare(far[y], far[x]) }
	}
	slices.SortStableFunc(all, order)
	for _, o := range all {
		alike := func(other *Offer) bool {
			return apart(o.version, other.version, a.Strip) < justSeen
		}
		if far[o] >= justSeen && !slices.ContainsFunc(left, alike) {
			left = append(left, o)
		}
	}
	return left
}

// justSeen is the mean dE00 from which two versions count as two.
const justSeen = 0.8

// apart is the mean dE00 of two versions, their pieces laid one on the other: of one
// piece, or of all.
func apart(a, b version, strip int) float64 {
	pieces := min(len(a.plan.Pieces), len(b.plan.Pieces))
	from, to := 0, pieces
	if strip >= 0 {
		from, to = strip, strip+1
	}
	var sum float64
	for i := from; i < to; i++ {
		x, y := a.samples(i), b.samples(i)
		for k := range x {
			sum += palette.DeltaE00(x[k], y[k])
		}
	}
	return sum / float64((to-from)*sampledAcross*sampledUp)
}

// A piece is looked at in so many places.
const sampledAcross, sampledUp = 9, 41

// samples are the colours of a piece's face without its hems.
func (v version) samples(piece int) []palette.Lab {
	p := v.plan.Pieces[piece]
	weave := v.brief.WeaveOf(piece, v.brief.Weaves())
	s := v.plan.InOrder(p.PickOrder)
	var all []palette.Lab
	for y := range sampledUp {
		weft := p.Runs[runAt(len(p.Runs), func(i int) int { return p.Runs[i].Units }, y, sampledUp)]
		for x := range sampledAcross {
			warp := v.plan.Warp.Runs[runAt(len(v.plan.Warp.Runs), func(i int) int {
				return v.plan.Warp.Runs[i].Ends
			}, x, sampledAcross)]
			trio := look.Trio{Warp: v.index(warp.Colour), Ground: v.index(weft.Ground),
				Pattern: look.Plain, Weave: weave}
			if weft.Block != "" {
				trio.Pattern = v.index(weft.Pattern)
			}
			all = append(all, v.cloth.Shade(trio, look.Phi(s, weft.Block, warp.Block, false)).Lab)
		}
	}
	return all
}

// runAt is the run in the middle of part k of n of a strip.
func runAt(runs int, size func(int) int, k, n int) int {
	total := 0
	for i := range runs {
		total += size(i)
	}
	at := (2*k + 1) * total
	for i := range runs {
		if at -= 2 * n * size(i); at < 0 {
			return i
		}
	}
	return runs - 1
}
