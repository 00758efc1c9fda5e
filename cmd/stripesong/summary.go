package main

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// planFolder is the folder of a plan; "" for none. The first plan there is told what holds
// for all of them.
type planFolder struct {
	dir   string
	first bool
}

// summary prints a plan so that it fits a screen: what it is, the warp, the
// pieces, the yarn, what to mind and where the files are.
func (w *world) summary(made *plan.Plan, s *source, to planFolder) error {
	newPrinter(w, made).summary(s, to)
	return nil
}

func (p *printer) summary(s *source, to planFolder) {
	p.heading(s)
	p.warp()
	p.pieces()
	p.chosen()
	p.yarn()
	p.mind(s, to.first)
	p.files(to.dir)
}

func (p *printer) heading(s *source) {
	if s.builtIn() {
		p.line("no brief given, so this is the built-in one; \"stripesong new FILE\" writes it")
	}
	pieces := measure.Count(len(p.Pieces), "piece")
	if p.Midway != nil {
		pieces += fmt.Sprintf(", %d woven,", p.Woven())
	}
	rest := fmt.Sprintf(": %s of %s, %s, seed %d", pieces, weave.Spelt(p.Structure),
		measure.FormatCloth(p.GramsPerM2, p.Units), p.Seed)
	title := screen.Cut(screen.Visible(p.Title), max(10, p.columns-screen.Width(rest)))
	p.line(p.paint.Strong(title) + screen.Visible(rest))
}

func (p *printer) length(mm float64) string { return measure.FormatLength(mm, p.Units) }

func (p *printer) warp() {
	w := p.Warp
	selvedges := ""
	if w.FloatingSelvedgeEnds > 0 {
		selvedges = fmt.Sprintf(" + %d floating", w.FloatingSelvedgeEnds)
	}
	if p.Midway != nil {
		p.entry("rest", fmt.Sprintf("%s of the %s left: %s", measure.FormatWarp(w.WoundMM, p.Units),
			p.length(p.Midway.WarpMM), p.makeUp()))
	} else {
		p.entry("warp", measure.FormatWarp(w.WoundMM, p.Units)+" long: "+p.makeUp())
	}
	p.entry("", fmt.Sprintf("%d ends%s, %s wide in the reed, %s finished", w.Ends, selvedges,
		p.length(w.ReedWidthMM), p.length(w.FinishedWidthMM)))
	if p.paint == screen.Plain {
		p.entry("", p.warpInWords())
	} else {
		lead := strings.Repeat(" ", 8) + p.divided() + "  "
		p.line(lead + p.strip(warpShares(w.Runs), max(p.columns-screen.Width(lead), 8)))
	}
}

// divided is how many stripes the warp has, and how much of it each block; "" where it
// has no blocks.
func (p *printer) divided() string {
	shares := plan.SharesInWords(p.Warp.Blocks)
	if shares == "" {
		return ""
	}
	return p.Warp.StripesInWords() + ", " + shares
}

func warpShares(runs []plan.WarpRun) (all []share) {
	for _, r := range runs {
		all = append(all, share{r.Units, r.Colour})
	}
	return all
}

// mostRuns is how many runs of the warp are named one by one, unless all take
// no more than one line more.
const mostRuns = 12

// mostRunLines is how many lines of a terminal they take.
const mostRunLines = 1

// warpInWords says how the width divides and names the stripes.
func (p *printer) warpInWords() string {
	var all []string
	for _, r := range p.Warp.Runs {
		all = append(all, fmt.Sprintf("%s %d %s", r.Block, r.Units, screen.Visible(r.Colour)))
	}
	back := ""
	if half := len(all)/2 + 1; len(all) > 3 && isMirror(all) {
		all, back = all[:half], ", and back again"
	}
	lead := p.divided()
	if lead != "" {
		lead += ": "
	}
	whole := lead + strings.Join(all, ", ") + back
	few := func(n int) string {
		and := " and"
		if back != "" {
			and = ""
		}
		return fmt.Sprintf("%s%s,%s %d more%s", lead, strings.Join(all[:n], ", "), and,
			len(all)-n, back)
	}
	switch {
	case p.rows > 0: // of a terminal
		text := whole
		for n := len(all) - 1; n > 0 && p.entryLines(text) > mostRunLines; n-- {
			text = few(n)
		}
		return text
	case len(all) <= mostRuns || p.entryLines(whole) <= p.entryLines(few(mostRuns))+1:
		return whole
	}
	return few(mostRuns)
}

