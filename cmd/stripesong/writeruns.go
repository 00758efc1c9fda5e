package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"

	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// withRuns is the brief, with what flags put in place of its values and with
// every sequence written out as runs, for a new file. It is held against the
// plan first: the written brief must give the same one, to the byte, but for
// what is said of the text itself.
func (p *planning) withRuns(ctx context.Context, s *source, made *plan.Plan, dir string,
	shown *progress) ([]byte, error) {
	path := p.runs.text
	if err := apart(path, dir); err != nil {
		return nil, err
	}
	shown.stage("writing out the runs")
	b, err := s.parse(p.all())
	if err != nil {
		return nil, err
	}
	text, err := brief.Shorten(s.name, s.text, b.Set.Pieces)
	if err != nil {
		return nil, err
	}
	var changes []brief.Change
	for _, o := range p.all() {
		changes = append(changes, brief.Change{Key: o.Key, Value: o.Value})
	}
	changes = append(changes, plan.RunsOf(b, made)...)
	if p.hold {
		all, not := plan.HoldAll(b, made)
		changes, p.notHeld = append(changes, all...), not
	}
	if text, err = brief.Edit(s.name, text, changes); err != nil {
		return nil, mistake{what: fmt.Sprintf("the runs can't be written into %q: %v", s.name, err),
			cause: err}
	}
	return text, samePlan(ctx, &source{name: path, dir: filepath.Dir(path), text: text}, made)
}

// writeRuns writes the brief with its runs; undone, it is taken away, unless
// somebody has changed it already.
func (p *planning) writeRuns(text []byte) step {
	return func() (undo func(), err error) {
		if err := createText(p.runs.text, "--write-runs FILE", text); err != nil {
			return func() {}, err
		}
		return func() { whole.Remove(p.runs.text, text) }, nil
	}
}

// apart refuses a file for the runs that would lie in the folder of the plan, or
// in whose place that folder would have to lie.
func apart(path, dir string) error {
	if dir == "" {
		return nil
	}
	switch {
	case whole.Within(path, dir):
		return mistake{
			what: fmt.Sprintf("%q would lie in the folder of the plan, which holds nothing else",
				path), hint: "name a file beside it with --write-runs FILE"}
	case whole.Within(dir, path):
		return mistake{
			what: fmt.Sprintf("the folder of the plan would lie in %q, which is to be a file",
				path), hint: "name a file beside it with --write-runs FILE"}
	}
	return nil
}

// samePlan holds a brief against a plan it must give.
func samePlan(ctx context.Context, s *source, made *plan.Plan) error {
	b, err := s.parse(nil)
	if err != nil {
		return mistake{what: fmt.Sprintf("the brief with its runs could not be read: %v", err),
			cause: err,
			hint:  "a brief that names a shelf is written out beside it"}
	}
	again, err := plan.Make(ctx, b)
	if err != nil {
		return interrupted(err)
	}
	want, err := plan.JSON(withoutRemarksOnText(made))
	if err != nil {
		return err
	}
	got, err := plan.JSON(withoutRemarksOnText(again))
	if err == nil && !bytes.Equal(want, got) {
		return fmt.Errorf("the brief with its runs would give another plan; nothing was "+
			"written to %q", s.name)
	}
	return err
}

// withoutRemarksOnText leaves out notes that tell how a brief is written, not
// what is woven: keys and pieces that have no part in the plan.
func withoutRemarksOnText(p *plan.Plan) *plan.Plan {
	rest := *p
	rest.Notes = slices.DeleteFunc(slices.Clone(p.Notes), func(n plan.Note) bool {
		return slices.Contains([]string{"left-out", "runs-win", "held"}, n.Code)
	})
	return &rest
}
