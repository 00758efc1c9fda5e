package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"

	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/plan"
)

var planCommand = &command{
	name:    "plan",
	operand: "BRIEF",
	line:    "plan a set of towels: stripes, blocks, drawings, yarn, warp",
	about: `Plans the whole set: stripes and blocks in whole units, both faces of
the cloth, how plainly the pattern shows, the warp and the yarn. BRIEF is a text
file, or - for standard input; without it the built-in brief is planned. The plan is
a folder that holds plan.svg (the set on one sheet), packet.html (sheets for the
loom), pictures and more: see "stripesong help files". For what is printed see
"stripesong help grades".`,
	example: example{"stripesong plan towels.toml --out first-try", "into the folder first-try"},
	exits: [3]string{"the plan was made, perhaps with warnings", "",
		failure},
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
	p := &planning{out: value{kind: "DIR", check: anyText},
		runs: value{kind: "FILE", check: anyText}}
	f.group("Flags", "")
	f.add("out", "the folder to write (default: named after the title)", &p.out)
	f.addYes("json", "print the plan as JSON; write files only with --out", &p.json)
	f.add("write-runs", "write a new brief with every run written out", &p.runs)
	f.addYes("hold", "with --write-runs: hold the pieces (hold = true)", &p.hold)
	f.addYes("refit", "scale runs written by hand to the size asked for", &p.refit)
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
	ctx, shown, stop := w.working()
	defer stop()
	made, err := w.reckon(ctx, s, p.all(), shown)
	if err != nil {
		return err
	}
	dir := p.folder(made)
	var last step
	if bool(p.hold) && !p.runs.given {
		return mistake{what: "--hold goes with --write-runs",
			hint: "name the file with --write-runs FILE"}
	}
	if p.runs.given {
		text, err := p.withRuns(ctx, s, made, dir, shown)
		if err != nil {
			return err
		}
		last = p.writeRuns(text)
	}
	replaced := s.replaces(dir)
	to := planFolder{dir: dir, first: isNew(dir)}
	kept, err := p.put(ctx, s, dir, made, shown, last)
	shown.stop()
	w.tellKept(kept)
	if err != nil {
		return err
	}
	if dir != "" && replaced != "" {
		fmt.Fprintf(w.err, "stripesong: note: %q held the plan of %q, which this one replaces; "+
			"--out DIR keeps plans apart\n", dir, replaced)
	}
	return p.answer(w, s, made, to)
}

// put writes the folder, if there is to be one, and the runs with it.
func (p *planning) put(ctx context.Context, s *source, dir string, made *plan.Plan, shown *progress,
	last step) (kept []string, err error) {
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

func (p *planning) answer(w *world, s *source, made *plan.Plan, to planFolder) error {
	if err := p.show(w, s, made, to); err != nil || !p.runs.given {
		return err
	}
	p.tellRuns(w, made)
	return nil
}

// isNew tells whether there is nothing of that name yet.
func isNew(dir string) bool {
	_, err := os.Lstat(dir)
	return dir != "" && errors.Is(err, fs.ErrNotExist)
}

// tellRuns says where the runs were written, and which pieces are not held there.
func (p *planning) tellRuns(w *world, made *plan.Plan) {
	var to io.Writer = w.out
	before := ""
	if p.json {
		to, before = w.err, "stripesong: "
	}
	fmt.Fprintf(to, "%swrote %s: the brief with its sequences written out\n", before,
		screen.Visible(p.runs.text))
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

func (p *planning) show(w *world, s *source, made *plan.Plan, to planFolder) error {
	if p.json {
		if s.builtIn() {
			fmt.Fprintf(w.err, "stripesong: no brief given: this is %s\n", s.name)
		}
		return screen.WriteJSON(w.out, made)
	}
	return w.summary(made, s, to)
}
