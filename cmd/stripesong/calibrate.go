package main

import (
	"fmt"

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

A washed sample tells how the cloth looks: its [sample] table names crops of one
photo (cloth, and yarns wrapped round a card beside it), or the width of a float,
and spread and scatter of the brief come out, with their bounds. What can't be told
is said. Where both are in the brief, contrast is graded without a range.

In Windows PowerShell keep the template with | Out-File -Encoding utf8 FILE, since
its > writes UTF-16.

With --write the shares are put into BRIEF, of which all else stays, and which is
kept as it was in a file beside it; with --write=FILE the changed brief goes to that
file, which must be new. Where pieces that [vary] leaves to the program would be
chosen otherwise with other shares, nothing is written into BRIEF until --hold or
--anew says what is wanted.`,
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
	write, units   value
	template, json yes
	others         others
	toFile         bool
}

func newCalibrating(f *flags) *calibrating {
	c := &calibrating{write: value{kind: "FILE"}, units: unitsValue()}
	c.write.check = func(text string) error {
		if text == leftOut {
			return nil
		}
		c.toFile = true
		return anyText(text)
	}
	f.group("Flags", "")
	f.add("write", "put the shares into BRIEF, or with =FILE into a copy of it", &c.write).NoOptDefVal = leftOut
	c.others.declare(f, "with --write")
	f.addYes("json", "print the answer as JSON and nothing else", &c.json)
	f.addYes("template", "print a file of measurements to fill in", &c.template)
	f.add("units", "with --template: what its examples are in", &c.units)
	return c
}

func (c *calibrating) run(w *world, operand string) error {
	if c.template {
		if len(w.operands) > 0 {
			return mistake{what: fmt.Sprintf("--template takes no file, but there is %q", w.operands[0]), hint: "stripesong calibrate --template > FILE"}
		}
		_, err := w.out.Write(brief.MeasuredTemplateIn(c.units.text))
		return err
	}
	if c.units.given {
		return mistake{what: "--units goes with --template", hint: "an answer is told in the units of the brief"}
	}
	if err := c.others.check(c.write.given, "add --write, or --write=FILE"); err != nil {
		return err
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
	a, err := c.reckon(w, s, measured)
	if err != nil {
		return err
	}
	var made *rewriting
	if c.write.given {
		if made, err = c.put(w, s, a); err != nil {
			return err
		}
	}
	return c.answer(w, s, a, made)
}

func (c *calibrating) reckon(w *world, s *source, measured string) (*calibrate.Answer, error) {
	text, m, err := c.measurements(w, measured, s)
	if err != nil {
		return nil, err
	}
	b, err := s.parse(nil)
	if err != nil {
		return nil, err
	}
	photos, err := text.crops(m)
	if err != nil {
		return nil, text.named(err)
	}
	ctx, stop := interruptible()
	defer stop()
	p, err := plan.Make(ctx, b)
	if err != nil {
		return nil, s.named(interrupted(err))
	}
	a, err := calibrate.Make(b, p, m, photos)
	return a, text.named(err)
}

// put writes the shares into the brief, or into a copy of it.
func (c *calibrating) put(w *world, s *source, a *calibrate.Answer) (*rewriting, error) {
	ctx, stop := interruptible()
	defer stop()
	shown := w.progress()
	defer shown.stop()
	r, err := s.rewrite(ctx, shown.stage)
	if err == nil {
		err = r.changeAnyhow(ctx, a.Changes())
	}
	if err == nil {
		err = r.settle(ctx, c.others, !c.toFile)
	}
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return nil, interrupted(err)
	}
	if c.toFile {
		return r, createText(c.write.text, "--write=FILE", r.source.text)
	}
	return r, r.put(s.name, "--write=FILE", s)
}
