package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/unsaved"
	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// rewriting is a brief whose text is being changed, held against the plan it had
// before: what is changed besides the piece the change is about is told, or held.
type rewriting struct {
	before *plan.Plan // of the brief as its file has it
	about  int        // the piece the change is about, from 0; -1 for none
	held   []int      // pieces that were written out to stay
	beside []int      // those of them that changed only because others were held

	say    func(doing string)
	source *source // with the text as it is now
	brief  *brief.Brief
	after  *plan.Plan

	idle bool   // the brief said so already
	kept string // the file that has the brief as it was

	refused error // why the brief has no plan now; the change can be written all the same
}

// rewrite begins with the brief as it stands, whatever flags put in its place. What
// takes long is said.
func (s *source) rewrite(ctx context.Context, say func(doing string)) (*rewriting, error) {
	r := &rewriting{about: -1, say: say}
	say("planning the brief as it is")
	if err := r.setText(ctx, s, s.text); err != nil {
		return nil, err
	}
	r.before = r.after
	return r, nil
}

// setText makes a text the present one and plans it.
func (r *rewriting) setText(ctx context.Context, s *source, text []byte) error {
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
	return r.planned(ctx, "planning it with what is changed", changes)
}

// planned sets keys of the brief, says what it does, and plans it.
func (r *rewriting) planned(ctx context.Context, doing string, changes []brief.Change) error {
	text, err := r.edited(changes)
	if err != nil {
		return err
	}
	r.say(doing)
	return r.setText(ctx, r.source, text)
}

// edited is the text with some keys set.
func (r *rewriting) edited(changes []brief.Change) ([]byte, error) {
	text, err := brief.Edit(r.source.name, r.source.text, changes)
	if problems := (brief.Problems{}); err == nil || errors.As(err, &problems) {
		return text, err
	}
	return nil,
		mistake{what: fmt.Sprintf("%q is written in a way that can't be changed here",
			r.source.name), cause: err,
			hint: "write each table under a heading of its own, pieces as [[piece]]"}
}

// changeAnyhow sets keys of the brief, which must be a brief again but may be refused
// a plan, as where the shelf no longer reaches.
func (r *rewriting) changeAnyhow(ctx context.Context, changes []brief.Change) error {
	text, err := r.edited(changes)
	if err != nil {
		return err
	}
	if err := r.source.stillBrief(text); err != nil {
		return err
	}
	var problems brief.Problems
	if err = r.setText(ctx, r.source, text); errors.As(err, &problems) {
		changed := *r.source
		changed.text = text
		r.source, r.refused, err = &changed, err, nil
	}
	return err
}

// changed lists the pieces that are woven otherwise than before, besides the one
// the change is about; none where there is no plan now.
func (r *rewriting) changed() []int {
	if r.refused != nil || r.before == nil {
		return nil
	}
	return slices.DeleteFunc(plan.ChangedPieces(r.before, r.after), func(i int) bool {
		return i == r.about
	})
}

// hold writes pieces out as they were before.
func (r *rewriting) hold(ctx context.Context, pieces []int) error {
	r.held = append(r.held, pieces...)
	slices.Sort(r.held)
	r.held = slices.Compact(r.held)
	doing := fmt.Sprintf("planning it with %s held", measure.Count(len(r.held), "piece"))
	return r.planned(ctx, doing, plan.HoldOf(r.brief, r.before, pieces))
}

// holdOthers holds what the change would change besides. What is left open is
// chosen anew beside what is held, and is held with it where it does not stay.
func (r *rewriting) holdOthers(ctx context.Context) error {
	first := r.changed()
	for others := r.changed(); len(others) > 0; others = r.changed() {
		if !slices.ContainsFunc(others, func(i int) bool { return !slices.Contains(r.held, i) }) {
			return mistake{
				what: fmt.Sprintf("%s can't be held as before", r.called(others)),
				hint: "write it with --anew instead of --hold, and see what changes",
			}
		}
		if err := r.hold(ctx, others); err != nil {
			return err
		}
	}
	r.beside = slices.DeleteFunc(slices.Clone(r.held), func(i int) bool {
		return slices.Contains(first, i)
	})
	return nil
}

// others says what becomes of the pieces that a change would change besides.
type others struct{ hold, anew yes }

