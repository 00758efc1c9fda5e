package fit

import (
	"errors"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// Question is a warp, and of how many pieces.
type Question struct {
	WarpMM *big.Rat // wound
	Pieces int      // 0: as many of the brief's size as there is room for
}

// Most is the most pieces that can be asked for.
const Most = brief.MaxPieces

// Make answers a question.
func Make(b *brief.Brief, p *plan.Plan, q Question) (*Answer, error) {
	w := newWarp(b, p, q.WarpMM)
	if w.forPieces(1).Sign() <= 0 {
		return nil, errors.New("waste, sample and fringes use up the whole warp")
	}
	fits := w.howMany()
	a := &Answer{Schema: Schema, WarpMM: rounded(w.wound), AskedWovenMM: rounded(w.asked), AskedFinishedMM: rounded(w.finished(w.asked)), Fits: fits}
	if q.Pieces == 0 {
		a.Pieces = fits
		w.ofSize(a, fits)
	} else {
		a.Pieces = q.Pieces
		w.longest(a, q.Pieces)
	}
	a.TradeOff = w.tradeOff(fits, q.Pieces)
	return a, nil
}

// warp is a wound length and what goes off it. All lengths are exact.
type warp struct {
	wound, waste, fringe, sample *big.Rat
	left                         *big.Rat // what take-up leaves of one
	separator                    *big.Rat // woven, between two pieces
	asked                        *big.Rat // woven length of a piece of the brief's size
	hems, unit                   *big.Rat // woven, both hems of a piece; one weft unit
	shrunk                       *big.Rat // what shrinkage leaves of one
}

func newWarp(b *brief.Brief, p *plan.Plan, wound *big.Rat) *warp {
	pick := new(big.Rat).Inv(b.Cloth.HemGround.PerMM)
	w := &warp{wound: wound, waste: plus(b.Loom.Waste.MM, b.Loom.RetieMM()), fringe: times(whole(2), b.Set.Fringe.MM), sample: b.Loom.Sample.MM,
		left: remains(b.Cloth.TakeUp.Part), shrunk: remains(b.Cloth.ShrinkLength.Part), separator: times(whole(b.Set.Separator), pick),
		hems: times(whole(2*p.Pieces[0].HemPicks), pick), unit: over(whole(b.Structure.GroundPicks()), b.Cloth.Ground.PerMM)}
	switch {
	case b.Set.Woven != nil:
		w.asked = b.Set.Woven.MM
	case b.Set.Length != nil:
		w.asked = plus(over(b.Set.Length.MM, w.shrunk), w.hems)
	default:
		units := 0
		for _, piece := range p.Pieces {
			units = max(units, piece.BodyUnits)
		}
		w.asked = plus(times(whole(units), w.unit), w.hems)
	}
	return w
}

// forPieces is the woven length there is for n pieces, separators apart.
func (w *warp) forPieces(n int) *big.Rat {
	wound := minus(minus(w.wound, w.waste), times(whole(n), w.fringe))
	return minus(minus(times(wound, w.left), w.sample), times(whole(n-1), w.separator))
}

// takes is the wound length of n pieces of one woven length.
func (w *warp) takes(n int, woven *big.Rat) *big.Rat {
	cloth := plus(plus(times(whole(n), woven), times(whole(n-1), w.separator)), w.sample)
	return plus(plus(over(cloth, w.left), times(whole(n), w.fringe)), w.waste)
}

// howMany is how many pieces of the size asked for fit: n of them take
// n (asked + separator + fringe woven) - separator of what there is for one
// and its fringe.
func (w *warp) howMany() int {
	each := plus(plus(w.asked, w.separator), times(w.fringe, w.left))
	room := plus(plus(w.forPieces(1), w.separator), times(w.fringe, w.left))
	return min(measure.Floor(over(room, each)), Most)
}

// ofSize fills in the answer for n pieces of the size asked for.
func (w *warp) ofSize(a *Answer, n int) {
	a.PieceWovenMM, a.PieceFinishedMM = a.AskedWovenMM, a.AskedFinishedMM
	if n == 0 {
		a.LeftMM = a.WarpMM
		return
	}
	taken := w.takes(n, w.asked)
	left := minus(w.wound, taken)
	a.WoundMM, a.LeftMM = rounded(taken), rounded(left)
	a.Short = w.short(left)
	a.Units, a.UnitsWovenMM = w.units(w.longestEach(n))
}

// longest fills in the answer for n pieces that share the warp.
func (w *warp) longest(a *Answer, n int) {
	each := w.longestEach(n)
	if minus(each, w.hems).Sign() <= 0 {
		a.LeftMM = a.WarpMM
		return
	}
	a.PieceWovenMM, a.PieceFinishedMM = rounded(each), rounded(w.finished(each))
	a.WoundMM = a.WarpMM
	a.Units, a.UnitsWovenMM = w.units(each)
}

func (w *warp) longestEach(n int) *big.Rat { return over(w.forPieces(n), whole(n)) }

func (w *warp) finished(woven *big.Rat) *big.Rat { return times(minus(woven, w.hems), w.shrunk) }

// units is the most whole weft units in a piece of at most a woven length, and
// how long that is with its hems.
func (w *warp) units(woven *big.Rat) (int, float64) {
	n := max(measure.Floor(over(minus(woven, w.hems), w.unit)), 0)
	return n, rounded(plus(times(whole(n), w.unit), w.hems))
}

// shortest is the least part of the finished length asked for that is offered
// as a short piece: a hand towel's worth beside a kitchen towel (a judgement).
var shortest = big.NewRat(1, 3)

// short is the piece that the rest of a warp gives, or nil.
func (w *warp) short(left *big.Rat) *Short {
	woven := minus(times(minus(left, w.fringe), w.left), w.separator)
	finished := w.finished(woven)
	if finished.Sign() <= 0 || finished.Cmp(times(shortest, w.finished(w.asked))) < 0 {
		return nil
	}
	return &Short{WovenMM: rounded(woven), FinishedMM: rounded(finished)}
}
