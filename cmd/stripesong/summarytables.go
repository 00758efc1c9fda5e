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

// pieces prints a line for each piece, or for several that are alike: rhythm, lengths,
// how far it is from what it is most like, how its faintest combination shows from
// across a table, and its weft.
func (p *printer) pieces() {
	groups := p.alike()
	t := table{left: map[int]bool{1: true, 6: true}}
	t.add("pieces", "rhythm", "woven", "finished", "time", "differs*", "at "+p.FromTable())
	rows := p.shown(len(groups))
	for _, g := range groups[:rows] {
		piece := p.Pieces[g.first]
		t.add("  "+g.name, rhythmOf(piece), p.length(piece.AsWovenMM()),
			p.length(p.AsFinishedMM(&piece)),
			weavingTime(piece.Hours), p.differs(g.first), faintest(piece.Contrast))
	}
	lines := t.lines()
	room := p.columns - 2
	for _, l := range lines {
		room = min(room, p.columns-screen.Width(l)-2)
	}
	widest := p.columns - 2 - room
	head := "weft"
	if room < len(head) {
		head, room = "", 0
	}
	for i, l := range lines {
		weft := head
		if i > 0 && room > 0 {
			weft = p.pattern(p.Pieces[groups[i-1].first], room)
		}
		p.line(strings.TrimRight(screen.Pad(l, widest)+"  "+weft, " "))
	}
	p.more(len(groups)-rows, "pieces")
	if len(groups) > 1 {
		p.line("  * in colour from the piece most like it (mean dE00, of which 1 is just seen)")
	}
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
// first; nothing where the sides pass for the same, as far as is known.
func (p *printer) lighter() {
	pieces := slices.DeleteFunc(slices.Clone(p.Pieces), func(piece plan.Piece) bool {
		return piece.Lighter == nil || strings.Contains(piece.Lighter.Words, ", unseen")
	})
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

// alikeGroup is a piece and those right after it that are woven the same.
type alikeGroup struct {
	first int // from 0
	name  string
}

// alike puts pieces together that are the same to the pick, neighbours only.
func (p *printer) alike() (groups []alikeGroup) {
	for i := 0; i < len(p.Pieces); {
		n := 1
		for i+n < len(p.Pieces) && sameCloth(p.Pieces[i], p.Pieces[i+n]) &&
			p.IsWoven(i) == p.IsWoven(i+n) {
			n++
		}
		name := p.named(i)
		if n > 1 {
			like := fmt.Sprintf(", %d like it", n-1)
			name = screen.Cut(name, widestCell-2-len(like)) + like
		}
		groups = append(groups, alikeGroup{i, name})
		i += n
	}
	return groups
}

// sameCloth tells whether two pieces are woven pick for pick the same.
func sameCloth(a, b plan.Piece) bool {
	return slices.Equal(a.Runs, b.Runs) && a.Hem == b.Hem && a.HemPicks == b.HemPicks &&
		a.ShowPicks == b.ShowPicks &&
		a.PickOrder == b.PickOrder
}

// rhythmOf is the kind of a piece's rhythm in a word.
func rhythmOf(piece plan.Piece) string {
	return cmp.Or(piece.Kind, "by hand")
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
		return strings.Replace(at.Words(), " to ", "–", 1)
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
			measure.FormatWeight(y.NeededG(), p.Units), p.some(y.SampleM), p.onHand(y),
			p.some(y.ShortM), packages(y), cost(y))
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