// declare adds the flags; with is the flag that makes the change.
func (o *others) declare(f *flags, with string) {
	f.addYes("hold", with+": keep all other pieces as they are", &o.hold)
	f.addYes("anew", with+": let the program choose others anew", &o.anew)
}

// check refuses the flags where nothing is changed, or both of them; add is what to add.
func (o *others) check(changing bool, add string) error {
	switch {
	case bool(o.hold && o.anew):
		return mistake{what: "--hold keeps other pieces as they are, --anew lets them change",
			hint: "leave one of the two out"}
	case changing || !bool(o.hold || o.anew):
		return nil
	case bool(o.hold):
		return mistake{what: "--hold holds what would change with it, and nothing is changed",
			hint: add}
	}
	return mistake{what: "--anew lets other pieces change, and nothing is changed", hint: add}
}

// settle holds the other pieces, lets them change, or refuses where neither was said
// and the brief itself is to be written.
func (r *rewriting) settle(ctx context.Context, o others, intoBrief bool) error {
	if bool(o.hold) {
		if r.refused != nil {
			return r.refused
		}
		return r.holdOthers(ctx)
	}
	if changed := r.changed(); len(changed) > 0 && intoBrief && !bool(o.anew) {
		which := "pieces"
		if r.about >= 0 {
			which = "other pieces too"
		}
		return mistake{
			what: fmt.Sprintf("this would change %s: %s", which, r.called(changed)),
			hint: "add --hold to keep them as they are, or --anew to let them be chosen anew",
		}
	}
	return nil
}

// put writes the changed brief: into its file, which is kept as it was beside it, or
// into a new one that a flag names.
func (r *rewriting) put(path, flag string, s *source) error {
	if path == "-" || !s.isFile(path) {
		return createText(path, flag, r.source.text)
	}
	if r.idle = bytes.Equal(s.text, r.source.text); r.idle {
		return nil
	}
	before, err := s.keepCopy()
	if err != nil {
		return err
	}
	r.kept = before.name
	return before.unless(putText(path, flag, s, r.source.text))
}

// copied is a file that has a brief as it was.
type copied struct {
	name string
	text []byte
	made bool // it was not there before
}

// unless takes a copy away again that was made for a change that failed.
func (c copied) unless(failed error) error {
	if failed != nil && c.made {
		whole.Remove(c.name, c.text)
	}
	return failed
}

// keepCopy puts the brief as it is into a file beside it that is as private, unless one
// with its text is there already.
func (s *source) keepCopy() (copied, error) {
	stem := s.stem() + "-before"
	for n := 1; ; n++ {
		name := beside(s.dir, unsaved.Numbered(stem, n))
		text, err := os.ReadFile(name)
		if err != nil {
			break
		}
		if bytes.Equal(text, s.text) {
			return copied{name: name}, nil
		}
	}
	mode := fs.FileMode(0o666)
	if info, err := os.Stat(s.name); err == nil {
		mode = info.Mode().Perm()
	}
	name, err := createFreeAs(s.dir, stem, s.text, mode)
	return copied{name, s.text, true}, err
}

// tell says which other pieces changed, or were held, and where the brief is as it was.
func (r *rewriting) tell(w *world) {
	if r.idle {
		fmt.Fprintln(w.out, "the brief says so already; nothing was changed")
	}
	if r.refused != nil {
		fmt.Fprintf(w.out, "this brief can't be planned now: see \"stripesong check\"\n")
	}
	if len(r.held) > 0 {
		fmt.Fprintf(w.out, "held: %s%s\n", screen.Visible(r.called(r.held)),
			screen.Visible(r.besideWords()))
	}
	if changed := r.changed(); len(changed) > 0 {
		which := "pieces"
		if r.about >= 0 {
			which = "other pieces"
		}
		fmt.Fprintf(w.out, "%s that changed too: %s\n", which,
			screen.Visible(r.called(changed)))
	}
	if r.kept != "" {
		fmt.Fprintf(w.out, "the brief as it was: %s\n", screen.Visible(r.kept))
	}
}

// besideWords says which pieces were held though the change alone left them as they are.
func (r *rewriting) besideWords() string {
	if len(r.beside) == 0 {
		return ""
	}
	return fmt.Sprintf(" (%s too, which the program would otherwise choose again)",
		r.called(r.beside))
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
