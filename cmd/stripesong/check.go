package main

import (
	"fmt"

	"stripesong/sequence/plan"
)

var checkCommand = &command{
	name:    "check",
	operand: "BRIEF",
	line:    "say whether anything would spoil the cloth; writes no files",
	about: `Works out the same plan as "stripesong plan" and prints its warnings and notes.
Warnings are what would spoil the cloth or stop the weaving: a warp longer than
the board, a colour short, floats that catch, a pattern nobody sees. BRIEF is a
file, or - for standard input; without one the brief that comes with the program
is checked.`,
	examples: []example{
		{"stripesong check towels.toml", "before winding the warp"},
		{"stripesong check towels.toml --pieces 8", "would eight be too many for the board and the shelf?"},
	},
	exits: [3]string{
		"nothing would spoil the cloth; there may be notes",
		"there are warnings",
		"a mistake in the brief or on the command line",
	},
	prepare: func(f *flags) work {
		var o overrides
		f.group("Flags", "")
		o.declare(f)
		return func(w *world, operand string) error { return check(w, operand, &o) }
	},
}

func check(w *world, operand string, o *overrides) error {
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	shown := newProgress(w.err)
	made, err := w.reckon(ctx, s, o.all(), shown)
	shown.stop()
	if err != nil {
		return err
	}
	return w.verdict(s, made)
}

// verdict prints what check found; the answer is no where there are warnings.
func (w *world) verdict(s *source, made *plan.Plan) error {
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given, so this is about %s\n", s.name)
	}
	p := newPrinter(w, made)
	warnings := p.notes(plan.Warning)
	notes := p.notes(plan.Remark)
	if warnings > 0 {
		fmt.Fprintf(w.out, "%s and %s\n", count(warnings, "warning"), count(notes, "note"))
		return errNo
	}
	fmt.Fprintf(w.out, "nothing would spoil the cloth; %s\n", count(notes, "note"))
	return nil
}

// count is a number with its noun.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
