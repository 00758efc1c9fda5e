package main

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/calibrate"
	"stripesong/sequence/fit"
	"stripesong/sequence/measure"
	"stripesong/sequence/midway"
	"stripesong/sequence/plan"
	"stripesong/sequence/remedy"
)

// apartFromShelf refuses a file that would not lie beside the shelf which the brief
// names, since a brief finds its shelf beside it.
func apartFromShelf(s *source, path string) error {
	changed := *s
	changed.dir = filepath.Dir(path)
	if _, err := changed.parse(nil); err != nil {
		return mistake{what: fmt.Sprintf("the brief for the rest could not be read in %q", path),
			cause: err,
			hint:  "a brief that names a shelf is written beside it"}
	}
	return nil
}

// midwayJSON is what midway prints as JSON.
type midwayJSON struct {
	*midway.Answer
	Stamp string `json:"stamp"` // of both texts, for --listed
}

func (m *midwaying) answer(w *world, s, at *source, b *brief.Brief, a *midway.Answer) error {
	stamp := stampOf(s, at)
	if m.json {
		if err := screen.WriteJSON(w.out, midwayJSON{a, stamp}); err != nil {
			return err
		}
	} else {
		p := &midwayPrinter{newPrinter(w, &plan.Plan{Units: b.Units}), a, len(b.Pieces)}
		p.print(s, at, stamp)
	}
	if len(a.Ways) == 0 {
		return errNo
	}
	return nil
}

// midwayPrinter prints an answer for people.
type midwayPrinter struct {
	*printer
	a   *midway.Answer
	all int // pieces of the set
}

func (p *midwayPrinter) print(s, at *source, stamp string) {
	if s.builtIn() {
		p.line("no brief given: this is about " + s.name)
	}
	p.woven()
	p.warpLeft()
	p.shares()
	p.yarnLeft()
	p.line("")
	if len(p.a.Ways) == 0 {
		p.entry("rest", screen.Visible("gives no piece more: "+remedy.Told("", p.a.Nearest)))
		return
	}
	p.line("ways to weave the rest, each planned through:")
	for _, way := range p.a.Ways {
		p.entry(fmt.Sprintf("  %d", way.Number), screen.Visible(p.way(way)))
	}
	if s.fromFile() && at.fromFile() {
		p.entry("",
			fmt.Sprintf("take one: stripesong midway %s %s --take %d --listed %s --out rest.toml",
				screen.Visible(shellWord(s.name)), screen.Visible(shellWord(at.name)),
				p.a.Ways[0].Number, stamp))
	}
}

// woven tells which pieces are woven and how they came out.
func (p *midwayPrinter) woven() {
	var words []string
	for _, one := range p.a.Woven {
		is, planned := p.length(one.WovenMM), p.length(one.PlannedMM)
		text := one.Name + " " + is
		if is != planned {
			text += " (planned " + planned + ")"
		}
		words = append(words, text)
	}
	said := fmt.Sprintf("%d of %d", len(p.a.Woven), p.all)
	if len(words) > 0 {
		said += ": " + strings.Join(words, ", ")
	}
	p.entry("woven", screen.Visible(said))
	if beat := p.a.Beat; beat != nil && !beat.Agrees {
		how := "longer"
		if beat.Longer < 0 {
			how = "shorter"
		}
		p.entry("",
			fmt.Sprintf("the cloth is %.1f %% %s than its tape: %s ground picks instead of %s; "+
				"the pieces to come are planned with that and keep their picks: beat as you did",
				100*math.Abs(beat.Longer), how, beat.Ground, beat.Planned))
	}
}

// warpLeft tells what is left of the warp and what it gives.
func (p *midwayPrinter) warpLeft() {
	w := p.a.Warp
	said := fmt.Sprintf("%s left by your measure, %s by the plan", p.length(w.LeftMM),
		p.length(w.ReckonedMM))
	if !w.Measured {
		said = fmt.Sprintf("%s left by the plan: measure it before you trust it",
			p.length(w.LeftMM))
	}
	said += fmt.Sprintf("; %s of it can't be woven", p.length(w.WasteMM))
	if w.TakesMM > 0 {
		said += fmt.Sprintf("; as planned %s would take %s",
			measure.Count(p.all-len(p.a.Woven), "piece"), measure.FormatWarp(w.TakesMM, p.Units))
	}
	p.entry("warp", said)
	if words := p.gives(p.a.Fit); len(words) > 0 {
		last := len(words) - 1
		if last > 0 {
			words[last] = "or " + words[last]
		}
		p.entry("", "the warp alone is enough for "+strings.Join(words, ", ")+", finished")
	}
}

