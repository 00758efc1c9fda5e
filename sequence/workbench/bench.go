package workbench

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// Bench is one brief being worked on.
type Bench struct {
	name    string
	options brief.Options
	saved   []byte
	version
	history history
	edition int
	pins    []pin // versions that are kept beside the one being worked on
	pinning int   // how many there have been
	at      int   // where the piece is that the latest change was about; below 0 for none
	begun   *begun
}

// version is a brief and what follows from it.
type version struct {
	doc    *tomltext.Document
	brief  *brief.Brief
	plan   *plan.Plan
	cloth  *look.Mixer
	origin int // see [Bench.Origin]
}

// Open lays a brief on the bench. Name is what messages call it. The error is
// of type [brief.Problems], or the context's.
func Open(ctx context.Context, name string, text []byte, options brief.Options) (*Bench, error) {
	b := &Bench{name: name, options: options, saved: bytes.Clone(text)}
	if err := b.setText(ctx, bytes.Clone(text)); err != nil {
		return nil, err
	}
	return b, nil
}

// setText makes a text the present one, if it has a plan.
func (b *Bench) setText(ctx context.Context, text []byte) error {
	v, err := b.try(ctx, text)
	if err != nil {
		return err
	}
	b.version, b.at, b.begun = v, -1, nil
	b.edition++
	return nil
}

// try plans a text, as of the origin of the present one.
func (b *Bench) try(ctx context.Context, text []byte) (v version, err error) {
	read, err := brief.Parse(b.name, text, b.options)
	if err != nil {
		return v, err
	}
	made, err := plan.Make(ctx, read)
	if err != nil {
		return v, err
	}
	doc, err := tomltext.Parse(b.name, text)
	if err != nil {
		return v, err
	}
	return version{doc, read, made, look.Of(read), b.origin}, nil
}

// Copy is a second bench with the same text, plan and steps. What is done at one
// leaves the other as it is, so that work can go on at a copy while the first is
// still shown; assigning what a copy points to takes its work over. View of
// the two must not run at the same time.
func (b *Bench) Copy() *Bench {
	c := *b
	return &c
}

// Chooses is how many candidates the program chooses pieces from; 0 where it
// chooses none.
func (b *Bench) Chooses() int {
	if b.brief.Vary == nil {
		return 0
	}
	return b.brief.Vary.Candidates
}

// Text is the text of the brief as it stands, in TOML.
func (b *Bench) Text() []byte { return b.doc.Bytes() }

// written is a value as the text has it, without quotes; "" where there is none.
func (v version) written(path string) string {
	if n := v.doc.Root.Find(path); n != nil {
		return n.Text
	}
	return ""
}

// Plan is the plan of the text as it stands.
func (b *Bench) Plan() *plan.Plan { return b.plan }

// Origin is the text from elsewhere that the present one goes back to: 0 for the one
// the bench was opened with, else what [Bench.Load] was told. It goes back and forth
// with the steps, and with the version put beside.
func (b *Bench) Origin() int { return b.origin }

// Edition counts the texts there have been; it grows with every change, undone
// ones included.
func (b *Bench) Edition() int { return b.edition }

// Saved tells whether the text is the one last opened or saved.
func (b *Bench) Saved() bool { return bytes.Equal(b.Text(), b.saved) }

// LastSaved is the text last opened or saved.
func (b *Bench) LastSaved() []byte { return b.saved }

// MarkSaved says that the text has been saved.
func (b *Bench) MarkSaved(text []byte) { b.saved = bytes.Clone(text) }

// Rename gives the brief another name for messages: it has a file of that name now.
func (b *Bench) Rename(name string) { b.name = name }

// Do carries out one operation and returns what was done, in words. Where it fails, with
// [brief.Problems] or the context's error, nothing has changed; words beside an error are
// what would have been done.
func (b *Bench) Do(ctx context.Context, op Op) (string, error) {
	work, ok := operations()[op.Do]
	if !ok {
		return "", refuse("", "there is no operation %q", op.Do)
	}
	if err := b.woven(op); err != nil {
		return "", err
	}
	d := &draft{bench: b, doc: b.doc, at: op.Strip}
	if err := d.stays(work, op); err != nil {
		return "", problems(err)
	}
	what, err := work.do(d, op)
	if err != nil {
		return "", problems(err)
	}
	if d.home {
		b.GiveUp(op.Gesture)
	}
	if d.same || d.home {
		b.at = d.at
		return what, nil
	}
	what += d.lopsided(op)
	before, wide := b.kept(), b.wide()
	if err := b.replace(ctx, d.doc.Bytes(), b.origin, what, op.Gesture); err != nil {
		return what, err
	}
	b.at = d.at
	if op.Do == "keep" {
		return what, nil
	}
	return what + b.newlyKept(before) + b.widthSaid(op, wide), nil
}

