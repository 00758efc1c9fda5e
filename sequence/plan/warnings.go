package plan

import (
	"fmt"
	"strings"

	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/measure"
)

// yarnNotes names every colour that is short, and what is to be bought of
// those whose stock is not known.
func (m *maker) yarnNotes() {
	var unknown []string
	for _, y := range m.plan.Yarn {
		if y.ShortM == 0 {
			continue
		}
		lack := fmt.Sprintf("%s (%s%s)", measure.FormatYarn(y.ShortM, m.b.Units),
			measure.FormatWeight(y.ShortG, m.b.Units), packages(y))
		switch {
		case y.OnHandM == nil:
			unknown = append(unknown, fmt.Sprintf("%q %s", y.Colour, lack))
		case *y.OnHandM < y.NeededM():
			m.note(Warning, "yarn-short",
				"%q as %s: %s needed, %s on the shelf; with the spare, %s short",
				y.Colour, roles(y),
				measure.FormatYarn(y.NeededM(), m.b.Units), y.Shelf(m.b.Units), lack)
		default:
			m.note(Remark, "yarn-spare",
				"%q as %s: enough on the shelf, but not with the spare; that takes %s more",
				y.Colour, roles(y), lack)
		}
	}
	if len(unknown) > 0 {
		m.note(Remark, "yarn-buy", "the brief does not say what is on hand, so plan to buy %s",
			strings.Join(unknown, "; "))
	}
}

func packages(y Yarn) string {
	if y.Packages == nil {
		return ""
	}
	return ", " + measure.Count(*y.Packages, "package")
}

// Shelf is what is on hand, as it was given, and how long that is where it was weighed.
func (y Yarn) Shelf(units string) string {
	if y.OnHandM == nil {
		return "not known"
	}
	if w, err := measure.ParseWeight(y.OnHand); err == nil && w.Grams != nil {
		return fmt.Sprintf("%s (%s)", y.OnHand, measure.FormatYarn(*y.OnHandM, units))
	}
	return y.OnHand
}

// roles are what a colour is used for.
func roles(y Yarn) string {
	var words []string
	for _, r := range []struct {
		metres float64
		word   string
	}{{y.WarpM, "warp"}, {y.GroundM, "ground"}, {y.PatternM, "pattern"}} {
		if r.metres > 0 {
			words = append(words, r.word)
		}
	}
	return strings.Join(words, " and ")
}

// poor is one combination that does not show well, wherever it occurs.
type poor struct {
	worst  Contrast
	pieces []string
}

// contrastNotes tells, once for each trio of yarns and grade, what is unseen,
// faint or soft across the table, at its worst.
func (m *maker) contrastNotes() {
	var order []string
	found := make(map[string]*poor)
	for i := m.woven(); i < len(m.plan.Pieces); i++ {
		for _, c := range m.plan.Pieces[i].Contrast {
			at := c.At(look.DecisiveM)
			if at.Grade >= palette.Clear {
				continue
			}
			key := strings.Join([]string{c.Warp, c.Ground, c.Pattern, at.Grade.String()}, "\x00")
			if found[key] == nil {
				found[key] = &poor{worst: c}
				order = append(order, key)
			}
			f := found[key]
			f.pieces = append(f.pieces, m.called(i))
			if at.DeltaL < f.worst.At(look.DecisiveM).DeltaL {
				f.worst = c
			}
		}
	}
	for _, key := range order {
		m.contrastNote(found[key])
	}
}

func (m *maker) contrastNote(f *poor) {
	c := f.worst
	at := c.At(look.DecisiveM)
	hue := ""
	if c.HueOnly {
		hue = "; they differ in hue, not in light and dark"
	}
	level := Warning
	if at.Grade == palette.Soft {
		level = Remark
	}
	m.note(level, "contrast-"+at.Grade.String(),
		"%q pattern on %q ground over %q warp is %s from %s for %s: the difference in lightness "+
			"is %.1f (dE00 %.1f)%s; in %s",
		c.Pattern, c.Ground, c.Warp, at.Words(), m.plan.Distance(at.DistanceM), c.Vision.Eyes(),
		at.DeltaL, at.DeltaE, hue, some(f.pieces))
}

// List joins words as a sentence does: "a, b and c".
func List(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// some lists the first few of many.
func some(names []string) string {
	const few = 4
	if len(names) > few {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
	}
	return strings.Join(names, ", ")
}

// setNotes tells of pieces that are alike, cut lines that do not show and names
// used twice.
func (m *maker) setNotes() {
	m.alikeNotes()
	var hidden, twice []string
	seen := make(map[string]int)
	for i, p := range m.plan.Pieces {
		name := m.called(i)
		if i >= m.separatorsFrom() && p.SeparatorPick > 0 && p.EndPicks() > 0 &&
			p.Separator == p.Hem {
			hidden = append(hidden, name)
		}
		if seen[p.Name]++; seen[p.Name] == 2 {
			twice = append(twice, fmt.Sprintf("%q", p.Name))
		}
	}
	m.listNote("separator-hidden",
		"the separator after %s has the colour of the hem, so the cut line will not show: give "+
			"it another colour", hidden)
	m.listNote("name-twice", "more than one piece is called %s", twice)
	if m.b.Set.Pieces > 1 && m.b.Set.Separator == 0 {
		m.note(Remark, "separator-none", "no separator picks mark where to cut the pieces apart")
	}
}

// alikeNotes tells of pieces that look alike, all that do together.
func (m *maker) alikeNotes() {
	group := make([]int, len(m.plan.Pieces)) // of each piece the first that it is alike to
	for i := range group {
		group[i] = i
	}
	most := make(map[int]float64)
	for _, p := range m.plan.Set.Pairs { // in the order of pieces
		if a, b := group[p.NumberA-1], p.NumberB-1; p.Difference < AlikeE && p.NumberB > m.woven() {
			group[b] = min(group[b], a)
			most[group[b]] = max(most[group[b]], p.Difference)
		}
	}
	for first := range group {
		differ, any := most[first]
		if !any {
			continue
		}
		var names []string
		for i, g := range group {
			if g == first {
				names = append(names, m.called(i))
			}
		}
		if how := fmt.Sprintf("%.1f", differ); how == "0.0" {
			m.note(Remark, "pieces-alike", "%s are alike", some(names))
		} else {
			m.note(Remark, "pieces-alike",
				"%s look alike: their faces differ by no more than %s (mean dE00)",
				some(names), how)
		}
	}
}

func (m *maker) listNote(code, message string, names []string) {
	if len(names) > 0 {
		m.note(Remark, code, message, some(names))
	}
}
