package main

import (
	"fmt"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/plan"
)

var calibrateCommand = &command{
	name:    "calibrate",
	operand: "[BRIEF] MEASURED",
	most:    3, // the third is refused with a reason
	line:    "turn what was measured into draw-in, take-up, shrinkage and weft",
	about: `Reads what was really measured on a set (width in the reed, sizes on the loom and
finished, yarn used, warp left over) and works out the shares that explain it, with
their bounds from the ruler's precision, beside what the brief assumed. MEASURED is
a small file of its own: --template prints one to fill in, and the packet's last
sheet has the same fields. Measurements that contradict one another are refused.
In Windows PowerShell keep the template with | Out-File -Encoding utf8 FILE, since
its > writes UTF-16.

With --write the shares are put into BRIEF, and nothing else in it is touched;
with --write=FILE the changed brief goes to that file, which must be new, and BRIEF
stays as it is. Pieces that [vary] leaves to the program may be chosen otherwise with
other shares; those that are get told, and --hold writes them out as they were.`,
	examples: []example{
		{"stripesong calibrate --template", "a file to fill in; keep it with > measured.toml"},
		{"stripesong calibrate towels.toml measured.toml", "how far off were the brief's shares?"},
		{"stripesong calibrate towels.toml measured.toml --write", "and put the measured ones into it"},
		{"stripesong calibrate towels.toml measured.toml --write=next.toml", "or into a new brief"},
	},
	exits: [3]string{
		"the shares were worked out",
		"",
		"a mistake in a file or on the command line, or measurements that contradict one another; nothing was written",
	},
	prepare: func(f *flags) work {
		c := newCalibrating(f)
		return c.run
	},
}

// calibrating is one run of calibrate.
type calibrating struct {
	write          value
	template, json yes
	hold           yes
	toFile         bool
}

func newCalibrating(f *flags) *calibrating {
	c := &calibrating{write: value{kind: "FILE"}}
	c.write.check = func(text string) error {
		if text == leftOut {
			return nil
		}
		c.toFile = true
		return anyText(text)
	}
	f.group("Flags", "")
	f.add("write", "put the shares into BRIEF, or with =FILE into a copy of it", &c.write).NoOptDefVal = leftOut
	f.addYes("hold", "with --write: write out the pieces that would change, so that they stay", &c.hold)
	f.addYes("json", "print the answer as JSON and nothing else", &c.json)
	f.addYes("template", "print a file of measurements to fill in", &c.template)
	return c
}

func (c *calibrating) run(w *world, operand string) error {
	if c.template {
		if len(w.operands) > 0 {
			return mistake{what: fmt.Sprintf("--template takes no file, but there is %q", w.operands[0]), hint: "stripesong calibrate --template > FILE"}
		}
		_, err := w.out.Write(brief.MeasuredTemplate())
		return err
	}
	if bool(c.hold) && !c.write.given {
		return mistake{what: "--hold holds what new shares would change, and none are written", hint: "add --write, or --write=FILE"}
	}
	name, measured := "", operand
	switch len(w.operands) {
	case 0:
		return mistake{what: "name the file of measurements", hint: "\"stripesong calibrate --template\" prints one to fill in"}
	case 2:
		name, measured = w.operands[0], w.operands[1]
	case 3:
		return c.threeFiles(w.operands)
	}
	s, err := w.open(name)
	if err != nil {
		return err
	}
	if c.write.given && !c.toFile && !s.fromFile() {
		return mistake{what: "there is no brief to write the shares into", hint: "name it before the measurements, or write a new one with --write=FILE"}
	}
	a, b, err := c.reckon(w, s, measured)
	if err != nil {
		return err
	}
	var made *rewriting
	if c.write.given {
		if made, err = c.put(s, a); err != nil {
			return err
		}
	}
	return c.answer(w, s, b, a, made)
}

func (c *calibrating) reckon(w *world, s *source, measured string) (*calibrate.Answer, *brief.Brief, error) {
	text, m, err := c.measurements(w, measured, s)
	if err != nil {
		return nil, nil, err
	}
	b, err := s.parse(nil)
	if err != nil {
		return nil, nil, err
	}
	ctx, stop := interruptible()
	defer stop()
	p, err := plan.Make(ctx, b)
	if err != nil {
		return nil, nil, s.named(interrupted(err))
	}
	a, err := calibrate.Make(b, p, m)
	return a, b, text.named(err)
}

// put writes the shares into the brief, or into a copy of it. With --hold the pieces
// that would be chosen otherwise are written out as they were.
func (c *calibrating) put(s *source, a *calibrate.Answer) (*rewriting, error) {
	ctx, stop := interruptible()
	defer stop()
	r, err := s.rewrite(ctx)
	if err == nil {
		err = r.changeAnyhow(ctx, a.Changes())
	}
	if err == nil && bool(c.hold) {
		if err = r.refused; err == nil {
			err = r.holdOthers(ctx)
		}
	}
	if err != nil {
		return nil, interrupted(err)
	}
	if ctx.Err() != nil {
		return nil, interrupted(ctx.Err())
	}
	if c.toFile {
		return r, createText(c.write.text, "--write=FILE", r.source.text)
	}
	return r, putText(s.name, "--write=FILE", s, r.source.text)
}

func (c *calibrating) answer(w *world, s *source, b *brief.Brief, a *calibrate.Answer, made *rewriting) error {
	if made != nil {
		a.Changed, a.Held = made.numbers(made.changed()), made.numbers(made.held)
	}
	if c.json {
		return writeJSON(w.out, a)
	}
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given: this is about %s\n", s.name)
	}
	t := &table{left: map[int]bool{4: true}}
	t.add("", "measured", "between", "assumed", "")
	for _, share := range a.Shares {
		word := "differs"
		if share.Agrees {
			word = "agrees"
		}
		t.add(share.Key, share.Text(), fmt.Sprintf("%.1f%% and %.1f%%", 100*share.Least, 100*share.Most), fmt.Sprintf("%.1f%%", 100*share.Assumed), word)
	}
	for _, line := range t.lines() {
		fmt.Fprintln(w.out, line)
	}
	for _, share := range a.Shares {
		fmt.Fprintf(w.out, "%s: %s\n", share.Key, screen.Visible(share.From))
	}
	if made != nil {
		path := s.name
		if c.toFile {
			path = c.write.text
		}
		fmt.Fprintf(w.out, "wrote them into %s\n", screen.Visible(path))
		made.tell(w)
	}
	return nil
}
