package midway

import (
	"fmt"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// reckoner works out where a weaver is: what is woven, and what is left.
type reckoner struct {
	b  *brief.Brief
	p  *plan.Plan
	at *brief.Progress

	already, woven int // pieces that were woven when the brief was written, and are now
	pieces         []piece
	ratio          *big.Rat // of measured lengths to planned ones; nil where nothing was measured
	agrees         bool     // the ratio is 1 within what the ruler may be off

	left, reckoned, waste *big.Rat // of the warp
	up, extra             *calibrate.Share
	held                  []stock // by colour of the brief
}

// piece is a woven piece: as it was planned, and as it is.
type piece struct {
	planned, is *big.Rat
	off         *big.Rat // how far it may be off; nil where it was not measured
	text        string   // as it was written; "" where it is reckoned
}

// exactly is a number of the plan, which has four decimals.
func exactly(mm float64) *big.Rat {
	r, _ := new(big.Rat).SetString(fmt.Sprintf("%.4f", mm))
	return r
}

func (r *reckoner) number() error {
	r.already, r.woven = r.b.WovenPieces(), r.at.Woven
	switch n := len(r.p.Pieces); {
	case r.woven > n:
		return r.at.Wrong("woven", fmt.Sprintf("%s woven, and the set has %d", are(r.woven), n),
			"is it the right brief?")
	case r.woven < r.already:
		return r.at.Wrong("woven",
			fmt.Sprintf("%s woven, but %s by the brief", are(r.woven), are(r.already)),
			"count the pieces that were woven by an earlier brief too")
	}
	return nil
}

// lengths are those of the woven pieces: as measured, else as planned.
func (r *reckoner) lengths() error {
	given := r.at.Lengths
	first := r.woven - len(given)
	if n := len(given); n > 0 && n != r.woven && n != r.woven-r.already {
		return r.at.Wrong("lengths",
			fmt.Sprintf("has %s, and %s woven", measure.Count(n, "length"), are(r.woven-r.already)),
			"write one for each piece that is woven, the first piece first")
	}
	for i := range r.woven {
		one := piece{planned: exactly(r.p.Pieces[i].WovenMM)}
		switch {
		case i >= first && len(given) > 0:
			l := given[i-first]
			one.is, one.off, one.text = l.MM, l.OffMM, l.Text
		case i < r.already:
			one.is, one.text = r.b.Midway.Woven[i].MM, r.b.Midway.Woven[i].Text
		default:
			one.is = one.planned
		}
		r.pieces = append(r.pieces, one)
	}
	return r.beyond()
}

// beyond takes over how far the last piece runs past its tape.
func (r *reckoner) beyond() error {
	by := r.at.Beyond
	if by == nil {
		return nil
	}
	key := "longer"
	if by.MM.Sign() < 0 {
		key = "shorter"
	}
	if r.woven == r.already {
		return r.at.Wrong(key, "no piece of this brief is woven yet",
			"leave it out, or count the piece that lies on the loom")
	}
	last := &r.pieces[r.woven-1]
	is := exact.Plus(last.planned, by.MM)
	switch {
	case is.Sign() <= 0:
		return r.at.Wrong(key, fmt.Sprintf("%s is a whole piece", by.Text),
			"write by how much the piece ends before its tape does")
	case last.off == nil:
		last.is, last.off = is, by.OffMM
	case new(big.Rat).Abs(exact.Minus(last.is, is)).Cmp(exact.Plus(last.off, by.OffMM)) > 0:
		return r.at.Wrong(key,
			fmt.Sprintf("the last piece is %s by its length, and %s by its tape: they contradict "+
				"one another",
				r.mm(last.is), r.mm(is)),
			"measure it again, with the tension on; ruler says how exactly it can be read")
	}
	return nil
}

// beat holds the measured lengths against the planned ones. Pieces that were not measured
// are taken to be as long as those that were.
func (r *reckoner) beat() error {
	is, planned, off := new(big.Rat), new(big.Rat), new(big.Rat)
	for _, one := range r.pieces[min(r.already, len(r.pieces)):] {
		if one.off != nil {
			is, planned, off = exact.Plus(is, one.is), exact.Plus(planned, one.planned),
				exact.Plus(off, one.off)
		}
	}
	if planned.Sign() == 0 {
		return nil
	}
	r.ratio = exact.Over(is, planned)
	r.agrees = new(big.Rat).Abs(exact.Minus(is, planned)).Cmp(off) <= 0
	if r.ratio.Cmp(big.NewRat(1, 2)) < 0 || r.ratio.Cmp(big.NewRat(2, 1)) > 0 {
		return r.at.Wrong("lengths",
			fmt.Sprintf("%s were woven where %s were planned: that is another cloth", r.mm(is),
				r.mm(planned)),
			"is it the right brief, and are these the lengths of whole pieces?")
	}
	if r.agrees {
		return nil
	}
	for i := r.already; i < r.woven; i++ {
		if one := &r.pieces[i]; one.off == nil {
			one.is = exact.Times(one.planned, r.ratio)
		}
	}
	return nil
}

// warp is what is left of the warp, and what of that can't be woven.
func (r *reckoner) warp() error {
	r.waste = r.b.Loom.Waste.MM
	tied := new(big.Rat)
	if r.at.Tied != nil && r.b.Midway == nil {
		tied = r.at.Tied.MM
		r.waste = atLeast0(exact.Minus(r.waste, tied))
	}
	used := exact.Over(r.cloth(), exact.Remains(r.b.Cloth.TakeUp.Part))
	used = exact.Plus(exact.Plus(used, r.bare()), tied)
	r.reckoned = exact.Minus(r.whole(), used)
	if t := r.at.Thrums; t != nil && (r.at.Left != nil || t.MM.Cmp(r.waste) > 0) {
		r.waste = t.MM
	}
	switch {
	case r.at.Left != nil && r.at.Left.MM.Cmp(r.whole()) > 0:
		return r.at.Wrong(r.leftKey(),
			fmt.Sprintf("%s left of a warp of %s", r.at.Left.Text, r.mm(r.whole())),
			"measure both again")
	case r.at.Left != nil:
		r.left = r.at.Left.MM
	case r.reckoned.Sign() <= 0:
		return r.at.Wrong("warp.left",
			fmt.Sprintf("is missing, and by the plan nothing is left of the warp of %s",
				r.mm(r.whole())),
			"measure what is left, from the fell to the end of the warp")
	default:
		r.left = r.reckoned
	}
	return nil
}

func (r *reckoner) leftKey() string {
	if r.at.ToKnots {
		return "warp.to_knots"
	}
	return "warp.left"
}

// whole is the warp there was before the pieces that were woven since the brief was
// written: as it was wound, or as the plan tells it to be.
func (r *reckoner) whole() *big.Rat {
	switch {
	case r.at.Wound != nil && r.b.Midway == nil:
		return r.at.Wound.MM
	case r.b.Midway != nil:
		return r.b.Midway.Warp.MM
	}
	told, _ := measure.ParseLength(measure.FormatWarp(r.p.Warp.WoundMM, r.b.Units)) // one of ours
	return told.MM
}

// cloth is what was woven of it: the sample, pieces and the separators between them.
func (r *reckoner) cloth() *big.Rat {
	sum := new(big.Rat).Set(r.b.Loom.Sample.MM)
	for _, one := range r.pieces[r.already:] {
		sum = exact.Plus(sum, one.is)
	}
	separators := max(0, r.woven-r.already-1+min(1, r.already))
	return exact.Plus(sum,
		exact.Over(exact.Whole(separators*r.b.Set.Separator), r.b.Cloth.HemGround.PerMM))
}

// bare is what was used of it and not woven, but for what was tied on in front.
func (r *reckoner) bare() *big.Rat {
	return exact.Plus(r.b.Loom.RetieMM(),
		exact.Times(exact.Whole(2*(r.woven-r.already)), r.b.Set.Fringe.MM))
}

func (r *reckoner) mm(mm *big.Rat) string {
	v, _ := mm.Float64()
	return measure.FormatLength(v, r.b.Units)
}

func atLeast0(r *big.Rat) *big.Rat {
	if r.Sign() < 0 {
		return new(big.Rat)
	}
	return r
}

// are is a number of pieces with its verb.
func are(n int) string {
	if n == 1 {
		return "1 piece is"
	}
	return fmt.Sprintf("%d pieces are", n)
}
