package main

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/folder"
	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// summary prints a plan so that it fits a screen: what it is, the warp, the
// pieces, the yarn, what to mind and where the files are.
func (w *world) summary(made *plan.Plan, s *source, dir string) error {
	newPrinter(w, made).summary(s, dir)
	return nil
}

func (p *printer) summary(s *source, dir string) {
	p.heading(s)
	p.warp()
	p.pieces()
	p.chosen()
	p.yarn()
	p.mind()
	p.files(dir)
}

func (p *printer) heading(s *source) {
	if s.builtIn() {
		p.line("no brief given, so this is " + s.name + "; \"stripesong new FILE\" writes it")
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
	p.entry("warp", fmt.Sprintf("%d ends%s in %s, reed %s, finished %s", w.Ends, selvedges,
		w.StripesInWords(), p.length(w.ReedWidthMM), p.length(w.FinishedWidthMM)))
	divided := plan.SharesInWords(w.Blocks)
	if p.paint == screen.Plain {
		p.entry("", p.warpInWords())
	} else {
		lead := strings.Repeat(" ", 8) + divided + "  "
		p.line(lead + p.strip(warpShares(w.Runs), max(p.columns-screen.Width(lead), 8)))
	}
	if p.Midway != nil {
		p.entry("rest", fmt.Sprintf("%s of the %s left: %s", measure.FormatWarp(w.WoundMM, p.Units), p.length(p.Midway.WarpMM), p.makeUp()))
		return
	}
	p.entry("wound", measure.FormatWarp(w.WoundMM, p.Units)+": "+p.makeUp())
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
	lead := plan.SharesInWords(p.Warp.Blocks)
	if lead != "" {
		lead += ": "
	}
	whole := lead + strings.Join(all, ", ") + back
	few := func(n int) string {
		return lead + strings.Join(all[:n], ", ") + fmt.Sprintf(", and %d more", len(all)-n)
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

// makeUp is what the wound length goes into, pieces and the separators between
// them together.
func (p *printer) makeUp() string {
	var order []string
	sums := make(map[string]float64)
	for _, part := range p.Warp.MakeUp {
		what := part.What
		switch what {
		case "piece", "separators":
			what = "pieces"
		case "retie":
			what = "retying"
		}
		if _, known := sums[what]; !known {
			order = append(order, what)
		}
		sums[what] += part.WoundMM
	}
	var words []string
	for _, what := range order {
		if sums[what] > 0 {
			words = append(words, what+" "+measure.FormatWarpPart(sums[what], p.Units))
		}
	}
	return strings.Join(words, ", ")
}

// mind prints every warning, and the notes where the screen has room for them
// (a line is left for where the files are, and one for the prompt).
func (p *printer) mind() {
	p.notes(plan.Warning)
	lines := p.noteLines(plan.Remark)
	if p.rows == 0 || p.used+lines+2 <= p.rows {
		p.notes(plan.Remark)
	} else if lines > 0 {
		p.entry("notes", p.codes(plan.Remark)+" (in full: stripesong check)")
	}
}

func (p *printer) files(dir string) {
	if dir != "" {
		p.entry("written", fmt.Sprintf("%s: %d files; begin with plan.svg", screen.Visible(dir), len(folder.Files(p.Plan))))
	}
}
