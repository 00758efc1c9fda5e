package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"slices"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/midway"
	"stripesong/sequence/plan"
)

var midwayCommand = &command{
	name:    "midway",
	operand: "BRIEF PROGRESS",
	most:    2,
	line:    "plan the rest of a set that is partly woven",
	about: `Plans the rest of a set that is partly woven. PROGRESS is a file that says how many
pieces are woven and what is left of warp and yarn; --template prints one to fill in.
Measure at the end of a piece, under tension, and weigh yarn without its cone. The
answer says how many pieces of what length the rest gives, whether your figures
contradict the plan, and up to three ways to go on, each planned through; where warp
is left over, one piece more is among them. --take N --out FILE writes the brief for the rest; BRIEF itself is not changed.`,
	example: example{"stripesong midway towels.toml progress.toml --take 2 --out rest.toml",
		"go on by the second way"},
	exits: [3]string{"there is a way to weave the rest", "the rest gives no piece",
		failure},
	prepare: func(f *flags) work {
		m := newMidway(f)
		return m.run
	},
}

// midwaying is one run of midway.
type midwaying struct {
	taking
	out            value
	json, template yes
}

func newMidway(f *flags) *midwaying {
	m := &midwaying{taking: newTaking(), out: value{kind: "FILE", check: anyText}}
	f.group("Flags", "")
	f.add("take", "write the brief for the rest, by way N", &m.number)
	f.add("out", "with --take: the new file to write", &m.out)
	f.add("listed", "with --take: refuse if a file has changed since", &m.listed)
	f.addYes("json", "print JSON and nothing else", &m.json)
	f.addYes("template", "print a file of progress to fill in", &m.template)
	return m
}

const progressHint = "\"stripesong midway BRIEF --template\" prints one to fill in"

func (m *midwaying) run(w *world, operand string) error {
	if err := m.check(); err != nil {
		return err
	}
	if m.template {
		return m.print(w, operand)
	}
	switch len(w.operands) {
	case 0:
		return mistake{what: "name the brief and the file of progress", hint: progressHint}
	case 1:
		return mistake{what: "name the file of progress after the brief", hint: progressHint}
	}
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	at, progress, err := w.progressOf(w.operands[1])
	if err != nil {
		return err
	}
	b, err := s.parse(nil)
	if err != nil {
		return err
	}
	ctx, shown, stop := w.working()
	defer stop()
	shown.stage("planning the brief as it is")
	p, err := plan.Make(ctx, b)
	if err != nil {
		return s.named(interrupted(err))
	}
	shown.stage("looking for ways to weave the rest")
	a, err := midway.Make(ctx, s.changeable(), b, p, progress)
	if err != nil {
		return midwayProblem(ctx, at, err)
	}
	shown.stop()
	if m.number.given {
		return m.take(w, s, at, a)
	}
	return m.answer(w, s, at, b, a)
}

// midwayProblem is an error of the reckoning, with the name of the file of progress where
// it has none.
func midwayProblem(ctx context.Context, at *source, err error) error {
	if ctx.Err() != nil {
		return interrupted(ctx.Err())
	}
	return at.named(err)
}

// check refuses flags that don't go together.
func (m *midwaying) check() error {
	switch {
	case m.number.given && !m.out.given:
		return mistake{what: "--take needs a file to write",
			hint: "name a new one: --take " + m.number.text + " --out rest.toml"}
	case m.out.given && !m.number.given:
		return mistake{what: "--out is for --take", hint: "add --take N, the number of a way"}
	}
	return m.paired("add --take N, the number of a way")
}

// print prints the template, in the units of a brief if one is named.
func (m *midwaying) print(w *world, operand string) error {
	if len(w.operands) > 1 {
		return mistake{what: fmt.Sprintf("--template takes no file of progress, but there is %q",
			w.operands[1]), hint: progressHint}
	}
	units := "cm"
	if operand != "" {
		s, err := w.open(operand)
		if err != nil {
			return err
		}
		b, err := s.parse(nil)
		if err != nil {
			return err
		}
		units = b.Units
	}
	_, err := w.out.Write(brief.ProgressTemplate(units))
	return err
}

// progressOf opens and reads a file of progress; a brief in its place is told from one.
func (w *world) progressOf(name string) (*source, *brief.Progress, error) {
	s, err := w.open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil, mistake{what: fmt.Sprintf("there is no file %q", name), cause: err,
			hint: nearestFile(name, progressHint)}
	case err != nil:
		return nil, nil, err
	case looksLikeBrief(s.text):
		return nil, nil, mistake{what: fmt.Sprintf("%q looks like a brief", name),
			hint: "the brief comes first, the file of progress after it; " + progressHint}
	}
	at, err := brief.ParseProgress(s.name, s.text)
	return s, at, s.named(err)
}

// stampOf stands for both texts as they were when the ways were listed.
func stampOf(s, at *source) string {
	sum := sha256.Sum256(slices.Concat([]byte(s.stamp()), at.text))
	return hex.EncodeToString(sum[:3])
}

// take writes the brief for the rest.
func (m *midwaying) take(w *world, s, at *source, a *midway.Answer) error {
	list := "list them again: stripesong midway " + shellWord(s.name) + " " + shellWord(at.name)
	if m.listed.given && m.listed.text != stampOf(s, at) {
		return mistake{what: fmt.Sprintf("%q or %q has changed since the ways were listed", s.name,
			at.name), hint: list}
	}
	n, err := m.chosen(len(a.Ways), "way", list)
	if err != nil {
		return err
	}
	chosen := &a.Ways[n]
	if err := apartFromShelf(s, m.out.text); err != nil {
		return err
	}
	if err := createText(m.out.text, "--out FILE", chosen.Text()); err != nil {
		return err
	}
	fmt.Fprintf(w.out, "taken: %s\n", screen.Visible(chosen.What))
	fmt.Fprintf(w.out, "wrote the brief for the rest into %s; go on with: stripesong plan %s\n",
		screen.Visible(m.out.text), screen.Visible(shellWord(m.out.text)))
	return nil
}
