package midway

import (
	"fmt"
	"stripesong/sequence/exact"

	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// place tells what is woven and what is left.
func (r *reckoner) place() *Answer {
	a := &Answer{Schema: Schema, Woven: []Piece{}, Yarn: []Yarn{}, Beat: r.beatAnswer(),
		Shares: r.shares(), Ways: []Way{}}
	for i, one := range r.pieces {
		p := r.p.Pieces[i]
		hems := exact.Times(exact.Whole(2), exactly(p.HemWovenMM))
		finished := exact.Times(exact.Minus(one.is, hems),
			exact.Remains(r.b.Cloth.ShrinkLength.Part))
		a.Woven = append(a.Woven,
			Piece{Number: i + 1, Name: p.Name, PlannedMM: p.WovenMM, WovenMM: exact.Rounded(one.is),
				FinishedMM: exact.Rounded(finished), Measured: one.text != ""})
	}
	a.Warp = Warp{LeftMM: exact.Rounded(r.left), Measured: r.at.Left != nil,
		ReckonedMM: exact.Rounded(r.reckoned), WasteMM: exact.Rounded(r.waste)}
	return a
}

// takes tells what the rest takes as it was planned.
func (r *reckoner) takes(a *Answer, as *plan.Plan) {
	a.Warp.TakesMM = as.Warp.WoundMM
	for _, y := range as.Yarn {
		h := r.held[r.b.ColourNamed(y.Colour)]
		if y.NeededM() == 0 && !h.measured {
			continue
		}
		line := Yarn{Colour: y.Colour, Tex: y.Tex, Measured: h.measured, NeedsM: y.NeededM()}
		if h.metres != nil {
			line.LeftM = pointer(exact.Rounded(h.metres))
		}
		if h.reckoned != nil {
			line.ReckonedM = pointer(exact.Rounded(h.reckoned))
		}
		line.Reaches = y.OnHandM != nil && *y.OnHandM >= y.NeededM()
		a.Yarn = append(a.Yarn, line)
	}
}

func pointer[T any](v T) *T { return &v }

// nearest says what even the least piece lacks.
func (f *finder) nearest() string {
	p := f.base.plan
	s := f.first(1)
	s.units[0] = max(1, exact.Ceil(exact.Times(exact.Whole(s.units[0]), leastOfLast)))
	made := f.make(s)
	if made == nil {
		return ""
	}
	who := fmt.Sprintf("one piece more, %s of %s",
		f.r.length(made.plan.Pieces[f.r.woven].FinishedMM), p.Called(f.r.woven))
	if !warpReaches(made.plan) {
		return fmt.Sprintf("%s, takes %s more warp than there is", who,
			f.r.length(-made.plan.Midway.LeftMM))
	}
	for _, y := range made.plan.Yarn {
		if y.OnHandM != nil && *y.OnHandM < y.NeededM() {
			return fmt.Sprintf("%s, lacks %s of %q, and no other colour of its yarn "+
				"can take its place", who,
				measure.FormatYarn(y.NeededM()-*y.OnHandM, f.r.b.Units), y.Colour)
		}
	}
	return who + ", could be taken for one that is woven"
}
