package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/cmd/stripesong/whole"
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/contrast"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/svg"
)

var contrastCommand = &command{
	name:    "contrast",
	operand: "BRIEF",
	line:    "say which colours will show on this warp, and what would help",
	about: `Works out how plainly each pattern colour would show on each ground over
this warp, seen from across the table by the eyes that see it least, and what would
help where that is too little. --take N writes number N of that into BRIEF and keeps
the brief as it was beside it. For the words see "stripesong help grades".`,
	example: example{"stripesong contrast towels.toml --sight deutan", "for green-blind eyes"},
	exits:   [3]string{"the answer was given", "", failure},
	prepare: func(f *flags) work {
		c := newContrasting(f)
		return c.run
	},
}

// contrasting is one run of contrast.
type contrasting struct {
	overrides
	distance, sight, shelf, svg, out value
	taking
	all, json yes
}

func newContrasting(f *flags) *contrasting {
	c := &contrasting{
		distance: value{kind: "LENGTH", check: func(s string) error {
			_, err := distanceM(s)
			return err
		}},
		sight: value{kind: "WORD", words: sightWords(), check: func(s string) error {
			_, err := sights(s)
			return err
		}},
		shelf: value{kind: "FILE", check: anyText}, svg: value{kind: "FILE", check: anyText},
		out: value{kind: "DIR", check: anyText},
	}
	f.group("Flags", "")
	f.add("distance", "seen from, as in \"5 m\" or \"5 yd\" (default: 2 m)", &c.distance)
	f.add("sight", "normal, protan, deutan or worst (default: worst)", &c.sight)
	f.add("shelf", "a file of more yarns and colours to choose from", &c.shelf)
	c.taking = newTaking()
	c.taking.declare(f, "write suggestion N into BRIEF")
	f.addYes("all", "list every colour, not only the best", &c.all)
	f.addYes("json", "print JSON and nothing else", &c.json)
	f.add("svg", "draw the mixtures to this file", &c.svg)
	f.add("out", "draw them to contrast.svg in this folder", &c.out)
	c.overrides.declare(f)
	return c
}

// nearestM and farthestM bound the distances from which cloth is looked at, in metres.
const nearestM, farthestM = 0.05, 100

// distanceM reads a distance in metres from a length.
func distanceM(text string) (float64, error) {
	if plainNumber(text) == nil {
		return 0, mistake{what: text + " has no unit",
			hint: fmt.Sprintf("write %q or %q", text+" m", text+" yd")}
	}
	length, err := measure.ParseLength(text)
	if err != nil {
		return 0, err
	}
	m := exact.Float(exact.Over(length.MM, exact.Whole(1000)))
	if m < nearestM || m > farthestM {
		return 0, mistake{what: fmt.Sprintf("%q is not from 5 cm to 100 m", text),
			hint: "write it as in \"2 m\""}
	}
	return m, nil
}

// sightWords are all that can be said of sight; the first stands for all.
func sightWords() []string {
	words := []string{"worst"}
	for _, s := range palette.Sights {
		words = append(words, s.String())
	}
	return words
}

// sights reads which sights count; nil stands for all.
func sights(text string) ([]palette.Sight, error) {
	for _, s := range palette.Sights {
		if text == s.String() {
			return []palette.Sight{s}, nil
		}
	}
	if known := sightWords(); text != known[0] {
		return nil, mistake{what: fmt.Sprintf("%q is none of %s", text, strings.Join(known, ", ")),
			hint: nearestOr(text, known, "")}
	}
	return nil, nil
}

func (c *contrasting) question() contrast.Question {
	var q contrast.Question
	if c.distance.given {
		q.DistanceM, _ = distanceM(c.distance.text) // checked when it was read
	}
	if c.sight.given {
		q.Sights, _ = sights(c.sight.text)
	}
	return q
}

func (c *contrasting) run(w *world, operand string) error {
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	if err := c.mayTake(s); err != nil {
		return err
	}
	ctx, shown, stop := w.working()
	defer stop()
	made, report, err := c.reckon(ctx, s, shown)
	if err != nil {
		return interrupted(err)
	}
	if c.number.given {
		return c.take(ctx, w, s, report, shown)
	}
	if err := c.draw(report); err != nil {
		return err
	}
	shown.stop()
	return c.answer(w, s, made, report)
}

func (c *contrasting) reckon(ctx context.Context, s *source,
	shown *progress) (*plan.Plan, *contrast.Report, error) {
	shown.stage("working out what shows")
	options := brief.Options{Shelf: s.shelf, Set: c.overrides.all()}
	if c.shelf.given {
		text, err := readFile(c.shelf.text)
		if err != nil {
			return nil, nil, unreadable(c.shelf.text, shelfHint, err)
		}
		options.More = []brief.Shelf{{Name: c.shelf.text, Text: text}}
	}
	b, err := brief.Parse(s.name, s.text, options)
	if err == nil {
		settleFor(b)
	}
	if err != nil {
		return nil, nil, s.named(err)
	}
	made, err := plan.Make(ctx, b)
	if err != nil {
		return nil, nil, err
	}
	report, err := contrast.Make(ctx, b, made, c.question())
	return made, report, err
}

// folder makes the folder for contrast.svg; undo takes away what it made.
func (c *contrasting) folder() (undo func(), err error) {
	dir := c.out.text
	if dir == "-" {
		return nil, notAFolder()
	}
	if info, missing := os.Stat(dir); missing == nil && !info.IsDir() {
		return nil, mistake{what: fmt.Sprintf("%q is a file", dir),
			hint: "--out DIR names a folder, and --svg FILE a file"}
	}
	undo, err = whole.MakeFolders(dir)
	if inside := (&whole.InsideError{}); errors.As(err, &inside) {
		return nil, insidePlan(dir, "--out DIR", inside)
	}
	if err != nil {
		return nil, mistake{what: fmt.Sprintf("can't make the folder %q: %s", dir, plainly(err)),
			cause: err, hint: "name another with --out DIR"}
	}
	return undo, nil
}

// draw writes contrast.svg where it was asked for.
func (c *contrasting) draw(report *contrast.Report) error {
	if c.svg.given {
		return writeDrawing(c.svg.text, "--svg FILE", "contrast", func(to io.Writer) error {
			return svg.Contrast(to, report)
		})
	}
	if !c.out.given {
		return nil
	}
	undo, err := c.folder()
	if err != nil {
		return err
	}
	err = writeDrawing(filepath.Join(c.out.text, "contrast.svg"), "--out DIR", "contrast",
		func(to io.Writer) error { return svg.Contrast(to, report) })
	if err != nil {
		undo()
	}
	return err
}

func (c *contrasting) answer(w *world, s *source, made *plan.Plan, report *contrast.Report) error {
	if c.json {
		return report.WriteJSON(screen.PlainWriter{To: w.out})
	}
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given: this is about %s\n", s.name)
	}
	p := newContrastPrinter(w, made, report, c.distance.text)
	p.colours(bool(c.all))
	p.width()
	p.mends()
	p.howToTake(s, c)
	p.sides()
	p.edges(bool(c.all))
	return nil
}