// isMirror tells whether an odd number of things read the same from both ends.
func isMirror(all []string) bool {
	turned := slices.Clone(all)
	slices.Reverse(turned)
	return len(all)%2 == 1 && slices.Equal(all, turned)
}

// makeUp is what the wound length goes into, in the figures of the packet, which add up to
// it; pieces and the separators between them together.
func (p *printer) makeUp() string {
	var order []string
	sums := make(map[string]float64)
	told := loomwork.MakeUpMM(p.Plan)
	for i, part := range p.Warp.MakeUp {
		what := part.What
		if what == "piece" || what == "separators" {
			what = "pieces"
		}
		if _, known := sums[what]; !known {
			order = append(order, what)
		}
		sums[what] += told[i]
	}
	var words []string
	for _, what := range order {
		if sums[what] > 0 {
			words = append(words, what+" "+loomwork.MakeUpLength(p.Plan, sums[what]))
		}
	}
	return strings.Join(words, ", ")
}

// standing are the notes that hold for every plan. They are in the packet and in
// plan.json, and here only with the first plan in a folder.
var standing = []string{"sample-first", "dye-bleed"}

const standingShort = "colours here are not yarn, and dyes may bleed: sample and wash first"

// minded are the notes of a level that are not of every plan.
func (p *printer) minded(level plan.Level) []plan.Note {
	return slices.DeleteFunc(p.NotesOf(level), func(n plan.Note) bool {
		return slices.Contains(standing, n.Code)
	})
}

// mind prints warnings and notes: in full, or on a terminal a line of each, as many as
// there is room for (a line is left for where the files are, and one for the prompt).
func (p *printer) mind(s *source, first bool) {
	if first {
		p.entry("note", standingShort)
	}
	all := append(p.minded(plan.Warning), p.minded(plan.Remark)...)
	if p.rows == 0 {
		p.notes(all)
		return
	}
	room, cut := p.rows-p.used-2, false
	shown := len(all)
	for i, n := range all {
		cut = cut || screen.Width(n.Message) > p.columns-entryIndent
		if left := room - i - 1; left < 0 || left == 0 && (i+1 < len(all) || cut) {
			shown = i
			break
		}
	}
	for _, n := range all[:shown] {
		p.line(screen.Pad(string(n.Level), entryIndent) +
			screen.Cut(screen.Visible(n.Message), p.columns-entryIndent))
	}
	in := "stripesong check"
	if s.fromFile() {
		in += " " + screen.Visible(shellWord(s.name))
	}
	switch {
	case shown < len(all):
		p.entry("more", fmt.Sprintf("%s: %s", howMany(all[shown:], shown > 0), in))
	case cut:
		p.entry("in full", in)
	}
}

// howMany counts warnings and notes: "1 warning and 2 notes", "2 more notes".
func howMany(all []plan.Note, more bool) string {
	warnings := 0
	for _, n := range all {
		if n.Level == plan.Warning {
			warnings++
		}
	}
	word := ""
	if more {
		word = "more "
	}
	var words []string
	if warnings > 0 {
		words = append(words, measure.Count(warnings, word+"warning"))
	}
	if notes := len(all) - warnings; notes > 0 {
		words = append(words, measure.Count(notes, word+"note"))
	}
	return strings.Join(words, " and ")
}

func (p *printer) files(dir string) {
	if dir != "" {
		p.entry("written", fmt.Sprintf("%s: %d files; begin with plan.svg", screen.Visible(dir),
			len(folder.Files(p.Plan))))
	}
}
