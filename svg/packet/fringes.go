package packet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// fringe is how warp is left bare and the ends of pieces are hemstitched.
type fringe struct {
	Bare    string // at each end of a piece; "" for no fringes
	Tail    string // to hemstitch an end with
	Bundles string // of four ends, and what the last takes
	Beside  bool   // there are floating selvedges beside them
}

// tail is how long a tail to hemstitch with is left: whole centimetres or inches, rounded up.
func (m *maker) tail() string {
	grain := 10.0
	if m.Units == "in" {
		grain = 25.4
	}
	n := math.Ceil(m.HemstitchTailMM()/grain - 1e-6)
	if m.Units != "in" && n < 200 {
		return fmt.Sprintf("%.0f cm", n)
	}
	return m.mm(float64(n * grain))
}

func (m *maker) fringe() fringe {
	if m.Cloth.FringeMM == 0 {
		return fringe{}
	}
	return fringe{Bare: m.mm(m.Cloth.FringeMM), Tail: m.tail(),
		Bundles: bundleWords(loomwork.BundlesOf(m.Warp.Ends)),
		Beside:  m.Warp.FloatingSelvedgeEnds > 0}
}

// caught says which picks hemstitching catches at the edge of a piece, in the order they are
// met from there: two, and more up to the first of ground (common practice, no source); and
// after how many it is begun at the foot, two more. The words are "" where all are ground.
func (m *maker) caught(s loomwork.Step, fromAbove bool) (n int, which string) {
	var picks []bool // with pattern
	for _, p := range m.InOrder(s.Order).UnitPicks(s.Block) {
		picks = append(picks, p.Pattern)
	}
	if s.Kind != loomwork.Body || !slices.Contains(picks, true) {
		return 2, ""
	}
	if fromAbove {
		slices.Reverse(picks)
	}
	var words []string
	for ground := false; n < 2 || !ground; n++ {
		pattern := picks[n%len(picks)]
		ground = ground || !pattern
		words = append(words, map[bool]string{true: "pattern", false: "ground"}[pattern])
	}
	return n, " (" + strings.Join(words, ", ") + ")"
}

// firstStitch says when the foot of a piece is hemstitched, and how deep.
func (m *maker) firstStitch(s loomwork.Step) string {
	n, which := m.caught(s, false)
	picks := inWords(n+2) + " picks"
	if which != "" || s.GroundPicks < n+2 { // pattern comes before it is begun
		picks += ", pattern and ground together,"
	}
	return fmt.Sprintf("hemstitch with the first tail when %s are woven, over the lowest %s%s",
		picks, inWords(n), which)
}

// lastStitch says how deep the other end is hemstitched, whose last picks are those of a
// step.
func (m *maker) lastStitch(s loomwork.Step) string {
	n, which := m.caught(s, true)
	return fmt.Sprintf("hemstitch over the topmost %s%s", inWords(n), which)
}

// inWords is a small number as it is spelt.
func inWords(n int) string {
	words := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

func bundleWords(bundles, last int) string {
	words := measure.Count(bundles, "bundle")
	if last != loomwork.BundleEnds {
		words += fmt.Sprintf(", of which the last takes %s", measure.Count(last, "end"))
	}
	return words
}

// plainParts is what is woven with ground alone, in tabby: "hems and separators"; "" where
// nothing is. The sample has some where pieces have none.
func (m *maker) plainParts(sample bool) string {
	var parts []string
	first := m.Pieces[0]
	if first.HemPicks > 0 {
		parts = append(parts, "hems")
	}
	switch {
	case first.ShowPicks > 0 && first.HemPicks > 0:
		parts = append(parts, "what stays in sight beside them")
	case first.ShowPicks > 0 || sample && first.HemPicks == 0 && m.sampleHasPlain():
		parts = append(parts, "plain ends")
	}
	if first.SeparatorPick > 0 {
		parts = append(parts, "separators")
	}
	return plan.List(parts)
}

// sentence is words with which a sentence begins; ours, so that they begin with a letter of
// ASCII.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	return strings.ToUpper(words[:1]) + words[1:]
}

// sampleHasPlain tells whether a sample is woven that has plain picks.
func (m *maker) sampleHasPlain() bool {
	return m.Plan.Sample != nil && m.Plan.Sample.HemPicks > 0
}

// endsName is what plain ends of pieces and of the sample are called.
func (m *maker) endsName() string {
	if m.Pieces[0].HemPicks > 0 {
		return "hems"
	}
	return "plain ends"
}

// endsTitle heads what their yarn is.
func (m *maker) endsTitle() string {
	if m.Pieces[0].HemPicks > 0 {
		return "Hems"
	}
	return "Plain ends"
}

// plainStretch is what the sample has of them.
func (m *maker) plainStretch() string {
	if m.Pieces[0].HemPicks > 0 {
		return "a stretch of hem"
	}
	return "a plain end"
}

// weighed is what counts to the weft of a piece besides its body.
func (m *maker) weighed() string {
	var parts []string
	if m.Pieces[0].EndPicks() > 0 {
		parts = append(parts, "its "+m.endsName())
	}
	if m.Cloth.FringeMM > 0 {
		parts = append(parts, "its tails to hemstitch with")
	}
	if m.Pieces[0].SeparatorPick > 0 {
		parts = append(parts, "the separator after it")
	}
	return plan.List(parts)
}

// hemstitching is what the tails of a colour take of its yarn, in words: it comes out of
// what is to spare, or has to be at hand besides.
func (m *maker) hemstitching() string {
	var takes, lacks []string
	for _, y := range m.Yarn {
		if y.HemstitchM == 0 {
			continue
		}
		one := m.metres(y.HemstitchM) + " of " + seen(y.Colour)
		if y.HemstitchM > float64(y.NeededM()*m.Cloth.Spare) {
			lacks = append(lacks, one)
		} else {
			takes = append(takes, one)
		}
	}
	words := fmt.Sprintf("To hemstitch, a tail of %s is left at each end of a piece.",
		m.tail())
	if takes != nil {
		words += fmt.Sprintf(" That takes %s, which comes out of what is to spare.",
			plan.List(takes))
	}
	if lacks != nil {
		words += fmt.Sprintf(" That takes %s, more than there is to spare: have so much more "+
			"of it at hand.", plan.List(lacks))
	}
	if m.Cloth.FringeMM == 0 {
		return ""
	}
	return words
}
