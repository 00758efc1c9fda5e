package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"

	"stripesong/cmd/stripesong/whole"
	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// writeRuns writes the brief, with what flags put in place of its values and
// with every sequence written out as runs, to a new file. It is held against the
// plan first: the written brief must give the same one, to the byte, but for
// what is said of the text itself.
func (p *planning) writeRuns(ctx context.Context, s *source, made *plan.Plan, shown *progress) error {
	path := p.runs.text
	shown.stage("writing out the runs")
	b, err := s.parse(p.all())
	if err != nil {
		return err
	}
	text, err := brief.Shorten(s.text, b.Set.Pieces)
	if err != nil {
		return err
	}
	var changes []brief.Change
	for _, o := range p.all() {
		changes = append(changes, brief.Change{Key: o.Key, Value: o.Value})
	}
	if text, err = brief.Edit(s.name, text, append(changes, plan.RunsOf(b, made)...)); err != nil {
		return mistake{what: fmt.Sprintf("the runs can't be written into %q: %v", s.name, err), cause: err}
	}
	if err := samePlan(ctx, &source{name: path, dir: filepath.Dir(path), text: text}, made); err != nil {
		return err
	}
	err = whole.Create(path, text)
	if errors.Is(err, fs.ErrExist) {
		return existsAlready(path, "--write-runs FILE", "", err)
	}
	return unwritable(path, "--write-runs FILE", err)
}

// apart refuses, before anything is written, what would leave the runs without
// their folder or inside it.
func (p *planning) apart(dir string) error {
	path := p.runs.text
	if path == "-" {
		return noDash("--write-runs FILE")
	}
	if dir == "" {
		return nil
	}
	if err := whole.Check(dir, ours); err != nil {
		return explainFolder(dir, err)
	}
	in, err := filepath.Rel(dir, path)
	if err == nil && filepath.IsLocal(in) {
		return mistake{what: fmt.Sprintf("%q would lie in the folder of the plan, which holds nothing else", path), hint: "name a file beside it with --write-runs FILE"}
	}
	return nil
}

// samePlan holds a brief against a plan it must give.
func samePlan(ctx context.Context, s *source, made *plan.Plan) error {
	b, err := s.parse(nil)
	if err != nil {
		return mistake{what: fmt.Sprintf("the brief with its runs would not be one: %v", err), cause: err,
			hint: "a brief that names a shelf is written out beside it"}
	}
	again, err := plan.Make(ctx, b)
	if err != nil {
		return interrupted(err)
	}
	want, err := withoutRemarksOnText(made).JSON()
	if err != nil {
		return err
	}
	got, err := withoutRemarksOnText(again).JSON()
	if err == nil && !bytes.Equal(want, got) {
		return fmt.Errorf("the brief with its runs would give another plan; nothing was written to %q", s.name)
	}
	return err
}

// withoutRemarksOnText leaves out notes that tell how a brief is written, not
// what is woven: keys and pieces that have no part in the plan.
func withoutRemarksOnText(p *plan.Plan) *plan.Plan {
	rest := *p
	rest.Notes = slices.DeleteFunc(slices.Clone(p.Notes), func(n plan.Note) bool {
		return n.Code == "left-out" || n.Code == "runs-win"
	})
	return &rest
}
