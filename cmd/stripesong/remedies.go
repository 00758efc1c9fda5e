package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// remedies finds the ways out of what a plan of the brief as it stands warns of.
func (s *source) remedies(ctx context.Context, made *plan.Plan) (*remedy.Answer, error) {
	b, err := s.parse(nil)
	if err != nil {
		return nil, err
	}
	a, err := remedy.Find(ctx, s.changeable(), b, made)
	return a, interrupted(err)
}

// changeable is the brief's text and how a changed one is read.
func (s *source) changeable() remedy.Source {
	return remedy.Source{Name: s.name, Text: s.text, Read: s.reader()}
}

// reader reads a changed text of the brief.
func (s *source) reader() func(text []byte) (*brief.Brief, error) {
	return func(text []byte) (*brief.Brief, error) {
		changed := *s
		changed.text = text
		return changed.parse(nil)
	}
}

// stamp stands for a brief's text, and that of the shelf it names, as they were when
// remedies were listed.
func (s *source) stamp() string {
	sum := sha256.New()
	sum.Write(s.text)
	shelf := func(name string) ([]byte, error) {
		text, err := s.shelf(name)
		sum.Write(text)
		return text, err
	}
	_, _ = brief.Parse(s.name, s.text, brief.Options{Shelf: shelf}) // for what it reads
	return hex.EncodeToString(sum.Sum(nil)[:3])
}

// unchanged refuses to take what was listed of another text.
func (s *source) unchanged(listed value, command string) error {
	if !listed.given || listed.text == s.stamp() {
		return nil
	}
	return mistake{what: fmt.Sprintf("%q, or the shelf it names, has changed since the ways out "+
		"were listed", s.name),
		hint: fmt.Sprintf("list them again: stripesong %s %s", command, shellWord(s.name))}
}

// takable refuses where there is no brief that could be written into as it stands.
func (s *source) takable(set []brief.Override, command string) error {
	switch {
	case !s.fromFile():
		return mistake{what: "there is no file to write a way out into",
			hint: "stripesong " + command + " BRIEF --take N"}
	case len(set) > 0:
		return mistake{what: "a way out is for the brief as it stands",
			hint: "leave out the flags that change it"}
	}
	return nil
}

// refusedWays finds the ways out where the brief has no plan, since the shelf does not
// reach for what is to be chosen within it.
func (s *source) refusedWays(ctx context.Context) (*remedy.Answer, error) {
	b, err := s.parse(nil)
	if err != nil {
		return nil, err
	}
	a, err := remedy.FindRefused(ctx,
		remedy.Source{Name: s.name, Text: s.text, Read: s.reader()}, b)
	return a, interrupted(err)
}

// refused prints ways out of a brief that has no plan for that reason, and gives the
// error back.
func (c *checking) refused(ctx context.Context, w *world, s *source, shown *progress,
	err error) error {
	if !remedy.Refused(err) || len(c.all()) > 0 || bool(c.json) {
		shown.stop()
		return err
	}
	shown.stage("looking for ways out")
	a, failed := s.refusedWays(ctx)
	shown.stop()
	if failed != nil {
		return failed
	}
	w.waysOut(s, &plan.Plan{}, a, "check "+shellWord(s.name))
	return err
}

// takeRefused writes one of the ways out of a refused brief into it.
func (c *checking) takeRefused(ctx context.Context, w *world, s *source, shown *progress) error {
	shown.stage("looking for ways out")
	a, err := s.refusedWays(ctx)
	if err != nil {
		return err
	}
	return c.takeOf(ctx, w, s, &rewriting{about: -1, say: shown.stage, source: s}, a)
}

// waysOut prints the remedies, what has none, and by which command one is taken.
func (w *world) waysOut(s *source, made *plan.Plan, a *remedy.Answer, command string) {
	if len(a.Remedies)+len(a.Unmended) == 0 {
		return
	}
	p := newPrinter(w, made)
	p.line("")
	if len(a.Remedies) > 0 {
		p.line("ways out, each planned through:")
	}
	for _, r := range a.Remedies {
		p.entry(fmt.Sprintf("  %d", r.Number), screen.Visible(remedyWords(r, made)))
	}
	for _, u := range a.Unmended {
		p.entry("  -", screen.Visible(u.Told()))
	}
	if len(a.Remedies) > 0 && s.fromFile() {
		p.entry("", fmt.Sprintf("take one: stripesong %s --take %d --listed %s",
			screen.Visible(command), a.Remedies[0].Number, s.stamp()))
	}
}

// remedyWords is a remedy in a line: what, what it ends, what it costs.
func remedyWords(r remedy.Remedy, before *plan.Plan) string {
	words := r.What
	words += " [" + mendsWords(r) + "]"
	if len(r.Costs) > 0 {
		words += ": " + strings.Join(r.Costs, "; ")
	}
	switch {
	case r.Left > 0:
		words += "; leaves " + measure.Count(r.Left, "warning")
	case r.For != "" && len(before.NotesOf(plan.Warning)) > 1:
		words += "; leaves no warning"
	}
	return words
}

// mendsWords says what a remedy is for.
func mendsWords(r remedy.Remedy) string {
	var ends []string
	for _, m := range r.Mends() {
		word := m.Code
		if m.About != "" {
			word += fmt.Sprintf(" %q", m.About)
		}
		ends = append(ends, word)
	}
	switch {
	case ends == nil && r.Left > 0:
		return "ends all warnings that have a way out"
	case ends == nil:
		return "ends all warnings"
	case r.Lessens:
		ends[0] = "lessens " + ends[0]
	}
	return strings.Join(ends, ", ")
}

// shellWord is a file's name as a shell takes it.
func shellWord(name string) string {
	if strings.Trim(name,
		"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789._-/") == "" {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}

// take writes a remedy into the brief, and keeps the brief as it was beside it.
func (c *checking) take(w *world, s *source) error {
	if err := c.may(s, c.all(), "check"); err != nil {
		return err
	}
	ctx, shown, stop := w.working()
	defer stop()
	r, err := s.rewrite(ctx, shown.stage)
	if remedy.Refused(err) {
		return c.takeRefused(ctx, w, s, shown)
	}
	if err != nil {
		return interrupted(err)
	}
	shown.stage("looking for ways out")
	a, err := s.remedies(ctx, r.before)
	if err != nil {
		return err
	}
	return c.takeOf(ctx, w, s, r, a)
}

// takeOf writes the way out that was asked for; the exit code is as check gives it then.
func (c *checking) takeOf(ctx context.Context, w *world, s *source, r *rewriting,
	a *remedy.Answer) error {
	n, err := c.chosen(len(a.Remedies), "way out",
		"list them: stripesong check "+shellWord(s.name))
	if err != nil {
		return err
	}
	chosen := a.Remedies[n]
	before := cmp.Or(r.before, &plan.Plan{})
	if err := r.take(ctx, w, s, chosen.Changes, remedyWords(chosen, before)); err != nil {
		return err
	}
	return w.verdict(r.source, r.after)
}

// take writes a way out into the brief and says what it was.
func (r *rewriting) take(ctx context.Context, w *world, s *source, changes []brief.Change,
	words string) error {
	if err := r.change(ctx, changes); err != nil {
		return interrupted(err)
	}
	if err := r.put(s.name, "", s); err != nil {
		return err
	}
	fmt.Fprintf(w.out, "taken: %s\n", screen.Visible(words))
	fmt.Fprintf(w.out, "wrote it into %s\n", screen.Visible(s.name))
	r.tell(w)
	return nil
}
