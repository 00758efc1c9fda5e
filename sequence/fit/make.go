package fit

import (
	"errors"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/plan"
)

// Question is a warp, and of how many pieces.
type Question struct {
	WarpMM *big.Rat // wound
	Pieces int      // 0: as many of the brief's size as there is room for
}

// Most is the most pieces that can be asked for.
const Most = brief.MaxPieces

// Make answers a question by the plan of a brief, in whole units. It fails where waste,
// sample and fringes use up the whole warp.
func Make(b *brief.Brief, p *plan.Plan, q Question) (*Answer, error) {
	w := newWarp(b, p, q.WarpMM)
	if w.forPieces(1).Sign() <= 0 {
		return nil, errors.New("waste, sample and fringes use up the whole warp")
	}
	own, n := w.howMany()
	a := &Answer{
		Schema:          Schema,
		OwnLengths:      len(w.own),
		WarpMM:          exact.Rounded(w.wound),
		AskedWovenMM:    exact.Rounded(w.asked),
		AskedFinishedMM: exact.Rounded(w.finished(w.asked)),
		Fits:            own + n,
		Capped:          own+n == Most && own == len(w.own) && w.holds(own, n+1),
	}
	if q.Pieces == 0 {
		a.Pieces = a.Fits
		w.ofSize(a, own, n)
	} else {
		a.Pieces = q.Pieces
		w.longest(a, q.Pieces)
	}
	a.TradeOff = w.tradeOff(w.ofAsked(0), q.Pieces)
	return a, nil
}

// warp is a wound length and what goes off it. All lengths are exact.
type warp struct {
	wound, waste, fringe, sample *big.Rat
	left                         *big.Rat // what take-up leaves of one
	separator                    *big.Rat // woven, between two pieces
	asked                        *big.Rat // woven length of a piece of the brief's size
	// woven: all plain at both ends of a piece, what is turned under of it, one weft unit
	ends, hems, unit *big.Rat
	shrunk           *big.Rat // what shrinkage leaves of one
	// separators before the first piece: 1 after pieces that are woven already
	lead int
	// woven lengths of pieces whose runs give them another size
	own []*big.Rat
}

func newWarp(b *brief.Brief, p *plan.Plan, wound *big.Rat) *warp {
	pick := new(big.Rat).Inv(b.Cloth.HemGround.PerMM)
	w := &warp{
		wound:     wound,
		waste:     exact.Plus(b.Loom.Waste.MM, b.Loom.RetieMM()),
		fringe:    exact.Times(exact.Whole(2), b.Set.Fringe.MM),
		sample:    b.Loom.Sample.MM,
		left:      exact.Remains(b.Cloth.TakeUp.Part),
		shrunk:    exact.Remains(b.Cloth.ShrinkLength.Part),
		separator: exact.Times(exact.Whole(b.Set.Separator), pick),
		lead:      min(1, b.WovenPieces()),
		ends:      exact.Times(exact.Whole(2*p.Pieces[0].EndPicks()), pick),
		hems:      exact.Times(exact.Whole(2*p.Pieces[0].HemPicks), pick),
		unit:      exact.Over(exact.Whole(b.Structure.GroundPicks()), b.Cloth.Ground.PerMM),
	}
	units, given := plan.BodyUnits(b)
	w.asked = w.woven(units)
	var pieces []*big.Rat
	for i, piece := range p.Pieces {
		if p.IsWoven(i) {
			continue
		}
		mm := exact.Plus(plan.BodyMM(b, i, piece.BodyUnits), w.ends)
		pieces = append(pieces, mm)
		if !given && mm.Cmp(w.asked) > 0 {
			w.asked = mm
		}
	}
	for _, mm := range pieces {
		if mm.Cmp(w.asked) != 0 {
			w.own = append(w.own, mm)
		}
	}
	return w
}

// woven is the woven length, in mm, of a body of so many weft units, with its hems and
// what stays in sight beside them.
func (w *warp) woven(units int) *big.Rat {
	return exact.Plus(exact.Times(exact.Whole(units), w.unit), w.ends)
}

// forPieces is the woven length in mm that there is for n pieces, separators apart.
func (w *warp) forPieces(n int) *big.Rat {
	wound := exact.Minus(exact.Minus(w.wound, w.waste), exact.Times(exact.Whole(n), w.fringe))
	return exact.Minus(exact.Minus(exact.Times(wound, w.left), w.sample),
		exact.Times(exact.Whole(n-1+w.lead), w.separator))
}

// enough is by how much a warp may fall short and still be taken for long enough:
// the plan's lengths are told to a ten-thousandth of a millimetre.
var enough = big.NewRat(1, 10_000)

// takesOwn is the wound length of the first few pieces of a size of their own and
// n of the size asked for.
func (w *warp) takesOwn(own, n int) *big.Rat {
	cloth := exact.Plus(exact.Times(exact.Whole(n), w.asked), w.sample)
	for _, mm := range w.own[:own] {
		cloth = exact.Plus(cloth, mm)
	}
	if pieces := own + n; pieces > 0 {
		cloth = exact.Plus(cloth, exact.Times(exact.Whole(pieces-1+w.lead), w.separator))
	}
	return exact.Plus(exact.Plus(exact.Over(cloth, w.left),
		exact.Times(exact.Whole(own+n), w.fringe)), w.waste)
}

