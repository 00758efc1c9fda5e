package main

import (
	"context"
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/fit"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// tooFew tells whether a warp that was asked about gives fewer pieces than the brief has.
func (t *fitting) tooFew(b *brief.Brief, a *fit.Answer) bool {
	return t.warp.given && !t.pieces.given && len(t.all()) == 0 && a.Fits < b.Set.Pieces
}

// ways are the ways out of a warp that gives too few pieces: those of a brief whose board
// holds no more than it. Made is its plan.
func (t *fitting) ways(ctx context.Context,
	s *source) (a *remedy.Answer, made *plan.Plan, err error) {
	text, err := brief.Edit(s.name, s.text, []brief.Change{brief.Text("loom.board", t.asked(nil))})
	if err != nil {
		return nil, nil, err
	}
	short := *s
	short.text = text
	b, err := short.parse(nil)
	if err != nil {
		return nil, nil, err
	}
	if made, err = plan.Make(ctx, b); err != nil {
		return nil, nil, s.named(interrupted(err))
	}
	all, err := short.remedies(ctx, made)
	if err != nil {
		return nil, nil, err
	}
	a = &remedy.Answer{}
	for _, r := range all.Remedies {
		if slices.Contains(r.Mends(), remedy.Mended{Code: "board-short"}) {
			r.Number = len(a.Remedies) + 1
			a.Remedies = append(a.Remedies, r)
		}
	}
	for _, u := range all.Unmended {
		if u.Code == "board-short" {
			a.Unmended = append(a.Unmended, u)
		}
	}
	return a, made, nil
}

// waysOut prints them, and how one is taken.
func (t *fitting) waysOut(ctx context.Context, w *world, s *source) error {
	a, made, err := t.ways(ctx, s)
	if err != nil {
		return err
	}
	w.waysOut(s, made, a, fmt.Sprintf("fit %s --warp %s", shellWord(s.name),
		shellWord(t.asked(nil))))
	return nil
}

// mayTake refuses --take where nothing can be written, and --listed without it.
func (t *fitting) mayTake(s *source) error {
	switch {
	case !t.number.given:
		return t.paired("add --take N")
	case !t.warp.given:
		return mistake{what: "--take writes a way out of a warp that gives too few pieces",
			hint: "say how long it is with --warp"}
	case t.pieces.given:
		return mistake{what: "a way out is for the brief as it stands", hint: "leave out --pieces"}
	}
	return t.may(s, t.all(), "fit")
}

// take writes one of the ways out into the brief, and keeps the brief as it was beside it.
func (t *fitting) take(ctx context.Context, w *world, s *source) error {
	a, made, err := t.ways(ctx, s)
	if err != nil {
		return err
	}
	n, err := t.chosen(len(a.Remedies), "way out", "list them: stripesong fit "+shellWord(s.name)+
		" --warp "+shellWord(t.asked(nil)))
	if err != nil {
		return err
	}
	r, err := s.rewrite(ctx, func(string) {})
	if err != nil {
		return interrupted(err)
	}
	return r.take(ctx, w, s, a.Remedies[n].Changes, remedyWords(a.Remedies[n], made))
}