// gives is what a warp gives, by the number of pieces, as long as they are pieces at all.
func (p *midwayPrinter) gives(f *fit.Answer) (words []string) {
	if f == nil {
		return nil
	}
	for _, row := range f.TradeOff {
		if 3*row.FinishedMM >= f.AskedFinishedMM && len(words) < mostRests {
			words = append(words,
				fmt.Sprintf("%s of %s", measure.Count(row.Pieces, "piece"),
					p.length(row.FinishedMM)))
		}
	}
	return words
}

// mostRests is how many numbers of pieces are told.
const mostRests = 4

// shares tell what the measurements suggest.
func (p *midwayPrinter) shares() {
	for _, s := range p.a.Shares {
		if s.Agrees && s.Most-s.Least > wide {
			continue // it says nothing
		}
		p.entry("share", fmt.Sprintf("%s %s", s.Key, shareWords(s)))
	}
}

// wide is from when on the bounds of a share say little.
const wide = 0.05

func shareWords(s calibrate.Share) string {
	words := fmt.Sprintf("%s measured, between %.1f%% and %.1f%%, the brief has %.1f%%", s.Text(),
		100*s.Least, 100*s.Most, 100*s.Assumed)
	if s.Agrees {
		return words + ": agrees"
	}
	words += ": the rest is planned with what you measured"
	if s.Most-s.Least > wide && s.Key == "cloth.take_up" {
		words += "; what was tied on in front (tied, in [warp]) tells it more closely"
	}
	return words
}

// yarnLeft tells which colours reach as planned.
func (p *midwayPrinter) yarnLeft() {
	t := table{left: map[int]bool{6: true}}
	t.add("yarn", "left", "", "by the plan", "the rest takes", "", "")
	for _, y := range p.a.Yarn {
		left, weight, planned := "?", "", ""
		if y.LeftM != nil {
			left, weight = p.metres(*y.LeftM),
				measure.FormatWeight(float64(*y.LeftM*y.Tex)/1000, p.Units)
		}
		if y.ReckonedM != nil && y.Measured {
			planned = p.metres(*y.ReckonedM)
		}
		t.add("  "+screen.Visible(y.Colour), left, weight, planned, p.metres(y.NeedsM),
			measure.FormatWeight(float64(y.NeedsM*y.Tex)/1000, p.Units), p.reach(y))
	}
	for _, l := range t.lines() {
		p.line(l)
	}
}

// reach says whether a colour reaches as planned.
func (p *midwayPrinter) reach(y midway.Yarn) string {
	switch {
	case y.LeftM == nil:
		return "not known"
	case y.NeedsM == 0:
		return "no longer used"
	case !y.Reaches:
		return p.metres(y.NeedsM-*y.LeftM) + " short"
	case !y.Measured:
		return "enough, not weighed"
	}
	return "enough"
}

// way is a way in a line: what, its pieces, what is left, what it costs.
func (p *midwayPrinter) way(way midway.Way) string {
	words := []string{p.sizes(way.Pieces),
		fmt.Sprintf("warp %s, %s over", measure.FormatWarp(way.TakesMM, p.Units),
			p.length(way.OverMM))}
	return way.What + ": " + strings.Join(append(words, way.Costs...), "; ")
}

// sizes are the pieces of a way, those of one length together.
func (p *midwayPrinter) sizes(pieces []midway.Piece) string {
	var lengths []string
	counts := map[string]int{}
	for _, one := range pieces {
		l := p.length(one.FinishedMM)
		if counts[l] == 0 {
			lengths = append(lengths, l)
		}
		counts[l]++
	}
	var words []string
	for _, l := range lengths {
		words = append(words, fmt.Sprintf("%d of %s", counts[l], l))
	}
	return strings.Join(words, ", ") + " finished"
}
