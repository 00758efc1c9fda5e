package packet

import (
	"fmt"
	"html/template"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// shopping is the first part: what is needed, what is there, what is bought.
type shopping struct {
	Keep   string
	No     int
	OnLoom bool // the warp is wound; what counts is what is left
	Spare  string
	Sample bool // some yarn is for the sample

	Selvedges bool   // floating ones
	Plain     string // what the ground column includes
	Hemstitch string // what tails to hemstitch with take besides; "" for no fringes
	Weighed   string // what is weighed with a piece
	Yarns     []yarnRow
	Cost      string // of all that is to be bought; "" where no price is known
	Used      string // of the yarn in the set
	Weights   []weightTable
	Card      card
}

// card is where the yarn itself is stuck, on a page of its own.
type card struct {
	Colours []colourView
	RowMM   int   // how high the row of a colour stands
	Lines   []int // for notes, counted from 1
}

// cardOf shares a page out: rows as high as there is room for, then lines for notes.
func cardOf(colours []colourView) card {
	const pageMM, headMM, rowsMM, lowest, highest, notesMM, lineMM = 225, 36, 130, 10, 20, 14, 10
	c := card{Colours: colours, RowMM: min(highest, max(lowest, rowsMM/max(1, len(colours))))}
	for n := range (pageMM - headMM - notesMM - c.RowMM*len(colours)) / lineMM {
		c.Lines = append(c.Lines, n+1)
	}
	return c
}

// weightTable is the weights of as many pieces as a page has room for beside
// one another.
type weightTable struct {
	Pieces []string // names over the columns
	Ten    string   // what the last column weighs
	Rows   []weightRow
}

// piecesAcross is how many that is.
const piecesAcross = 6

type yarnRow struct {
	Chip                                 template.HTML
	Yarn                                 string
	Warp, Ground, Pattern, Sample, Total string
	Grams, OnHand, Buy, Cost             string
	Tick                                 bool // something is to be bought
}

type weightRow struct {
	Chip   template.HTML
	Warp   light
	Pieces []light
	Ten    light
}

func (m *maker) shopping() shopping {
	s := shopping{No: m.parts().Shopping, OnLoom: m.Midway != nil, Spare: percent(m.Cloth.Spare),
		Selvedges: m.Warp.FloatingSelvedgeEnds > 0, Card: cardOf(m.colours()),
		Plain: m.plainParts(false), Hemstitch: m.hemstitching(), Weighed: m.weighed()}
	for _, y := range m.Yarn {
		if m.Midway != nil && y.NeededM() == 0 {
			continue
		}
		row := m.yarnRow(y)
		s.Sample = s.Sample || y.SampleM > 0
		if y.OnHandM != nil {
			row.OnHand = m.metres(*y.OnHandM)
		}
		if y.ShortM > 0 {
			row.Buy = m.buy(y.ShortM, y.ShortG, y.Packages)
			row.Cost = costOf(y)
		}
		s.Yarns = append(s.Yarns, row)
	}
	s.Cost, s.Used = m.costs()
	s.Keep = keep("shopping", fmt.Sprint(s.Yarns))
	weights := loomwork.WeightsOf(m.Plan)
	for from := m.Woven(); from < len(m.Pieces); from += piecesAcross {
		s.Weights = append(s.Weights,
			m.weights(weights, from, min(from+piecesAcross, len(m.Pieces))))
	}
	return s
}

// yarnRow is a row of what a colour takes; what is on the shelf is still open.
func (m *maker) yarnRow(y plan.Yarn) yarnRow {
	return yarnRow{Chip: m.chips[y.Colour], Yarn: seen(y.Yarn),
		Warp: m.some(y.WarpM), Ground: m.some(y.GroundM), Pattern: m.some(y.PatternM),
		Sample: m.some(y.SampleM), Total: m.metres(y.NeededM()), Grams: m.grams(y.NeededG()),
		OnHand: "not known", Buy: "nothing", Tick: y.ShortM > 0}
}

func (m *maker) weights(all []loomwork.Weights, from, to int) (t weightTable) {
	ten := 1.0
	t.Ten = "10 m weigh"
	if m.Units == "in" {
		t.Ten, ten = "10 yd weigh", 0.9144
	}
	for i := from; i < to; i++ {
		t.Pieces = append(t.Pieces, seen(m.Label(i)))
	}
	for _, w := range all {
		if m.Midway != nil && m.Yarn[w.Yarn].NeededM() == 0 {
			continue
		}
		row := weightRow{Chip: m.chips[m.Yarn[w.Yarn].Colour], Warp: m.light(w.WarpG),
			Ten: m.light(w.Per10M * ten)}
		for _, g := range w.Grams[from:to] {
			row.Pieces = append(row.Pieces, m.light(g))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (m *maker) buy(metres, grams float64, packages *int) string {
	length := strings.ReplaceAll(m.metres(metres), " ", "\u00a0")
	if packages == nil {
		return fmt.Sprintf("%s, %s", length, m.grams(grams))
	}
	return fmt.Sprintf("%s (%s)", measure.Count(*packages, "package"), length)
}

// costOf is what a colour to buy costs, and of how much a package.
func costOf(y plan.Yarn) string {
	if y.Cost == nil {
		return "not known"
	}
	if *y.Packages == 1 {
		return *y.Cost
	}
	return fmt.Sprintf("%d × %s = %s", *y.Packages, *y.Price, *y.Cost)
}

// costs are what all that is to be bought costs, and what the yarn in the set is worth.
func (m *maker) costs() (buy, used string) {
	c := m.Cost
	if c == nil {
		return "", ""
	}
	buy = c.Buy
	if n := len(c.Unpriced); n > 0 {
		buy += fmt.Sprintf(", without %s whose cost is not known", measure.Count(n, "colour"))
	}
	if c.Used != nil {
		used = fmt.Sprintf("%s, or %s for each piece", *c.Used, *c.Piece)
	}
	return buy, used
}

// some is a length of yarn, or a dash for none.
func (m *maker) some(metres float64) string {
	if metres == 0 {
		return "–"
	}
	return m.metres(metres)
}

// light is a weight as a kitchen scale shows it: grams, and in a plan in inches
// ounces too, for the scale shows both.
type light struct{ Grams, Ounces string }

func (m *maker) light(grams float64) light {
	if grams == 0 {
		return light{Grams: "–"}
	}
	places := 0
	if grams < 20 {
		places = 1
	}
	l := light{Grams: fmt.Sprintf("%.*f g", places, grams)}
	if m.Units == "in" && grams >= 0.15 { // less is no hundredth of an ounce
		l.Ounces = m.grams(grams)
	}
	return l
}

func percent(share float64) string {
	return fmt.Sprintf("%g %%", float64(int(float64(share*10000)+0.5))/100)
}
