package contrast

import (
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// written is the brief with the pieces that the program chose written out as
// runs that are held, so that a change of colour is the only change there is.
func (r *reckoner) written(b *brief.Brief) *brief.Brief {
	made := *b
	made.Pieces = slices.Clone(b.Pieces)
	made.Vary = nil
	for i, piece := range r.p.Pieces {
		if !r.chosen(i) {
			continue
		}
		made.Pieces[i].Hold = true
		w := &made.Pieces[i].Weft
		w.Runs = nil
		for _, run := range piece.Runs {
			block := slices.Index(b.Structure.Letters(), run.Block)
			colour := look.Plain
			if run.Pattern != "" {
				colour = r.number[run.Pattern]
			}
			w.Runs = append(w.Runs, brief.Run{Block: block, Units: run.Units, Colour: colour})
			w.Ground = r.number[run.Ground]
		}
	}
	return &made
}

// swapChanges is a swap as changes to the brief's text. Pieces before the
// changed ones get tables of their own where they have none.
func (r *reckoner) swapChanges(s swap) []brief.Change {
	made := s.apply(r.b)
	if s.role == AsWarp {
		return append(r.sequence("warp", r.b.Warp.Rule, made.Warp.Rule, made.Warp.Runs),
			r.writtenOut(made)...)
	}
	var changes []brief.Change
	for i := range slices.Max(s.pieces) + 1 {
		if r.chosen(i) {
			break // these come last, and are written out with their new colours
		}
		key, w := fmt.Sprintf("piece[%d]", i), made.Pieces[i].Weft
		if made.Pieces[i].Open {
			changes = append(changes, brief.Change{Key: key + ".open"},
				brief.Text(key+".name", made.Pieces[i].Name))
		}
		if !slices.Contains(s.pieces, i) {
			continue
		}
		if s.role == AsPattern {
			changes = append(changes, r.sequence(key, r.b.Pieces[i].Weft.Rule, w.Rule, w.Runs)...)
			continue
		}
		changes = append(changes, brief.Text(key+".ground", r.name(w.Ground)),
			brief.Text(key+".hem", r.name(w.Hem)))
	}
	return append(changes, r.writtenOut(made)...)
}

// chosen reports whether the program chose a piece.
func (r *reckoner) chosen(piece int) bool { return r.p.Pieces[piece].Origin == "chosen" }

// writtenOut gives the pieces that the program chose tables of their own, which hold
// them: beside a change they would be chosen anew, and with another beat be shorter.
func (r *reckoner) writtenOut(made *brief.Brief) (changes []brief.Change) {
	for i := range made.Pieces {
		if !r.chosen(i) {
			continue
		}
		key, w := fmt.Sprintf("piece[%d]", i), made.Pieces[i].Weft
		changes = append(changes, brief.Change{Key: key + ".open"},
			brief.Text(key+".name", made.Pieces[i].Name))
		changes = append(changes, r.sequence(key, w.Rule, w.Rule, w.Runs)...)
		changes = append(changes, brief.Change{Key: key + ".hold", Value: "true"},
			brief.Text(key+".ground", r.name(w.Ground)), brief.Text(key+".hem", r.name(w.Hem)))
	}
	return changes
}

// sequence sets the runs of a table, or what a swap changed in its rule: the colours and
// the middle.
func (r *reckoner) sequence(key string, before, rule brief.Rule, runs []brief.Run) []brief.Change {
	if runs != nil {
		return []brief.Change{{Key: key + ".runs", Value: tomltext.List(r.b.RunTexts(runs))}}
	}
	changes := []brief.Change{{Key: key + ".colours", Value: tomltext.List(r.names(rule.Colours))}}
	if rule.Middle != before.Middle {
		changes = append(changes, brief.Text(key+".middle", r.b.MiddleText(rule.Middle)))
	}
	return changes
}

// Swap puts one colour in place of another in one of its roles: as pattern or
// ground in some pieces, counted from 0, or throughout the warp. Colours are numbers
// of Brief.Colours.
type Swap struct {
	Role     string // [AsPattern], [AsGround] or [AsWarp]
	From, To int
	Pieces   []int
}

// Changes is the swap as changes to the text of a brief whose plan is p. Pieces that
// the program chose are written out with it.
func (s Swap) Changes(b *brief.Brief, p *plan.Plan) []brief.Change {
	r := &reckoner{p: p, number: make(map[string]int)}
	for i, c := range b.Colours {
		r.number[c.Name] = i
	}
	r.b = r.written(b)
	return r.swapChanges(swap{role: s.Role, from: s.From, to: s.To, pieces: s.Pieces})
}
