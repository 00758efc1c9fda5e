package packet

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"
	"unicode"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// finishing is the fifth part.
type finishing struct {
	Keep          string
	No, Measuring int // of this part, and of that where sizes are written down
	Cuts          []cut
	Separators    int
	Selvedges     bool          // floating ones, with weights
	SampleStays   bool          // on the loom, up to here
	Strong        template.HTML // colours that may bleed
	Wool          template.HTML // colours that may felt
	Water         string        // what bare warp does in it
	Hem           string        // finished, one end, all folds
	First, Second string        // the two folds
	Show          string        // how much plain stays in sight beside the fold
	ShowPicks     int
	Fringe        string
	Measured      string // the piece of which more is written down
	Sizes         []size
	Width         string
}

type cut struct {
	After, Next string
	Chip        template.HTML
	Picks       int
	At, Washed  string // from the first pick of the first piece
}

type size struct {
	Number                     int
	Name, Woven, Washed, Final string
}

func (m *maker) finishing() finishing {
	f := finishing{No: m.parts().Finishing, Measuring: m.parts().Measuring,
		Keep: keep("finishing", m.mm(m.Warp.WovenMM)), Width: m.mm(m.Warp.FinishedWidthMM),
		Selvedges: m.Warp.FloatingSelvedgeEnds > 0, SampleStays: m.sampleStays(),
		Strong: listed(m.strong(), "."), Wool: listed(m.wool(nil), ":"),
		Water: "tangles and frays", Measured: seen(m.Label(m.Woven()))}
	if len(m.wool(m.isWarp)) > 0 {
		f.Water = "felts and tangles"
	}
	if m.Cloth.FringeMM > 0 {
		f.Fringe = m.mm(m.Cloth.FringeMM)
	}
	left := 1 - m.Cloth.ShrinkLength
	at := 0.0
	for i, p := range m.Pieces {
		f.Sizes = append(f.Sizes, m.sizeOf(i))
		at += p.AsWovenMM()
		if i+1 < len(m.Pieces) {
			at += m.Cloth.FringeMM
			separator := float64(float64(p.SeparatorPick)*10) / m.Cloth.HemGroundPerCM
			f.Cuts = append(f.Cuts,
				cut{seen(m.Label(i)), seen(m.Label(i + 1)), m.chips[p.Separator], p.SeparatorPick,
					m.tapeMM(at + float64(separator/2)),
					m.tapeMM((at + float64(separator/2)) * left)})
			f.Separators += p.SeparatorPick
			at += separator + m.Cloth.FringeMM
		}
	}
	if first := m.Pieces[0]; first.ShowPicks > 0 {
		f.Show, f.ShowPicks = m.mm(float64(first.ShowWovenMM*left)), first.ShowPicks
	}
	if m.Pieces[0].HemPicks > 0 {
		f.Hem, f.First, f.Second = loomwork.Folds(float64(m.Pieces[0].HemWovenMM*left), m.Units)
	}
	return f
}

// sizeOf is what should come out of a piece: of one that is woven already as it was
// measured.
func (m *maker) sizeOf(i int) size {
	p := &m.Pieces[i]
	woven := p.AsWovenMM()
	return size{i + 1, seen(p.Name), m.tapeMM(woven), m.tapeMM(woven * (1 - m.Cloth.ShrinkLength)),
		m.tapeMM(m.AsFinishedMM(p))}
}

// strong lists the colours that may bleed: dark ones and strong ones (common
// practice, no source; the bounds are a judgement).
func (m *maker) strong() (chips []template.HTML) {
	const dark, vivid = 40, 35
	for _, c := range m.Colours {
		if c.Lab[0] < dark || math.Hypot(c.Lab[1], c.Lab[2]) > vivid {
			chips = append(chips, m.chips[c.Name])
		}
	}
	return chips
}

// wools are words by which a yarn of wool, or of hair that felts as wool does, is known
// (common practice, no source).
var wools = []string{"wool", "woollen", "woolen", "worsted", "lambswool", "merino", "shetland",
	"mohair", "alpaca", "cashmere", "angora", "camel", "yak", "ull", "wolle", "laine", "lana", "lã"}

// wool lists the colours that may felt, of those with a use; nil is any.
func (m *maker) wool(used func(plan.Yarn) bool) (chips []template.HTML) {
	for _, y := range m.Yarn {
		words := strings.FieldsFunc(strings.ToLower(y.Yarn+" "+m.countOf(y.Yarn)+" "+y.Colour),
			func(r rune) bool { return !unicode.IsLetter(r) })
		felts := slices.ContainsFunc(words, func(w string) bool {
			return slices.Contains(wools, w)
		})
		if felts && (used == nil || used(y)) {
			chips = append(chips, m.chips[y.Colour])
		}
	}
	return chips
}