// kept are the names of the pieces that stay as they are.
func (v version) kept() []string {
	names := make([]string, len(v.plan.Pieces))
	for i := range v.brief.Pieces {
		if v.keeps(i) {
			names[i] = v.plan.Pieces[i].Name
		}
	}
	return names
}

// newlyKept says which pieces an operation wrote out that followed a rule before; "" for
// none. Where there are more pieces than before, or fewer, it says nothing.
func (v version) newlyKept(before []string) string {
	var fresh []string
	for _, name := range v.kept() {
		if name != "" && !slices.Contains(before, name) {
			fresh = append(fresh, name)
		}
	}
	now := v.kept()
	count := func(all []string) (n int) {
		for _, name := range all {
			if name != "" {
				n++
			}
		}
		return n
	}
	if len(now) != len(before) || count(now) <= count(before) || len(fresh) == 0 {
		return ""
	}
	return "; kept as it is from now on: " + strings.Join(fresh, ", ")
}

// replace makes a text of an origin the present one and remembers how to go back.
func (b *Bench) replace(ctx context.Context, text []byte, origin int, what, gesture string) error {
	before, from := b.Text(), b.origin
	if bytes.Equal(before, text) {
		return nil
	}
	start := b.beginning(gesture)
	if err := b.setText(ctx, bytes.Clone(text)); err != nil {
		return err
	}
	b.begun = start
	s := between(before, text)
	s.what, s.gesture, s.origins = what, gesture, [2]int{from, origin}
	b.history.add(s, before, text)
	b.origin = origin
	return nil
}

// Undo takes the latest step back and returns what it was; "" where there is
// none.
func (b *Bench) Undo(ctx context.Context) (string, error) { return b.travel(ctx, -1) }

// Redo does again what was undone last; "" where there is nothing.
func (b *Bench) Redo(ctx context.Context) (string, error) { return b.travel(ctx, 1) }

func (b *Bench) travel(ctx context.Context, by int) (string, error) {
	text, s, ok := b.history.after(b.Text(), by)
	if !ok {
		return "", nil
	}
	if err := b.setText(ctx, text); err != nil {
		return "", err
	}
	b.history.at += by
	b.origin = s.origins[(by+1)/2]
	return s.what, nil
}

// Go undoes so many steps, or does so many again where there are fewer than 0, as far as
// there are any. It returns what the last of them was, in words, also where the context
// stopped it there.
func (b *Bench) Go(ctx context.Context, back int) (string, error) {
	by, said := -1, ""
	if back < 0 {
		by, back = 1, -back
	}
	for range back {
		what, err := b.travel(ctx, by)
		if err != nil || what == "" {
			return said, err
		}
		said = what
	}
	return said, nil
}

// Steps are the numbers of steps that can be undone and redone.
func (b *Bench) Steps() (undo, redo int) {
	return b.history.at, len(b.history.steps) - b.history.at
}

// Load makes a text from elsewhere the present one, as a step that can be undone, and
// gives it the number it is known by as an origin.
func (b *Bench) Load(ctx context.Context, text []byte, origin int, what string) error {
	if !bytes.Equal(text, b.Text()) {
		return b.replace(ctx, text, origin, what, "")
	}
	b.origin = origin
	b.history.meet(origin)
	return nil
}

// refuse is the error of an operation that can't be done.
func refuse(hint, what string, values ...any) error {
	return brief.Problems{{What: fmt.Sprintf(what, values...), Hint: hint}}
}

// problems turns any refusal into [brief.Problems].
func problems(err error) error {
	var already brief.Problems
	if errors.As(err, &already) {
		return already
	}
	return refuse("change the brief's file by hand here", "%v", err)
}
