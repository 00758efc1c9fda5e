package remedy

import (
	"fmt"
	"math/big"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/fit"
	"stripesong/sequence/measure"
)

// What is given up last (common practice, no source; the bounds are judgements).
const (
	leastOfSize = 0.6 // of the size asked for; smaller is another piece
	pieceWeight = 4   // to give up a piece
	lossWeight  = 25  // to give up all of a size: 4 % is as bad as 1
)

// words in which a brief's numbers are written, by its units.
type words struct {
	step  *big.Rat // of lengths, in mm
	unit  string
	waste string // the least that a warp lashed on can't be woven
	hem   string // a narrow hem
	none  string
	dents *big.Rat // step of a density, threads to a mm
	per   string
}

func (f *finder) words() words {
	if f.b.Units == "in" {
		return words{big.NewRat(635, 100), "in", "18 in", "1 in", "0 in",
			big.NewRat(10, 254), "/in"}
	}
	return words{big.NewRat(10, 1), "cm", "45 cm", "2.5 cm", "0 cm", big.NewRat(1, 20), "/cm"}
}

// length is a length as people write it: "64 cm", "27 1/4 in".
func (w words) length(mm *big.Rat) string { return measure.WriteLength(mm, w.unit) }

// extras are small things to go without, each by itself.
// There are none on a warp that is on the loom: the woven pieces have their hems.
func (f *finder) extras() (all []way) {
	if f.b.Midway != nil {
		return nil
	}
	w := f.words()
	if f.b.Loom.Sample.MM.Sign() > 0 {
		changes := []brief.Change{brief.Text("loom.sample", w.none)}
		all = append(all, way{"weave no sample", changes, 1.5})
	}
	if least := lengthOf(w.waste); f.b.Loom.Waste.MM.Cmp(least) > 0 {
		all = append(all, way{"waste " + w.waste + " instead of " + f.b.Loom.Waste.String() +
			", lashed on", []brief.Change{brief.Text("loom.waste", w.waste)}, 1})
	}
	if narrow := lengthOf(w.hem); f.b.Set.Hem.MM.Cmp(narrow) > 0 {
		all = append(all, way{"hems of " + w.hem + " instead of " + f.b.Set.Hem.String(),
			[]brief.Change{brief.Text("set.hem", w.hem)}, 1})
	}
	return all
}

func lengthOf(text string) *big.Rat {
	l, _ := measure.ParseLength(text) // one of ours
	return l.MM
}

// together are several ways as one.
func together(ways ...way) (all way) {
	for i, w := range ways {
		if i > 0 {
			all.what += "; "
		}
		all.what += w.what
		all.changes = append(all.changes, w.changes...)
		all.weight += w.weight
	}
	return all
}

// subsets are all combinations of ways, one at least, the least invasive first.
func subsets(ways []way) (all []way) {
	for pick := 1; pick < 1<<len(ways); pick++ {
		var some []way
		for i, w := range ways {
			if pick&(1<<i) != 0 {
				some = append(some, w)
			}
		}
		all = append(all, together(some...))
	}
	sortByWeight(all)
	return all
}

// boardWays shorten the warp: without small things, shorter pieces, fewer, and all
// of these together.
func (f *finder) boardWays(t trouble) (all []way) {
	extras := f.extras()
	for _, w := range subsets(extras) {
		if f.ends(t, w) {
			all = append(all, w)
			break
		}
	}
	if w, ok := f.shorter(t); ok {
		all = append(all, w)
	}
	all = append(all, f.fewer(t)...)
	if len(extras) == 0 {
		return all
	}
	every := together(extras...)
	if w, ok := f.shorter(t, every); ok {
		all = append(all, w)
	}
	if n := f.b.Set.Pieces; n > 1 {
		all = append(all, f.oneFewer(t, f.pieces(n-1), extras)...)
	}
	return all
}

// restWays make do with what is left of a warp that is on the loom: shorter pieces, or
// fewer.
func (f *finder) restWays(t trouble) (all []way) {
	if w, ok := f.shorter(t); ok {
		all = append(all, w)
	}
	return append(all, f.fewer(t)...)
}

// oneFewer gives up one piece, and as few small things as will do; where all of
// them won't, some length too.
func (f *finder) oneFewer(t trouble, piece way, extras []way) []way {
	for _, some := range subsets(extras) {
		if w := together(piece, some); f.ends(t, w) {
			return []way{w}
		}
	}
	if w, ok := f.shorter(t, piece, together(extras...)); ok {
		return []way{w}
	}
	return nil
}

