package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/plan"
)

var planCommand = &command{
	name:    "plan",
	operand: "BRIEF",
	line:    "work out a set of towels: stripes, drawings, yarn, warp",
	about: `Reads a brief and works out the whole set: warp stripes and weft blocks in whole
threading units, both faces of every piece, how well the pattern shows, the
length of warp and the yarn by colour. BRIEF is a file, or - for standard input;
without one the brief that comes with the program is planned.

The folder of the plan holds plan.json (every number), plan.svg (the whole set on
a sheet), packet.html (the sheets for the loom: shopping, winding, threading,
weaving, finishing; to print or to open on a tablet) and yarn.csv (for a
spreadsheet); and for each piece piece-01.svg (its sheet), piece-01-face.png and
piece-01-back.png (the finished piece as it looks), piece-01-face-threads.png and
piece-01-back-threads.png (a pixel for every crossing of two threads, hems
unfolded, for other programs). It appears whole or not at all. The folder of an
earlier plan is replaced if it is as the program wrote it, which it
knows by a list of sums in it, .stripesong-files. Anything else in the way, or
anything in it that was added or changed, is an error. A file saved into it while
it is being replaced is kept, and named; what another program goes on writing into
one that it held open all the while may be lost.

Of every piece is printed: picks and lengths; under "differs", how far it is from
the piece most like it (mean dE00: the difference in colour, 1 being just seen,
on average over their faces laid one on the other); and under "at 2 m" how plainly
the faintest combination of its colours shows from there.`,
	examples: []example{
		{"stripesong plan", "the brief that comes with the program, to see what it does"},
		{"stripesong plan towels.toml", "a brief of your own, into a folder named after its title"},
		{"stripesong plan towels.toml --out first-try --units in", "into the folder first-try, lengths in inches and yards"},
		{"stripesong plan towels.toml --pieces 4 --warp-rhythm fibonacci --terms 5 --mirror", "four pieces, and another rhythm in the warp"},
		{"stripesong plan towels.toml --weft-rhythm euclid --accents 5 --of 13 --seed 3", "another rhythm for the pieces that have none of their own"},
		{"stripesong plan towels.toml --write-runs by-hand.toml", "the same set with all runs written out, to change one by hand"},
		{"stripesong plan towels.toml --refit --write-runs refitted.toml", "after calibrate: runs written by hand brought back to the size asked for"},
		{"stripesong plan towels.toml --json", "the plan for another program; no files"},
	},
	exits: [3]string{
		"the plan was made; it may carry warnings",
		"",
		"a mistake in the brief or on the command line, or something failed; nothing was written",
	},
	prepare: func(f *flags) work {
		p := newPlanning(f)
		return p.run
	},
}

// planning is one run of plan.
type planning struct {
	overrides
	out, runs value
	hold      yes
	refit     yes
	json      yes

	notHeld []int // pieces that --hold leaves as they are, from 0
}

func newPlanning(f *flags) *planning {
	p := &planning{out: value{kind: "DIR", check: anyText}, runs: value{kind: "FILE", check: anyText}}
	f.group("Flags", "")
	f.add("out", "the folder to write (default: one named after the title)", &p.out)
	f.addYes("json", "print the plan as JSON and nothing else; write files only with --out", &p.json)
	f.add("write-runs", "also write the brief with every sequence written out as runs, to edit by hand; FILE must be new", &p.runs)
	f.addYes("hold", "with --write-runs: hold the pieces, so that each stays whatever else changes (one with a length of its own keeps that)", &p.hold)
	f.addYes("refit", "scale runs written by hand to the size the brief asks for, and say so; BRIEF stays, --write-runs writes them", &p.refit)
	p.declare(f)
	return p
}

func (p *planning) run(w *world, operand string) error {
	s, err := w.open(operand)
	if err == nil && bool(p.refit) {
		s, err = p.refitted(w, s)
	}
	if err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	shown := w.progress()
	defer shown.stop()
	made, err := w.reckon(ctx, s, p.all(), shown)
	if err != nil {
		return err
	}
	dir := p.folder(made)
	var last step
	if bool(p.hold) && !p.runs.given {
		return mistake{what: "--hold goes with --write-runs", hint: "name the file with --write-runs FILE"}
	}
	if p.runs.given {
		text, err := p.withRuns(ctx, s, made, dir, shown)
		if err != nil {
			return err
		}
		last = p.writeRuns(text)
	}
	replaced := s.replaces(dir)
	kept, err := p.put(ctx, s, dir, made, shown, last)
	shown.stop()
	w.tellKept(kept)
	if err != nil {
		return err
	}
	if dir != "" && replaced != "" {
		fmt.Fprintf(w.err, "stripesong: note: %q held the plan of %q, which this one replaces; --out DIR keeps plans apart\n", dir, replaced)
	}
	return p.answer(w, s, made, dir)
}

// put writes the folder, if there is to be one, and the runs with it.
func (p *planning) put(ctx context.Context, s *source, dir string, made *plan.Plan, shown *progress, last step) (kept []string, err error) {
	switch {
	case dir != "":
		return writeFolder(ctx, s, dir, made, shown, last)
	case last != nil:
		_, err = last()
	}
	return nil, err
}

// folder is where files go; "" for nowhere.
func (p *planning) folder(made *plan.Plan) string {
	switch {
	case p.out.given:
		return p.out.text
	case bool(p.json):
		return ""
	}
	return folder.Name(made.Title)
}

func (p *planning) answer(w *world, s *source, made *plan.Plan, dir string) error {
	if err := p.show(w, s, made, dir); err != nil || !p.runs.given {
		return err
	}
	p.tellRuns(w, made)
	return nil
}

// tellRuns says where the runs were written, and which pieces are not held there.
func (p *planning) tellRuns(w *world, made *plan.Plan) {
	var to io.Writer = w.out
	before := ""
	if p.json {
		to, before = w.err, "stripesong: "
	}
	fmt.Fprintf(to, "%swrote %s: the brief with its sequences written out\n", before, screen.Visible(p.runs.text))
	if len(p.notHeld) == 0 {
		return
	}
	names := make([]string, len(p.notHeld))
	for i, n := range p.notHeld {
		names[i] = made.Called(n)
	}
	fmt.Fprintf(to, "%snot held, since their runs set a length of their own: %s\n",
		before, screen.Visible(strings.Join(names, ", ")))
}

func (p *planning) show(w *world, s *source, made *plan.Plan, dir string) error {
	if p.json {
		if s.builtIn() {
			fmt.Fprintf(w.err, "stripesong: no brief given: this is %s\n", s.name)
		}
		return screen.WriteJSON(w.out, made)
	}
	return w.summary(made, s, dir)
}
