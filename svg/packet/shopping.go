package packet

import (
	"fmt"
	"html/template"

	"stripesong/sequence/loomwork"
)

// shopping is the first part: what is needed, what is there, what is bought.
type shopping struct {
	Keep    string
	Spare   string
	Yarns   []yarnRow
	Weights []weightTable
}

// weightTable is the weights of as many pieces as a page has room for beside
// one another.
type weightTable struct {
	Pieces []string // names over the columns
	Rows   []weightRow
}

// piecesAcross is how many that is.
const piecesAcross = 6

type yarnRow struct {
	Chip                         template.HTML
	Yarn                         string
	Warp, Ground, Pattern, Total string
	Grams, OnHand, Buy           string
	Tick                         bool // something is to be bought
}

type weightRow struct {
	Chip   template.HTML
	Warp   string
	Pieces []string
	Ten    string
}

func (m *maker) shopping() shopping {
	s := shopping{Spare: percent(m.Cloth.Spare)}
	for _, y := range m.Yarn {
		row := yarnRow{Chip: m.chips[y.Colour], Yarn: seen(y.Yarn), Warp: m.some(y.WarpM), Ground: m.some(y.GroundM), Pattern: m.some(y.PatternM),
			Total: m.metres(y.TotalM), Grams: m.grams(y.TotalG), OnHand: "not known", Buy: "nothing", Tick: y.ShortM > 0}
		if y.OnHandM != nil {
			row.OnHand = m.metres(*y.OnHandM)
		}
		if y.ShortM > 0 {
			row.Buy = m.buy(y.ShortM, y.ShortG, y.Packages)
		}
		s.Yarns = append(s.Yarns, row)
	}
	s.Keep = keep("shopping", fmt.Sprint(s.Yarns))
	weights := loomwork.WeightsOf(m.Plan)
	for from := 0; from < len(m.Pieces); from += piecesAcross {
		s.Weights = append(s.Weights, m.weights(weights, from, min(from+piecesAcross, len(m.Pieces))))
	}
	return s
}

func (m *maker) weights(all []loomwork.Weights, from, to int) (t weightTable) {
	for _, p := range m.Pieces[from:to] {
		t.Pieces = append(t.Pieces, seen(p.Name))
	}
	for _, w := range all {
		row := weightRow{Chip: m.chips[m.Yarn[w.Yarn].Colour], Warp: m.light(w.WarpG), Ten: m.light(w.Per10M)}
		for _, g := range w.Grams[from:to] {
			row.Pieces = append(row.Pieces, m.light(g))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func (m *maker) buy(metres, grams float64, packages *int) string {
	if packages == nil {
		return fmt.Sprintf("%s, %s", m.metres(metres), m.grams(grams))
	}
	return fmt.Sprintf("%s (%s)", count(*packages, "package"), m.metres(metres))
}

// some is a length of yarn, or a dash for none.
func (m *maker) some(metres float64) string {
	if metres == 0 {
		return "–"
	}
	return m.metres(metres)
}

// light is a weight as a kitchen scale shows it, grams in every unit system.
func (m *maker) light(grams float64) string {
	switch {
	case grams == 0:
		return "–"
	case grams < 20:
		return fmt.Sprintf("%.1f g", grams)
	}
	return fmt.Sprintf("%.0f g", grams)
}

func percent(share float64) string {
	return fmt.Sprintf("%g %%", float64(int(float64(share*10000)+0.5))/100)
}