// holds tells whether the warp is long enough for what [warp.takesOwn] takes.
func (w *warp) holds(own, n int) bool {
	return w.takesOwn(own, n).Cmp(exact.Plus(w.wound, enough)) <= 0
}

// howMany is how many pieces fit: first those of a size of their own, in weaving
// order, then as many as there is room for of the size asked for.
func (w *warp) howMany() (own, n int) {
	for own < len(w.own) && w.holds(own+1, 0) {
		own++
	}
	if own < len(w.own) {
		return own, 0
	}
	return own, w.ofAsked(own)
}

// ofAsked is how many pieces of the size asked for fit after some of their own.
func (w *warp) ofAsked(own int) int {
	each := exact.Plus(exact.Plus(w.asked, w.separator), exact.Times(w.fringe, w.left))
	bare := w.takesOwn(own, 0)
	if own+w.lead == 0 { // the first piece needs no separator before it
		bare = exact.Minus(bare, exact.Over(w.separator, w.left))
	}
	room := exact.Times(exact.Minus(exact.Plus(w.wound, enough), bare), w.left)
	return max(0, min(exact.Floor(exact.Over(room, each)), Most-own))
}

// ofSize fills in the answer for the pieces that fit.
func (w *warp) ofSize(a *Answer, own, n int) {
	a.PieceWovenMM, a.PieceFinishedMM = a.AskedWovenMM, a.AskedFinishedMM
	if len(w.own) > 0 {
		a.Own = w.ownAnswer(own)
	}
	if own+n == 0 {
		a.LeftMM = a.WarpMM
		return
	}
	taken := w.takesOwn(own, n)
	left := atLeast0(exact.Minus(w.wound, taken))
	a.WoundMM, a.LeftMM = exact.Rounded(taken), exact.Rounded(left)
	if own == len(w.own) {
		a.Short = w.short(left)
	}
	if own > 0 {
		return
	}
	a.Units, a.UnitsWovenMM = w.units(w.longestEach(n))
}

// ownAnswer tells of the pieces of a size of their own that fit, and what they
// leave.
func (w *warp) ownAnswer(own int) *Own {
	sum := new(big.Rat)
	for _, mm := range w.own[:own] {
		sum = exact.Plus(sum, mm)
	}
	o := &Own{Pieces: own, Written: len(w.own), WovenMM: exact.Rounded(sum),
		LeftMM: exact.Rounded(w.wound)}
	if own > 0 {
		o.LeftMM = exact.Rounded(atLeast0(exact.Minus(w.wound, w.takesOwn(own, 0))))
	}
	if own < len(w.own) {
		o.NextMM = exact.Rounded(w.own[own])
	}
	return o
}

func atLeast0(r *big.Rat) *big.Rat {
	if r.Sign() < 0 {
		return new(big.Rat)
	}
	return r
}

// longest fills in the answer for n pieces that share the warp.
func (w *warp) longest(a *Answer, n int) {
	each := w.longestEach(n)
	if exact.Minus(each, w.ends).Sign() <= 0 {
		a.LeftMM = a.WarpMM
		return
	}
	a.PieceWovenMM, a.PieceFinishedMM = exact.Rounded(each), exact.Rounded(w.finished(each))
	a.WoundMM = a.WarpMM
	a.Units, a.UnitsWovenMM = w.units(each)
}

// longestEach is the woven length in mm that each of n pieces may have.
func (w *warp) longestEach(n int) *big.Rat { return exact.Over(w.forPieces(n), exact.Whole(n)) }

func (w *warp) finished(woven *big.Rat) *big.Rat {
	return exact.Times(exact.Minus(woven, w.hems), w.shrunk)
}

// units is the most whole weft units in a piece of at most a woven length, and
// how long that is with its hems.
func (w *warp) units(woven *big.Rat) (int, float64) {
	n := max(exact.Floor(exact.Over(exact.Minus(exact.Plus(woven, enough), w.ends), w.unit)), 0)
	return n, exact.Rounded(w.woven(n))
}

// shortest is the least part of the finished length asked for that is offered
// as a short piece: a hand towel's worth beside a kitchen towel (a judgement).
var shortest = big.NewRat(1, 3)

// short is the piece that the rest of a warp gives, or nil.
func (w *warp) short(left *big.Rat) *Short {
	woven := exact.Minus(exact.Times(exact.Minus(left, w.fringe), w.left), w.separator)
	finished := w.finished(woven)
	if exact.Minus(woven, w.ends).Sign() <= 0 ||
		finished.Cmp(exact.Times(shortest, w.finished(w.asked))) < 0 {
		return nil
	}
	return &Short{WovenMM: exact.Rounded(woven), FinishedMM: exact.Rounded(finished)}
}
