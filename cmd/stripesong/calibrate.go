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
	line:    "work out draw-in, take-up and shrinkage from measurements",
	about: `Works out draw-in, take-up, shrinkage and weft from what you measured on
a woven set (widths, lengths, yarn used, warp left over), with the margin of error
of each, beside what the brief has. From a washed sample (crops of one photo, or the
width of a float) it learns how wide the yarn lies and how far light spreads in it.
MEASURED is a file; --template prints one to fill in (in Windows PowerShell, save it
with | Out-File -Encoding utf8 FILE). --write puts the results into BRIEF and keeps
the brief as it was beside it. If the program would then choose other pieces, it
asks for --hold or --anew.`,
	example: example{"stripesong calibrate towels.toml measured.toml --write",
		"write the results into the brief"},
	exits: [3]string{"the percentages were worked out", "",
		"a mistake, or measurements that contradict one another"},
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
	f.add("write", "write the results into BRIEF, or into a copy", &c.write).
		NoOptDefVal = leftOut
	c.others.declare(f, "with --write")
	f.addYes("json", "print JSON and nothing else", &c.json)
	f.addYes("template", "print a file of measurements to fill in", &c.template)
	f.add("units", "with --template: the units of its examples", &c.units)
	return c
}

func (c *calibrating) run(w *world, operand string) error {
	if c.template {
		if len(w.operands) > 0 {
			return mistake{what: fmt.Sprintf("--template takes no file, but there is %q",
				w.operands[0]), hint: "stripesong calibrate --template > FILE"}
		}
		_, err := w.out.Write(brief.MeasuredTemplateIn(c.units.text))
		return err
	}
	if c.units.given {
		return mistake{what: "--units goes with --template",
			hint: "an answer is told in the units of the brief"}
	}
	if err := c.others.check(c.write.given, "add --write, or --write=FILE"); err != nil {
		return err
	}
	name, measured := "", operand
	switch len(w.operands) {
	case 0:
		return mistake{what: "name the file of measurements",
			hint: "\"stripesong calibrate --template\" prints one to fill in"}
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
		return mistake{what: "there is no brief to write the results into",
			hint: "name it before the measurements, or write a new one with --write=FILE"}
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
	ctx, shown, stop := w.working()
	defer stop()
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
