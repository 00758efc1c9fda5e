package engine

import (
	"context"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/workbench"
)

// kept tells the page where the brief is kept until it is saved.
type kept struct {
	Where string `json:"where"` // "" where it is saved, or can't be kept
	Wrong string `json:"wrong"` // why it can't be kept
}

// left offers unsaved work of an earlier page.
type left struct {
	ID   int    `json:"id"`
	Says string `json:"says"`
}

// unsaved is the text of a bench where it is not what was last saved, and nil
// where it is.
func unsaved(at *workbench.Bench) []byte {
	if at.Saved() {
		return nil
	}
	return at.Text()
}

// Unsaved is the brief's text where it is not what was last saved, and nil
// where it is; and the text that it goes back to, as [Storage.Save] has it.
func (s *Engine) Unsaved() (text []byte, origin int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return unsaved(s.bench), s.bench.Origin()
}

// takeOver makes a bench that was worked at the present one, after it has been
// kept.
func (s *Engine) takeOver(at *workbench.Bench) {
	s.keeping.Lock()
	defer s.keeping.Unlock()
	now := s.keep(unsaved(at), at.Origin())
	s.mu.Lock()
	defer s.mu.Unlock()
	*s.bench, s.kept = *at, now
	close(s.news)
	s.news = make(chan struct{})
}

// Keep keeps the present brief once more: it may not have been possible before.
func (s *Engine) Keep() {
	s.keeping.Lock()
	defer s.keeping.Unlock()
	now := s.keep(s.Unsaved())
	s.mu.Lock()
	defer s.mu.Unlock()
	s.kept = now
}

func (s *Engine) keep(text []byte, origin int) kept {
	where, err := s.storage.Keep(text, origin)
	if err != nil {
		return kept{Wrong: err.Error()}
	}
	return kept{Where: where}
}

// leftOver is what earlier pages left.
func (s *Engine) leftOver() []left {
	all := []left{}
	for _, l := range s.storage.Left() {
		all = append(all, left{l.ID, l.Says})
	}
	return all
}

// decide takes up what an earlier page left, as a step that can be undone, or
// throws it away. What is taken up is kept anew before the old file goes.
func (s *Engine) decide(ctx context.Context, at *workbench.Bench, q request) (string, error) {
	for _, l := range s.storage.Left() {
		if l.ID != q.Left {
			continue
		}
		if !q.Take {
			return "thrown away", s.storage.Forget(l.ID)
		}
		if err := at.Load(ctx, l.Text, s.storage.TakenUp(l.ID),
			"what was left unsaved"); err != nil {
			return "", err
		}
		const said = "taken up: this is what was left unsaved; undo brings back what was here"
		if _, err := s.storage.Keep(unsaved(at), at.Origin()); err != nil {
			return said, nil // and it stays where it is
		}
		if err := s.storage.Forget(l.ID); err != nil {
			return said + "; where it was kept: " + screen.Short(err.Error()), nil
		}
		return said, nil
	}
	return "", brief.Problems{{What: "this has been decided already",
		Hint: "another window may have done so"}}
}
