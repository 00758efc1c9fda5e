package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// mostRows is how many pieces or colours a terminal is shown.
const mostRows = 10

// pieces prints a line for each piece: length, what it is most alike to,
// and how its faintest combination shows from across a table.
func (p *printer) pieces() {
	t := table{left: map[int]bool{6: true}}
	t.add("pieces", "picks", "woven", "finished", "time", "differs", "at "+p.FromTable())
	rows := p.shown(len(p.Pieces))
	for i, piece := range p.Pieces[:rows] {
		t.add("  "+p.named(i), fmt.Sprint(piece.Picks), p.length(piece.AsWovenMM()), p.length(p.AsFinishedMM(&piece)),
			weavingTime(piece.Hours), p.differs(i), faintest(piece.Contrast))
	}
	lines := t.lines()
	room := p.columns - 2
	for _, l := range lines {
		room = min(room, p.columns-screen.Width(l)-2)
	}
	widest := p.columns - 2 - room
	for i, l := range lines {
		if i > 0 {
			l = screen.Pad(l, widest) + "  " + p.pattern(p.Pieces[i-1], room)
		}
		p.line(strings.TrimRight(l, " "))
	}
	p.more(len(p.Pieces)-rows, "pieces")
	if p.Set.Hours > 0 {
		p.entry("time", fmt.Sprintf("about %s of weaving in all, at %d picks an hour",
			measure.FormatTime(p.Set.Hours), p.Loom.Pace))
	}
	p.lighter()
}

// named is a piece's name, and whether it is woven already.
func (p *printer) named(piece int) string {
	name := screen.Visible(p.Pieces[piece].Name)
	if p.IsWoven(piece) {
		name += ", woven"
	}
	return name
}

// lighter says in a line which side of each piece is the lighter, the plainest
// first; nothing where the sides pass for the same.
func (p *printer) lighter() {
	pieces := slices.DeleteFunc(slices.Clone(p.Pieces), func(piece plan.Piece) bool { return piece.Lighter == nil })
	slices.SortStableFunc(pieces, func(a, b plan.Piece) int {
		return cmp.Compare(b.Lighter.DeltaL, a.Lighter.DeltaL)
	})
	var words []string
	for _, piece := range pieces {
		words = append(words, screen.Visible(piece.Name)+" "+piece.Lighter.Words)
	}
	if all := p.AllTogether(); all != "" {
		words = append([]string{all}, words...)
	}
	if len(words) > 0 {
		p.line(screen.Cut("sides   "+strings.Join(words, "; "), p.columns))
	}
}

// weavingTime is an estimate, where there is one.
func weavingTime(hours float64) string {
	if hours == 0 {
		return ""
	}
	return measure.FormatTime(hours)
}

func (p *printer) shown(n int) int {
	if p.rows == 0 || n <= mostRows {
		return n
	}
	return mostRows - 1
}

func (p *printer) more(n int, what string) {
	if n > 0 {
		p.line(fmt.Sprintf("  and %d more %s (plan.json)", n, what))
	}
}

// differs is how far a piece is from the one most like it.
func (p *printer) differs(piece int) string {
	least, found := 0.0, false
	for _, pair := range p.Set.Pairs {
		if pair.Has(piece) && (!found || pair.Difference < least) {
			least, found = pair.Difference, true
		}
	}
	if !found {
		return ""
	}
	return fmt.Sprintf("%.1f", least)
}

// faintest is the grade at 2 m of the combination that shows least.
func faintest(all []plan.Contrast) string {
	if at := plan.Faintest(all, look.DecisiveM); at != nil {
		return at.Words()
	}
	return ""
}

// pattern shows the weft of a piece from its first pick on: as a strip, or as
// the names of its colours.
func (p *printer) pattern(piece plan.Piece, room int) string {
	var shares []share
	var names []string
	for _, r := range piece.Runs {
		colour := r.Pattern
		if colour == "" {
			colour = r.Ground
		}
		shares = append(shares, share{r.Units, colour})
		if name := screen.Visible(r.Pattern); name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if p.paint == screen.Plain || len(shares) == 0 {
		return screen.Cut(strings.Join(names, ", "), room)
	}
	return p.strip(shares, room)
}

// yarn prints what each colour takes and what has to be bought.
func (p *printer) yarn() {
	t := table{left: map[int]bool{1: true}}
	t.add("yarn", "", "needed", "", "incl. sample", "on hand", "short", "packages", "cost")
	all := p.yarnToUse()
	rows := p.shown(len(all))
	for _, y := range all[:rows] {
		t.add("  "+screen.Visible(y.Colour), screen.Visible(y.Yarn), p.metres(y.NeededM()),
			measure.FormatWeight(y.NeededG(), p.Units), p.some(y.SampleM), p.onHand(y), p.some(y.ShortM), packages(y), cost(y))
	}
	for i, l := range t.lines() {
		if i > 0 && p.paint != screen.Plain {
			l = p.paint.Swatch(p.colour[all[i-1].Colour], 1) + l[1:]
		}
		p.line(l)
	}
	p.more(len(all)-rows, "colours")
	p.costs()
}

// yarnToUse are the colours that are yet to be used.
func (p *printer) yarnToUse() []plan.Yarn {
	return slices.DeleteFunc(slices.Clone(p.Yarn), func(y plan.Yarn) bool {
		return p.Midway != nil && y.NeededM() == 0
	})
}

// costs says what is to be bought costs, and the yarn that is in the set.
func (p *printer) costs() {
	c := p.Cost
	if c == nil {
		return
	}
	said := "to buy " + c.Buy
	if n := len(c.Unpriced); n > 0 {
		said += fmt.Sprintf(", and %s without a price", measure.Count(n, "colour"))
	}
	if c.Used != nil {
		said += fmt.Sprintf("; yarn in the set %s, %s a piece", *c.Used, *c.Piece)
	}
	p.entry("cost", said)
}

// cost is that of the packages to buy, where there are any.
func cost(y plan.Yarn) string {
	if y.Cost == nil || *y.Packages == 0 {
		return ""
	}
	return *y.Cost
}

func (p *printer) metres(m float64) string { return measure.FormatYarn(m, p.Units) }

func (p *printer) some(m float64) string {
	if m == 0 {
		return ""
	}
	return p.metres(m)
}

func (p *printer) onHand(y plan.Yarn) string {
	if y.OnHandM == nil {
		return "?"
	}
	return screen.Visible(y.OnHand)
}

func packages(y plan.Yarn) string {
	if y.Packages == nil || *y.Packages == 0 {
		return ""
	}
	return fmt.Sprint(*y.Packages)
}