// countOf is the count of a yarn, as the brief has it.
func (m *maker) countOf(yarn string) string {
	for _, t := range m.Yarns {
		if t.Yarn == yarn {
			return t.Count
		}
	}
	return ""
}

// measureGroup is blank fields under one table of the measured file.
type measureGroup struct {
	Heading string
	When    string
	Fields  []field
}

type field struct{ Key, What, Planned string }

// measuring is the last part.
type measuring struct {
	No     int
	Groups []measureGroup
}

// measuring is what can be measured of the set; of the whole warp only where the plan
// has it.
func (m *maker) measuring() measuring {
	all := m.measures()
	if m.Midway != nil {
		all = slices.DeleteFunc(all, func(g measureGroup) bool { return g.Heading == "[warp]" })
	}
	return measuring{m.parts().Measuring, all}
}

// measures are all keys that "stripesong calibrate" reads.
func (m *maker) measures() []measureGroup {
	w, at := m.Warp, m.Woven()
	first, piece := m.Pieces[at], seen(m.Label(at))
	return []measureGroup{
		{"[width]", "the middle of a piece, on the loom and after the first wash: " + piece,
			[]field{
				{"reed", "width in the reed, not counting floating selvedges", m.mm(w.ReedWidthMM)},
				{"fell", "at the fell, under tension: see the piece's sheet", m.mm(w.WovenWidthMM)},
				{"finished", "the same place, washed and dry", m.mm(w.FinishedWidthMM)}}},
		{"[length]", m.endToEnd() + piece,
			[]field{
				{"woven", "on the loom, under tension: see its sheet", m.mm(first.WovenMM)},
				{"finished", "the same piece, washed and dry",
					m.mm(first.WovenMM * (1 - m.Cloth.ShrinkLength))}}},
		{"[warp]", "the whole warp", []field{
			{"wound", "as it was wound", measure.FormatWarp(w.WoundMM, m.Units)},
			{"woven", "the lengths on the sheets added up, " + m.included(),
				m.mm(w.WovenMM + m.sampleWovenMM())},
			{"leftover", "what was not woven: " + m.notWoven(), m.mm(unwoven(m.Plan))}}},
		m.weftGroup(piece, m.weighing(first)),
		{"[sample]", "washed cloth: how wide one float of the pattern weft lies, all its " +
			"strands together", []field{
			{"pattern", "colour of the float", ""},
			{"warp", "colour of the warp there", ""},
			{"ground", "colour of the ground there", ""},
			{"float_width", "from edge to edge of the float", ""}}},
	}
}

// weftGroup is of the yarn that is weighed before and after a piece, or of any.
func (m *maker) weftGroup(piece string, of *weighing) measureGroup {
	when, colour, picks, used := "one colour in one stretch: weigh the tube before and after", "",
		"", ""
	if of != nil {
		when = "one colour in " + piece + ": its sheet has the weight before and after"
		colour, picks, used = of.Colour, fmt.Sprint(of.Picks), m.grams(of.grams)
	}
	return measureGroup{"[[weft]]", when, []field{
		{"colour", "its name", colour}, {"picks", "picks thrown with it", picks},
		{"used", m.yarnUsed(), used},
		{"strands", "wound together", fmt.Sprint(m.Cloth.Strands)}}}
}

// endToEnd says how a piece is measured.
func (m *maker) endToEnd() string {
	if m.Pieces[0].HemPicks > 0 {
		return "one piece from end to end, before any hem is folded: "
	}
	return "one piece from end to end: "
}

// yarnUsed says in what yarn is measured.
func (m *maker) yarnUsed() string {
	if m.Units == "in" {
		return "yards or ounces used"
	}
	return "metres or grams used"
}

// included says what the woven warp holds besides pieces.
func (m *maker) included() string {
	if m.Cloth.SampleMM > 0 {
		return "sample and separators included"
	}
	return "separators included"
}

// sampleWovenMM is how long the sample is on the loom; 0 for none.
func (m *maker) sampleWovenMM() float64 {
	if m.Plan.Sample == nil {
		return 0
	}
	return m.Plan.Sample.WovenMM
}

// notWoven says what of the warp is left over.
func (m *maker) notWoven() string {
	words := "tied on in front"
	if m.Cloth.RetieMM > 0 && m.Plan.Sample != nil {
		words += ", after the sample too"
	}
	words += ", thrums behind"
	if m.Cloth.FringeMM > 0 {
		words += ", fringes"
	}
	return words
}

// unwoven is the wound length that is no cloth.
func unwoven(p *plan.Plan) float64 {
	sum := 0.0
	for _, part := range p.Warp.MakeUp {
		if slices.Contains([]string{"waste", "retie", "fringe"}, part.What) {
			sum += part.WoundMM
		}
	}
	return sum
}
