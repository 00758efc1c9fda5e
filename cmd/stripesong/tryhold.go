package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// choiceKept is a brief with a choice written into it.
type choiceKept struct {
	text    []byte
	place   string // what the choice was written as
	plan    *plan.Plan
	changed []int // other pieces that are woven otherwise now
	held    []int // other pieces that were written out
}

// kept puts a choice into the brief and finds out what else that changes. With
// --hold the pieces that would change are written out as they were.
func (t *trying) kept(ctx context.Context, s *source, b *brief.Brief, keys []plan.Setting, piece int) (*choiceKept, error) {
	before, err := plan.Make(ctx, b)
	if err != nil {
		return nil, err
	}
	k := &choiceKept{}
	if t.hold {
		if s, b, err = k.hold(s, b, before, openBefore(b, piece, bool(t.warp))); err != nil {
			return nil, err
		}
	}
	at := 0
	if k.text, k.place, at, err = t.edited(s, b, keys, piece); err != nil {
		return nil, err
	}
	changed, after, err := s.replanned(ctx, k.text)
	if err != nil {
		return nil, err
	}
	k.settle(before, after, at)
	if !t.hold || len(k.changed) == 0 {
		return k, nil
	}
	if s, _, err = k.hold(changed.source, changed.brief, before, k.changed); err != nil {
		return nil, err
	}
	if _, after, err = s.replanned(ctx, k.text); err != nil {
		return nil, err
	}
	if k.settle(before, after, at); len(k.changed) > 0 {
		return nil, mistake{what: "the other pieces can't be held", hint: "keep it without --hold, and see what changes"}
	}
	return k, nil
}

// settle remembers what differs between two plans, but for one piece.
func (k *choiceKept) settle(before, after *plan.Plan, at int) {
	k.plan = after
	k.changed = slices.DeleteFunc(plan.ChangedPieces(before, after), func(i int) bool { return i == at })
}

// hold writes pieces out as a plan has them.
func (k *choiceKept) hold(s *source, b *brief.Brief, as *plan.Plan, pieces []int) (*source, *brief.Brief, error) {
	text, err := brief.Edit(s.name, s.text, plan.HoldOf(b, as, pieces))
	if err != nil {
		return nil, nil, err
	}
	k.text, k.held = text, append(k.held, pieces...)
	slices.Sort(k.held)
	changed := *s
	changed.text = text
	read, err := changed.parse(nil)
	return &changed, read, err
}

// openBefore lists the open pieces before one: written out, they keep its place.
func openBefore(b *brief.Brief, piece int, warp bool) (open []int) {
	for i := range b.Pieces[:piece] {
		if b.Pieces[i].Open && !warp {
			open = append(open, i)
		}
	}
	return open
}

// replanned is a brief with its text changed, and its plan.
type replanned struct {
	source *source
	brief  *brief.Brief
}

func (s *source) replanned(ctx context.Context, text []byte) (replanned, *plan.Plan, error) {
	if err := s.stillBrief(text); err != nil {
		return replanned{}, nil, err
	}
	changed := *s
	changed.text = text
	b, err := changed.parse(nil)
	if err != nil {
		return replanned{}, nil, err
	}
	made, err := plan.Make(ctx, b)
	return replanned{&changed, b}, made, err
}

// tell says which other pieces changed, or were held.
func (k *choiceKept) tell(w *world) {
	if len(k.held) > 0 {
		fmt.Fprintf(w.out, "held as they were: %s\n", k.called(k.held))
	}
	if len(k.changed) > 0 {
		fmt.Fprintf(w.out, "this changes other pieces too: %s; --hold keeps them as they were\n", k.called(k.changed))
	}
}

func (k *choiceKept) called(pieces []int) string {
	names := make([]string, len(pieces))
	for i, n := range pieces {
		names[i] = screen.Visible(k.plan.Called(n))
	}
	return strings.Join(names, ", ")
}
