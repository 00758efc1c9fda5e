package main

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/palette"
	"stripesong/sequence/contrast"
	"stripesong/sequence/plan"
)

// How much of a report is printed unless all is asked for.
const (
	mostColours = 15
	mostGrounds = 3
	mostEdges   = 6
	mostOptions = 5
)

// contrastPrinter prints a report for people.
type contrastPrinter struct {
	*printer
	report *contrast.Report
	from   string // how far away
}

func newContrastPrinter(w *world, made *plan.Plan, r *contrast.Report,
	from string) *contrastPrinter {
	from = cmp.Or(strings.TrimSpace(from), made.Distance(r.DistanceM))
	return &contrastPrinter{printer: newPrinter(w, made), report: r, from: from}
}

// colours answers the question: a line for each pattern colour, what shows best
// on the ground most used first.
func (p *contrastPrinter) colours(all bool) {
	r := p.report
	p.paragraph(fmt.Sprintf("What shows on this warp (%s) from %s, %s:", visibleNames(r.Warp),
		p.from, toWhom(r)))
	grounds := r.Grounds[:min(len(r.Grounds), mostGrounds)]
	t := table{left: map[int]bool{}}
	heading := []string{"  as pattern"}
	for i, g := range grounds {
		heading = append(heading, "on "+screen.Visible(g))
		t.left[i+1] = true
	}
	for i := range 2 {
		t.left[len(heading)+i] = true
	}
	t.add(append(heading, "", "best on")...)
	patterns := p.ranked()
	shown := len(patterns)
	if !all {
		shown = min(shown, mostColours)
	}
	for _, name := range patterns[:shown] {
		t.add(p.colourRow(name, grounds)...)
	}
	for i, l := range t.lines() {
		if i > 0 {
			l = p.mixed(p.report.PairOf(grounds[0], patterns[i-1])) + l
		}
		p.line(l)
	}
	if left := len(patterns) - shown; left > 0 {
		p.line(fmt.Sprintf("  and %d more colours (--all)", left))
	}
	p.indented(2, "* in the plan. The number is how far pattern and ground areas differ in "+
		"lightness (L*), over the warp colour where it is least. On the back they change places. "+
		"Colours on a screen are not yarn: weave a sample.")
	if open := p.report.LeftOpen(); open != "" {
		p.indented(2, "A range, such as clear to strong, is "+open+".")
	}
}

// toWhom names the sight, or the sights of which the worst counts.
func toWhom(r *contrast.Report) string {
	if len(r.Sights) == 1 {
		return "for " + r.SightsInWords()
	}
	return "for the eyes that see it least: " + r.SightsInWords()
}

// ranked is all pattern colours as they show on the first ground.
func (p *contrastPrinter) ranked() (names []string) {
	for _, pair := range p.report.Pairs {
		if pair.Ground == p.report.Grounds[0] {
			names = append(names, pair.Pattern)
		}
	}
	return names
}

func (p *contrastPrinter) colourRow(name string, grounds []string) []string {
	row := []string{screen.Visible(name)}
	for _, g := range grounds {
		row = append(row, p.cell(p.report.PairOf(g, name)))
	}
	best := slices.IndexFunc(p.report.Pairs, func(pair contrast.Pair) bool {
		return pair.Pattern == name && pair.Ground != name
	})
	if best < 0 { // there is only one colour
		return append(row, "", "")
	}
	return append(row, side(p.report.PairOf(grounds[0], name)),
		screen.Visible(p.report.Pairs[best].Ground))
}

// side tells whether pattern areas are lighter or darker than ground areas.
func side(p contrast.Pair) string {
	switch {
	case p.DeltaL > 0:
		return "lighter"
	case p.DeltaL < 0:
		return "darker"
	}
	return ""
}

func (p *contrastPrinter) cell(pair contrast.Pair) string {
	mark := ""
	if pair.Meets {
		mark = "*"
	}
	return fmt.Sprintf("%s %.1f%s", p.report.Words(pair), math.Abs(pair.DeltaL), mark)
}

// mixed shows the two mixtures side by side, where there are colours, over the
// warp colour that decides.
func (p *contrastPrinter) mixed(pair contrast.Pair) string {
	if p.paint == screen.Plain {
		return "  "
	}
	for _, c := range p.report.Combos(pair) {
		if c.Warp == pair.Warp {
			return p.paint.Strip([]palette.RGB{c.OnRGB, c.OffRGB})
		}
	}
	return "  "
}

func (p *contrastPrinter) paragraph(text string) {
	for _, l := range screen.Wrap(text, p.columns) {
		p.line(p.paint.Strong(l))
	}
}

func visibleNames(names []string) string { return screen.Visible(strings.Join(names, ", ")) }

// sides prints which side of each piece is the lighter.
func (p *contrastPrinter) sides() {
	t := table{left: map[int]bool{5: true}}
	t.add("which side is lighter", "face L*", "back L*", "pattern: face", "back", "")
	pieces := p.report.Pieces
	shown := p.shown(len(pieces))
	for _, s := range pieces[:shown] {
		t.add(sideRow("  "+screen.Visible(s.Name), s)...)
	}
	if len(pieces) > 1 {
		t.add(sideRow("  the whole set", p.report.Set)...)
	}
	p.line("")
	for _, l := range t.lines() {
		p.line(l)
	}
	p.more(len(pieces)-shown, "pieces")
	for _, s := range pieces[:shown] {
		for _, o := range s.More {
			p.indented(4, fmt.Sprintf("the sides of %q would differ more %s", s.Name, o.Words()))
		}
	}
}

func sideRow(name string, s contrast.Sides) []string {
	return []string{name, fmt.Sprintf("%.1f", s.Face.MeanL), fmt.Sprintf("%.1f", s.Back.MeanL),
		fmt.Sprintf("%.0f %%", 100*s.Face.PatternShare),
		fmt.Sprintf("%.0f %%", 100*s.Back.PatternShare), s.Words}
}

// edges prints how neighbouring warp stripes show, what is weakest first.
func (p *contrastPrinter) edges(all bool) {
	edges := slices.DeleteFunc(slices.Clone(p.report.Edges), func(e contrast.Edge) bool {
		return !e.Meets
	})
	if len(edges) == 0 {
		return
	}
	slices.SortStableFunc(edges, func(a, b contrast.Edge) int {
		return cmp.Compare(math.Abs(a.SeenL), math.Abs(b.SeenL))
	})
	p.line("")
	p.paragraph("Where warp stripes meet, the faintest first:")
	shown := len(edges)
	if !all {
		shown = min(shown, mostEdges)
	}
	for _, e := range edges[:shown] {
		p.indented(2, fmt.Sprintf("%s: %s %.1f for %s", edgeWords(e), e.Words(), math.Abs(e.SeenL),
			e.Vision.Eyes()))
	}
	if left := len(edges) - shown; left > 0 {
		p.line(fmt.Sprintf("  and %d more (--all)", left))
	}
}

func edgeWords(e contrast.Edge) string {
	if e.Pattern == "" {
		return fmt.Sprintf("%q beside %q, with plain ground %q", e.Left.Warp, e.Right.Warp,
			e.Ground)
	}
	over, under := e.Left.Warp, e.Right.Warp // where the pattern covers, and where it lies behind
	if e.Left.State == plan.Behind {
		over, under = under, over
	}
	return fmt.Sprintf("%q over %q and behind %q, with ground %q", e.Pattern, over, under, e.Ground)
}
