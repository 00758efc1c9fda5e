package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/instead"
	"stripesong/sequence/measure"
	"stripesong/sequence/yarn"
)

var insteadCommand = &command{
	name:    "instead",
	operand: "BRIEF",
	line:    "compare the plan with one in which a yarn is replaced",
	about: `Replaces a yarn by another, given by its count (--count) or its name in
the brief (--like), and prints both plans side by side: sett and picks, chosen so
that the yarns lie as close as before, then ends, sizes, warp, weight, yarn and what
to buy. Stock of the old yarn no longer counts. --write puts the new yarn into BRIEF
and keeps the brief as it was beside it. Weave a sample before you wind: how close a
yarn likes to lie depends on more than its thickness.`,
	example: example{"stripesong instead towels.toml --yarn linen --count \"16/1 linen\"",
		"a thicker linen"},
	exits: [3]string{"both plans were made", "", failure},
	prepare: func(f *flags) work {
		r := newReplacing(f)
		return r.run
	},
}

// replacing is one run of instead.
type replacing struct {
	yarn, count, like, pack, price, write value
	json                                  yes
	others                                others
	toFile                                bool
}

func newReplacing(f *flags) *replacing {
	r := &replacing{yarn: value{kind: "NAME", check: anyText},
		like: value{kind: "NAME", check: anyText},
		count: value{kind: "TEXT", check: func(text string) error {
			_, err := yarn.Tex(text)
			return err
		}},
		pack: value{kind: "AMOUNT", check: func(text string) error {
			_, err := measure.ParseAmount(text)
			return err
		}},
		price: value{kind: "SUM", check: anyText}, write: value{kind: "FILE"}}
	r.write.check = func(text string) error {
		if text == leftOut {
			return nil
		}
		r.toFile = true
		return anyText(text)
	}
	f.group("Flags", "")
	f.add("yarn", "the yarn to replace (needed if there are several)", &r.yarn)
	f.add("count", "the new yarn, as in \"8/2 cotton\" or \"Nm 28/2\"", &r.count)
	f.add("like", "the new yarn, by its name in the brief or shelf", &r.like)
	f.add("package", "with --count: what one package holds, as in \"225 g\"", &r.pack)
	f.add("price", "with --count: what one package costs, as in 12.50", &r.price)
	f.add("write", "write it into BRIEF, or into a copy", &r.write).NoOptDefVal = leftOut
	r.others.declare(f, "with --write")
	f.addYes("json", "print JSON and nothing else", &r.json)
	return r
}

func (r *replacing) run(w *world, operand string) error {
	if err := r.check(); err != nil {
		return err
	}
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	if r.write.given && !r.toFile && !s.fromFile() {
		return mistake{what: "there is no brief to write into",
			hint: "name one, or write a new one with --write=FILE"}
	}
	b, err := s.parse(nil)
	if err != nil {
		return err
	}
	q, err := r.question(b)
	if err != nil {
		return err
	}
	ctx, shown, stop := w.working()
	defer stop()
	shown.stage("planning it as it is")
	before, err := s.rewrite(ctx, shown.stage)
	if err != nil {
		return interrupted(err)
	}
	shown.stage("planning it with the other yarn")
	a, err := instead.Make(ctx, instead.Source{Name: s.name, Text: s.text, Read: s.reader()}, b,
		before.before, q)
	if err != nil {
		return s.named(interrupted(err))
	}
	if r.write.given {
		err = r.put(ctx, s, before, a)
	}
	shown.stop()
	if err != nil {
		return err
	}
	return r.answer(w, s, before, a)
}

// check refuses flags that don't go together.
func (r *replacing) check() error {
	switch {
	case r.count.given == r.like.given:
		return mistake{what: "the new yarn is not named",
			hint: "give --count \"8/2 cotton\", or --like NAME for another of the brief"}
	case r.like.given && (r.pack.given || r.price.given):
		return mistake{what: "--package and --price go with --count",
			hint: "the yarn that --like names has its own"}
	}
	return r.others.check(r.write.given, "add --write, or --write=FILE")
}

// question is what the flags ask; the yarn is the only one where none is named.
func (r *replacing) question(b *brief.Brief) (instead.Question, error) {
	q := instead.Question{Yarn: r.yarn.text, Count: r.count.text, Like: r.like.text,
		Package: r.pack.text, Price: r.price.text}
	names := make([]string, len(b.Yarns))
	for i, y := range b.Yarns {
		names[i] = y.Name
	}
	if !r.yarn.given {
		if len(names) > 1 {
			return q, mistake{what: "say which yarn is to be replaced",
				hint: "--yarn " + strings.Join(names, ", or --yarn ")}
		}
		q.Yarn = names[0]
	}
	for _, name := range []string{q.Yarn, q.Like} {
		if name != "" && !slices.Contains(names, name) {
			return q, mistake{what: fmt.Sprintf("the brief has no yarn %q", name),
				hint: nearestOr(name, names, "its yarns are: "+strings.Join(names, ", "))}
		}
	}
	return q, nil
}

// put writes the changes into the brief, or into a copy of it.
func (r *replacing) put(ctx context.Context, s *source, made *rewriting, a *instead.Answer) error {
	if err := made.change(ctx, a.Changes); err != nil {
		return interrupted(err)
	}
	if err := made.settle(ctx, r.others, !r.toFile); err != nil {
		return interrupted(err)
	}
	if r.toFile {
		return createText(r.write.text, "--write=FILE", made.source.text)
	}
	return made.put(s.name, "--write=FILE", s)
}

// answer prints both sides.
func (r *replacing) answer(w *world, s *source, made *rewriting, a *instead.Answer) error {
	if r.json {
		return screen.WriteJSON(w.out, a)
	}
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given: this is about %s\n", s.name)
	}
	for _, row := range sideBySide(a) {
		fmt.Fprintln(w.out, row)
	}
	fmt.Fprintln(w.out, "weave a sample before you wind: how close a yarn likes to lie depends "+
		"on more than its thickness")
	if !r.write.given {
		return nil
	}
	path := s.name
	if r.toFile {
		path = r.write.text
	}
	fmt.Fprintf(w.out, "wrote it into %s\n", screen.Visible(path))
	made.tell(w)
	return nil
}

// sideBySide are the rows in three columns, none of them cut.
func sideBySide(a *instead.Answer) []string {
	rows := append([]instead.Row{{What: "", Before: "now", After: "with the new yarn"}},
		a.Rows...)
	what, before := 0, 0
	for _, row := range rows {
		what = max(what, screen.Width(screen.Visible(row.What)))
		before = max(before, screen.Width(screen.Visible(row.Before)))
	}
	lines := make([]string, len(rows))
	for i, row := range rows {
		lines[i] = screen.Pad(screen.Visible(row.What), what) + "  " +
			screen.Pad(screen.Visible(row.Before), before) + "  " + screen.Visible(row.After)
	}
	return lines
}
