package workbench

import (
	"fmt"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// warpStrip is the warp as a page shows it.
func (v version) warpStrip() Strip {
	w := v.plan.Warp
	s := Strip{Drawn: v.drawnWarp(), Kept: v.brief.Warp.Runs != nil,
		Size: measure.FormatLength(w.FinishedWidthMM, v.plan.Units)}
	v.ruleOf(&s, v.brief.Warp.Rule)
	s.Chance = hangs(v.brief.Warp.Runs, v.brief.Warp.Rule)
	s.Words = v.words(s.Kept, s.Rhythm["kind"], len(w.Runs), "stripe") + " · " + w.Divided()
	return s
}

// strip is a piece as a page shows it.
func (v version) strip(i int) Strip {
	p, of := v.plan.Pieces[i], v.brief.Pieces[i]
	kept := v.keeps(i)
	s := Strip{
		Drawn:     v.drawnPiece(i),
		Kept:      kept,
		Held:      of.Hold,
		Open:      of.Open,
		Chosen:    of.Chosen || p.Origin == "chosen" && !kept,
		Words:     v.words(kept, p.Rhythm, len(p.Runs), "block"),
		Separator: v.index(p.Separator),
		Size:      measure.FormatLength(p.FinishedMM, v.plan.Units),
	}
	v.ruleOf(&s, of.Weft.Rule)
	s.Chance = !s.Chosen && hangs(of.Weft.Runs, of.Weft.Rule)
	s.Shows = v.showing(p.Contrast)
	s.Showing = v.grade(i)
	if p.Lighter != nil {
		s.Lighter = lighterSaid(p.Lighter)
		s.Shows = append(s.Shows, s.Lighter)
	}
	for _, more := range p.MoreSides {
		s.Shows = append(s.Shows, "it would be more "+more.Words())
	}
	return s
}

// keeps tells whether a piece is written out, and not as the program chose it.
func (v version) keeps(i int) bool {
	p := v.brief.Pieces[i]
	return p.Weft.Runs != nil && !p.Chosen
}

// grade is how plainly the pattern of a piece shows.
func (v version) grade(i int) (s Showing) {
	pairs := v.plan.Pieces[i].Contrast
	for _, c := range pairs {
		s.Weak = s.Weak || c.At(look.DecisiveM).Grade < palette.Clear
	}
	if at := plan.Faintest(pairs, look.DecisiveM); at != nil {
		s.Grade = v.fromTable(at)
	}
	return s
}

// fromTable is how something shows from there.
func (v version) fromTable(at *plan.Seen) string {
	return at.Words() + " at " + v.plan.FromTable()
}

// weftStrip is what every piece starts from: a rule without cloth.
func (v version) weftStrip() Strip {
	w := v.brief.Weft
	s := Strip{Drawn: Drawn{Ground: w.Ground, Hem: w.Hem}, Kept: w.Runs != nil,
		Separator: w.Separator}
	if s.Hem < 0 {
		s.Hem = s.Ground
	}
	if s.Separator < 0 {
		s.Separator = s.Ground
	}
	v.ruleOf(&s, w.Rule)
	s.Words = v.followed()
	return s
}

// followed says which pieces go by the rhythm that all start from.
func (v version) followed() string {
	var names []string
	for i, p := range v.brief.Pieces {
		own := v.doc.Root.Find(fmt.Sprintf("piece[%d].rhythm", i)) != nil
		if p.Weft.Runs == nil && !own && (v.brief.Vary == nil || !p.Open) {
			names = append(names, v.plan.Label(i))
		}
	}
	if len(names) == 0 {
		return "No piece follows its rhythm: each has one of its own, is kept or was chosen."
	}
	return "Its rhythm is followed by " + strings.Join(names, ", ") + "."
}

// lighterSaid says which side is the lighter, and by how much.
func lighterSaid(l *plan.Lighter) string {
	how := l.Grade.String()
	if l.Range != nil {
		how = l.Range.Words()
	}
	return fmt.Sprintf("%s lighter; the difference is %s (%.1f)", l.Side, how, l.DeltaL)
}

// together says which side of all pieces together is the lighter; "" where none is.
func (v version) together() string {
	if v.plan.AllTogether() == "" {
		return ""
	}
	return "all together " + lighterSaid(v.plan.Set.Lighter)
}

// seedless are the words of a rhythm without the seed it draws by.
func seedless(words string) string {
	said, _, _ := strings.Cut(words, ", seed ")
	return said
}

func (v version) ruleOf(s *Strip, r brief.Rule) {
	s.Rhythm, s.Order, s.Colours = typed(r.Rhythm), r.Order, r.Colours
	s.First = v.brief.Structure.Letters()[r.Blocks.First]
	if r.Blocks.Apart {
		s.First = ""
	}
	s.Blocks = layingForm(r.Blocks.Laid)
	if r.Middle != nil {
		s.Middle = v.brief.MiddleText(r.Middle)
	}
}

// words says in a line how a strip came about.
func (v version) words(kept bool, rule string, runs int, noun string) string {
	said := fmt.Sprintf("%d %ss", runs, noun)
	if runs == 1 {
		said = "1 " + noun
	}
	switch {
	case kept:
		return "kept: " + said
	case rule == "":
		return said
	}
	return seedless(rule)
}

// showing says how well each combination shows from across the table.
func (v version) showing(all []plan.Contrast) (said []string) {
	for _, c := range all {
		seen := c.At(look.DecisiveM)
		line := fmt.Sprintf("%s on %s and %s: %s", c.Pattern, c.Warp, c.Ground, v.fromTable(seen))
		if c.Warp == c.Ground {
			line = fmt.Sprintf("%s on %s: %s", c.Pattern, c.Warp, v.fromTable(seen))
		}
		said = append(said, line)
	}
	return said
}
