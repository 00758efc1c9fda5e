package midway

import (
	"context"
	"errors"
	"fmt"
	"math/big"
	"strconv"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// rest is a brief for the rest of a set and its plan.
type rest struct {
	text  []byte
	brief *brief.Brief
	plan  *plan.Plan
}

// finder looks for ways to weave the rest.
type finder struct {
	ctx    context.Context
	source remedy.Source
	r      *reckoner
	base   *rest    // all pieces as they were planned
	extra  *variant // a piece besides, which base has; nil for none
	left   int      // plans that may still be made
}

// mostPlans is how many plans are made at most, less where sets are large.
const mostPlans, leastPlans, mostPieces = 160, 40, 3000

// begin writes the brief for the rest in which all pieces to come are as planned.
func (f *finder) begin() error {
	r := f.r
	f.left = max(leastPlans, min(mostPlans, mostPieces/len(r.p.Pieces)))
	text, err := brief.Edit(f.source.Name, f.source.Text, r.changes())
	if problems := (brief.Problems{}); err != nil && !errors.As(err, &problems) {
		return brief.Problems{
			{File: f.source.Name, What: "is written in a way that can't be changed here: " +
				err.Error(),
				Hint: "write each table under a heading of its own, pieces as [[piece]]"}}
	}
	if err != nil {
		return err
	}
	f.base, err = f.planned(text)
	return err
}

// planned plans a text.
func (f *finder) planned(text []byte) (*rest, error) {
	f.left--
	b, err := f.source.Read(text)
	if err != nil {
		return nil, err
	}
	p, err := plan.Make(f.ctx, b)
	if err != nil {
		return nil, err
	}
	return &rest{text, b, p}, nil
}

// try plans the brief as planned with some changes; nil where it has no plan, or where
// enough were made.
func (f *finder) try(changes []brief.Change) *rest {
	if f.left <= 0 || f.ctx.Err() != nil {
		return nil
	}
	text, err := brief.Edit(f.source.Name, f.base.text, changes)
	if err != nil {
		return nil
	}
	made, err := f.planned(text)
	if err != nil {
		return nil
	}
	return made
}

// changes put what is woven and what is left into the brief's text. What the program
// chose is written out, so nothing is left for [vary] to choose.
func (r *reckoner) changes() (all []brief.Change) {
	every := make([]int, len(r.p.Pieces))
	for i := range every {
		every[i] = i
	}
	all = append(all, plan.RunsOf(r.b, r.p)[0]) // the warp
	all = append(all, plan.HoldOf(r.b, r.p, every)...)
	for i := range every {
		all = append(all, brief.Change{Key: fmt.Sprintf("piece[%d].hold", i)})
		if r.b.Pieces[i].Chosen {
			all = append(all, brief.Change{Key: fmt.Sprintf("piece[%d].chosen", i)})
		}
	}
	if r.b.Vary != nil {
		all = append(all, brief.Change{Key: "vary"})
	}
	all = append(all, brief.Change{Key: "set.pieces", Value: strconv.Itoa(len(r.p.Pieces))})
	all = append(all, r.cloths()...)
	all = append(all, r.stocks()...)
	return append(all, r.midway()...)
}

// cloths are the densities and shares that were measured and contradict the brief.
func (r *reckoner) cloths() (all []brief.Change) {
	if beat := r.beatAnswer(); beat != nil && !beat.Agrees {
		all = append(all, brief.Text("cloth.ground", beat.Ground),
			brief.Text("cloth.hem_ground", beat.Hem))
		all = append(all, r.lengthsAsked()...)
	}
	for _, s := range r.shares() {
		if !s.Agrees {
			all = append(all, brief.Text(s.Key, s.Text()))
		}
	}
	return all
}

// lengthsAsked are the lengths that the brief asks for as pieces of the same picks come out.
func (r *reckoner) lengthsAsked() []brief.Change {
	units, asked := plan.BodyUnits(r.b)
	body := exact.Times(plan.BodyMM(r.b, -1, units), r.ratio)
	plain := func(picks int) *big.Rat {
		return exact.Times(exact.Over(exact.Whole(2*picks), r.b.Cloth.HemGround.PerMM), r.ratio)
	}
	first := r.p.Pieces[0]
	switch {
	case !asked:
		return nil
	case r.b.Set.Woven != nil:
		return []brief.Change{
			brief.Text("set.woven", r.write(exact.Plus(body, plain(first.EndPicks()))))}
	}
	seen := exact.Plus(body, plain(first.ShowPicks))
	return []brief.Change{
		brief.Text("set.length",
			r.write(exact.Times(seen, exact.Remains(r.b.Cloth.ShrinkLength.Part))))}
}

// stocks are what is on hand now. A colour of the shelf file gets a table in the brief,
// which wins over the shelf's.
func (r *reckoner) stocks() (all []brief.Change) {
	own := 0
	for _, c := range r.b.Colours {
		if !c.Shelf {
			own++
		}
	}
	for i, c := range r.b.Colours {
		if r.held[i].metres == nil || c.Shelf && !r.held[i].measured && !r.uses(i) {
			continue
		}
		table := fmt.Sprintf("colour[%d].", i)
		if c.Shelf {
			table = fmt.Sprintf("colour[%d].", own)
			own++
			all = append(all, brief.Text(table+"name", c.Name),
				brief.Text(table+"hex", c.RGB.Hex()),
				brief.Text(table+"yarn", r.b.Yarns[c.Yarn].Name))
		}
		all = append(all, brief.Text(table+"on_hand", r.held[i].text))
	}
	return all
}

// uses tells whether the plan has a colour.
func (r *reckoner) uses(colour int) bool {
	for _, y := range r.p.Yarn {
		if y.Colour == r.b.Colours[colour].Name {
			return true
		}
	}
	return false
}

// midway is the table that says how far the weaving is.
func (r *reckoner) midway() []brief.Change {
	woven := make([]string, len(r.pieces))
	for i, one := range r.pieces {
		woven[i] = r.write(one.is)
	}
	warp := r.writeDown(r.left)
	if l := r.at.Left; l != nil {
		warp = l.Text
	}
	return []brief.Change{
		{Key: "midway.woven", Value: tomltext.List(woven)},
		brief.Text("midway.warp", warp),
		brief.Text("midway.waste", r.writeUp(r.waste)),
	}
}

// write is a length as a brief has it, to a millimetre or a sixteenth of an inch.
func (r *reckoner) write(mm *big.Rat) string {
	grain := r.grain()
	return measure.WriteLength(exact.Times(exact.Whole(exact.HalfUp(exact.Over(mm, grain))), grain),
		r.b.Units)
}

func (r *reckoner) writeDown(mm *big.Rat) string {
	return measure.WriteLength(exact.Times(exact.Whole(exact.Floor(exact.Over(mm, r.grain()))),
		r.grain()), r.b.Units)
}

func (r *reckoner) writeUp(mm *big.Rat) string {
	return measure.WriteLength(exact.Times(exact.Whole(exact.Ceil(exact.Over(mm, r.grain()))),
		r.grain()), r.b.Units)
}

func (r *reckoner) grain() *big.Rat {
	if r.b.Units == "in" {
		return big.NewRat(254, 160)
	}
	return exact.Whole(1)
}
