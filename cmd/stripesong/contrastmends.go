package main

import (
	"context"
	"fmt"
	"math"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/contrast"
	"stripesong/sequence/measure"
	"stripesong/sequence/remedy"
)

// enough says that nothing falls short: where ranges reach below what is enough, only as
// reckoned, how weak some may yet be and what would tell.
func (p *contrastPrinter) enough() string {
	const words = "Everything shows%s: %s in the plan, clear or better.%s"
	meeting := measure.Count(p.report.Meeting, "combination")
	if g := p.report.MayFallTo(); g < contrast.Target {
		return fmt.Sprintf(words, ", as far as is known", meeting,
			fmt.Sprintf(" Some may turn out %s: a washed sample tells (\"stripesong calibrate\").",
				g))
	}
	return fmt.Sprintf(words, "", meeting, "")
}

// mends prints what falls short and what would help.
func (p *contrastPrinter) mends() {
	r := p.report
	p.line("")
	if r.Short == 0 {
		p.paragraph(p.enough())
		return
	}
	p.paragraph(fmt.Sprintf("These show too little, of %s in the plan: %d",
		measure.Count(r.Meeting, "combination"), r.Short))
	told := make(map[[2]string]bool)
	for _, m := range r.Mends {
		if key := [2]string{m.Ground, m.Pattern}; !told[key] {
			told[key] = true
			p.mend(m)
		}
	}
	if r.MendsLeft > 0 {
		p.line(fmt.Sprintf("  and %d more, not as bad", r.MendsLeft))
	}
}

func (p *contrastPrinter) mend(m contrast.Mend) {
	hue := ""
	if m.HueOnly {
		hue = "; they differ in hue, not in light and dark"
	}
	p.indented(2, fmt.Sprintf("%q on %q over %q: %s %.1f for %s%s; in %s", m.Pattern, m.Ground,
		m.Warp, m.Range.Or(m.Grade), math.Abs(m.DeltaL), m.Vision.Eyes(), hue, some(m.Pieces)))
	for _, also := range p.report.Mends {
		if also.Ground == m.Ground && also.Pattern == m.Pattern && also.Warp != m.Warp {
			p.indented(4, fmt.Sprintf("over %q: %s %.1f", also.Warp, also.Range.Or(also.Grade),
				math.Abs(also.DeltaL)))
		}
	}
	for _, o := range m.Options[:min(len(m.Options), mostOptions)] {
		p.numbered(o.Number, p.option(o))
	}
	if len(m.Options) == 0 {
		p.indented(6, remedy.Told("", m.Nearest))
	}
}

func (p *contrastPrinter) option(o contrast.Option) string {
	what := o.What()
	if o.Shelf {
		what += " (on the shelf)"
	}
	words := fmt.Sprintf("%s: %s %.1f, %.1f more; %s", what, o.Range.Or(o.Grade),
		math.Abs(o.DeltaL), o.Gain, leaves(o.Short))
	if o.Reaches && !o.Certain {
		words += "; a sample may show that it is not enough"
	}
	if o.ShortM > 0 {
		words += fmt.Sprintf("; %s of it to buy", p.metres(o.ShortM))
	}
	return words
}

func leaves(short int) string {
	if short == 0 {
		return "everything would show well enough"
	}
	return measure.Count(short, "combination") + " would still show too little"
}

// numbered prints a way out after its number.
func (p *contrastPrinter) numbered(number int, text string) {
	lead := fmt.Sprintf("%4d  ", number)
	for _, l := range screen.Wrap(screen.Visible(text), p.columns-8) {
		p.line(lead + l)
		lead = strings.Repeat(" ", 8)
	}
}

// howToTake says how a way out is written into the brief.
func (p *contrastPrinter) howToTake(s *source, c *contrasting) {
	for _, m := range p.report.Mends {
		if len(m.Options) > 0 && s.fromFile() && len(c.overrides.all()) == 0 {
			p.indented(6, fmt.Sprintf("take one: stripesong contrast %s%s --take %d --listed %s",
				shellWord(s.name), c.asked(), m.Options[0].Number, s.stamp()))
			return
		}
	}
}

// asked is the flags that the numbers hang on, as they were given.
func (c *contrasting) asked() (flags string) {
	for _, f := range []struct {
		name string
		value
	}{{"distance", c.distance}, {"sight", c.sight}, {"shelf", c.shelf}} {
		if f.given {
			flags += " --" + f.name + " " + shellWord(f.text)
		}
	}
	return flags
}

// mayTake refuses --take where nothing can be written, and --listed without it.
func (c *contrasting) mayTake(s *source) error {
	if !c.number.given {
		return c.paired("add --take N")
	}
	return c.may(s, c.overrides.all(), "contrast")
}

// take writes one of the ways out into the brief, and keeps the brief as it was beside it.
func (c *contrasting) take(ctx context.Context, w *world, s *source, report *contrast.Report,
	shown *progress) error {
	var all []contrast.Option
	for _, m := range report.Mends {
		all = append(all, m.Options...)
	}
	n, err := c.chosen(len(all), "way out", "list them: stripesong contrast "+shellWord(s.name))
	if err != nil {
		return err
	}
	chosen := all[n]
	if chosen.Shelf && c.shelf.given {
		return mistake{what: fmt.Sprintf("%q stands in %q, which the brief does not name",
			chosen.To, c.shelf.text),
			hint: "copy its [[colour]] and [yarn.*] into the brief, or name the file in it: " +
				"shelf = \"...\""}
	}
	r, err := s.rewrite(ctx, shown.stage)
	if err != nil {
		return interrupted(err)
	}
	shown.stop()
	return r.take(ctx, w, s, chosen.Changes, chosen.What())
}

func (p *contrastPrinter) indented(by int, text string) {
	for i, l := range screen.Wrap(screen.Visible(text), p.columns-by-2) {
		if i == 1 {
			by += 2
		}
		p.line(strings.Repeat(" ", by) + l)
	}
}

// some lists the first few of many names.
func some(names []string) string {
	const few = 4
	quoted := make([]string, 0, few)
	for _, n := range names[:min(len(names), few)] {
		quoted = append(quoted, fmt.Sprintf("%q", n))
	}
	if len(names) > few {
		return fmt.Sprintf("%s and %d more", strings.Join(quoted, ", "), len(names)-few)
	}
	return strings.Join(quoted, ", ")
}
