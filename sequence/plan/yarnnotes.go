package plan

import (
	"fmt"
	"strings"

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