// pieces is a set of fewer pieces; the tables of those that are given up, the last
// ones, go, where they have any.
func (f *finder) pieces(n int) way {
	was := f.b.Set.Pieces
	w := way{
		what: fmt.Sprintf("%s instead of %d, without %s", measure.Count(n, "piece"), was,
			f.givenUp(n)),
		weight: float64(pieceWeight * (was - n)),
	}
	for i := len(f.b.Pieces) - 1; i >= n; i-- {
		w.changes = append(w.changes, brief.Change{Key: fmt.Sprintf("piece[%d]", i)})
	}
	w.changes = append(w.changes, brief.Change{Key: "set.pieces", Value: fmt.Sprint(n)})
	return w
}

// givenUp names the pieces that a set of n has no more.
func (f *finder) givenUp(n int) string {
	var names []string
	for i := n; i < len(f.b.Pieces); i++ {
		if f.p == nil {
			names = append(names, fmt.Sprintf("%q", f.b.Pieces[i].Name))
			continue
		}
		names = append(names, f.p.Called(i))
	}
	if len(names) > 3 {
		return fmt.Sprintf("the last %d", len(names))
	}
	return strings.Join(names, ", ")
}

// fewer is the most pieces that end a trouble, at the size asked for.
func (f *finder) fewer(t trouble) []way {
	n := f.b.Set.Pieces - 1
	woven := f.b.WovenPieces()
	if there := f.warpThere(t); there != nil {
		if a, err := fit.Make(f.b, f.p, fit.Question{WarpMM: there}); err == nil {
			n = min(n, woven+a.Fits)
		}
	}
	for ; n > woven && f.tries > 0; n-- {
		if w := f.pieces(n); f.ends(t, w) {
			return []way{w}
		}
	}
	if least := woven + 1; least < f.b.Set.Pieces {
		f.ends(t, f.pieces(least)) // for what comes nearest
	}
	return nil
}

// warpThere is the warp that a trouble says is too short; nil where it says nothing of it.
func (f *finder) warpThere(t trouble) *big.Rat {
	switch {
	case t.code == "board-short" && f.b.Loom.Board != nil:
		return f.b.Loom.Board.MM
	case t.code == "warp-short" && f.b.Midway != nil:
		return f.b.Midway.Warp.MM
	}
	return nil
}

// shorter is the greatest length that ends a trouble together with other changes.
func (f *finder) shorter(t trouble, others ...way) (way, bool) {
	key, asked := "set.length", f.b.Set.Length
	if asked == nil {
		key, asked = "set.woven", f.b.Set.Woven
	}
	if asked == nil {
		return way{}, false
	}
	return f.smaller(t, key, asked, "pieces of %s instead of %s", others...)
}

// widthWays make the cloth narrower.
func (f *finder) widthWays(t trouble) []way {
	key, asked := "set.width", f.b.Set.Width
	if asked == nil {
		key, asked = "set.in_reed", f.b.Set.InReed
	}
	if asked == nil {
		return nil
	}
	if w, ok := f.smaller(t, key, asked, "pieces %s wide instead of %s"); ok {
		return []way{w}
	}
	return nil
}

// smaller is the greatest size of a key, in whole steps below what is asked, that
// ends a trouble together with other changes; not below a least.
func (f *finder) smaller(t trouble, key string, asked *measure.Length, what string,
	others ...way) (way, bool) {
	w, rest := f.words(), together(others...)
	first := exact.Over(asked.MM, w.step)
	top := new(big.Int).Quo(new(big.Int).Sub(first.Num(), big.NewInt(1)), first.Denom()).Int64()
	value := exact.Float(first)
	low := int64(leastOfSize*value) + 1
	at := func(n int64) way {
		mm := exact.Times(big.NewRat(n, 1), w.step)
		part := 1 - float64(n)/value
		one := way{fmt.Sprintf(what, w.length(mm), asked),
			[]brief.Change{brief.Text(key, w.length(mm))}, float64(lossWeight * part)}
		if len(others) == 0 {
			return one
		}
		return together(rest, one)
	}
	if top < low || !f.ends(t, at(low)) {
		return way{}, false
	}
	for low < top { // low ends it
		middle := (low + top + 1) / 2
		if f.ends(t, at(middle)) {
			low = middle
		} else {
			top = middle - 1
		}
	}
	return at(low), true
}
