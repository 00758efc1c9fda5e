package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/plan"
)

// rewriting is a brief whose text is being changed, held against the plan it had
// before: what is changed besides the piece the change is about is told, or held.
type rewriting struct {
	before *plan.Plan // of the brief as its file has it
	about  int        // the piece the change is about, from 0; -1 for none
	held   []int      // pieces that were written out to stay

	source *source // with the text as it is now
	brief  *brief.Brief
	after  *plan.Plan

	refused error // why the brief has no plan now; the change can be written all the same
}

// rewrite begins with the brief as it stands, whatever flags put in its place.
func (s *source) rewrite(ctx context.Context) (*rewriting, error) {
	r := &rewriting{about: -1}
	if err := r.lay(ctx, s, s.text); err != nil {
		return nil, err
	}
	r.before = r.after
	return r, nil
}

// lay makes a text the present one and plans it.
func (r *rewriting) lay(ctx context.Context, s *source, text []byte) error {
	changed := *s
	changed.text = text
	b, err := changed.parse(nil)
	if err != nil {
		return err
	}
	after, err := plan.Make(ctx, b)
	if err != nil {
		return changed.named(err)
	}
	r.source, r.brief, r.after = &changed, b, after
	return nil
}

// change sets keys of the brief.
func (r *rewriting) change(ctx context.Context, changes []brief.Change) error {
	text, err := brief.Edit(r.source.name, r.source.text, changes)
	if err != nil {
		return err
	}
	return r.lay(ctx, r.source, text)
}

// changeAnyhow sets keys of the brief, which must be a brief again but may be refused
// a plan, as where the shelf no longer reaches.
func (r *rewriting) changeAnyhow(ctx context.Context, changes []brief.Change) error {
	text, err := brief.Edit(r.source.name, r.source.text, changes)
	if err != nil {
		return err
	}
	if err := r.source.stillBrief(text); err != nil {
		return err
	}
	var problems brief.Problems
	if err = r.lay(ctx, r.source, text); errors.As(err, &problems) {
		changed := *r.source
		changed.text = text
		r.source, r.refused, err = &changed, err, nil
	}
	return err
}

// changed lists the pieces that are woven otherwise than before, besides the one
// the change is about; none where there is no plan now.
func (r *rewriting) changed() []int {
	if r.refused != nil {
		return nil
	}
	return slices.DeleteFunc(plan.ChangedPieces(r.before, r.after), func(i int) bool {
		return i == r.about
	})
}

// hold writes pieces out as they were before, with those that must stand in the
// brief before them.
func (r *rewriting) hold(ctx context.Context, pieces []int) error {
	changes, held := plan.HoldOf(r.brief, r.before, pieces)
	r.held = append(r.held, held...)
	slices.Sort(r.held)
	r.held = slices.Compact(r.held)
	return r.change(ctx, changes)
}

// holdOthers holds what the change would change besides. What is left open is
// chosen anew beside what is held, and is held with it where it does not stay.
func (r *rewriting) holdOthers(ctx context.Context) error {
	for others := r.changed(); len(others) > 0; others = r.changed() {
		if !slices.ContainsFunc(others, func(i int) bool { return !slices.Contains(r.held, i) }) {
			return mistake{
				what: fmt.Sprintf("%s can't be held as before", r.called(others)),
				hint: "write it without --hold, and see what changes",
			}
		}
		if err := r.hold(ctx, others); err != nil {
			return err
		}
	}
	return nil
}

// tell says which other pieces changed, or were held.
func (r *rewriting) tell(w *world) {
	if r.refused != nil {
		fmt.Fprintf(w.out, "this brief has no plan now; see what \"stripesong check\" says of it\n")
	}
	if len(r.held) > 0 {
		fmt.Fprintf(w.out, "held as they were: %s\n", screen.Visible(r.called(r.held)))
	}
	if others := r.changed(); len(others) > 0 {
		fmt.Fprintf(w.out, "this changes other pieces too: %s; --hold keeps them as they were\n",
			screen.Visible(r.called(others)))
	}
}

func (r *rewriting) called(pieces []int) string {
	names := make([]string, len(pieces))
	for i, n := range pieces {
		names[i] = r.after.Called(n)
	}
	return strings.Join(names, ", ")
}

// numbers are pieces as an answer in JSON has them.
func (r *rewriting) numbers(pieces []int) []calibrate.Piece {
	all := make([]calibrate.Piece, len(pieces))
	for i, n := range pieces {
		all[i] = calibrate.Piece{Number: n + 1, Name: r.after.Pieces[n].Name}
	}
	return all
}
