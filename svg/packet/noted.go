package packet

import (
	"fmt"
	"html/template"

	"stripesong/sequence/plan"
)

// noted is what is measured of a piece while it is under tension: afterwards it lies in the
// roll of the cloth.
type noted struct {
	Keep      string
	Number    int       // of the piece
	Step      int       // with which its last pick is woven
	More      bool      // is written down, of one piece
	Weighed   *weighing // nil where no yarn of it is weighed
	Measuring int       // part of the page
}

// weighing is the yarn whose weight before and after a piece tells what a pick takes.
type weighing struct {
	Chip   template.HTML
	Colour string
	Picks  int
	grams  float64
}

// What a sheet says of these takes on paper, in mm, rather more than less.
const (
	notedMM = 27
	moreMM  = 30
)

// noted is what is written down on the sheet of piece i, whose part ends with a row.
func (m *maker) noted(i int, rows []step) noted {
	n := noted{Keep: keep("noted", fmt.Sprint(i), m.mm(m.Pieces[i].WovenMM)),
		Number: i + 1, Measuring: m.parts().Measuring}
	for _, row := range rows {
		if row.Part {
			n.Step = row.Number
		}
	}
	if n.More = i == m.Woven(); n.More {
		n.Weighed = m.weighing(m.Pieces[i])
	}
	return n
}

// weighing is of the pattern colour of most picks, of those that are thrown as nothing else in a
// piece; nil where there is none.
func (m *maker) weighing(p plan.Piece) *weighing {
	picks, other := map[string]int{}, map[string]bool{p.Hem: true, p.Separator: true}
	for _, r := range p.Runs {
		picks[r.Pattern] += r.PatternPicks
		other[r.Ground] = true
	}
	var best plan.Yarn
	most := 0
	for _, y := range m.Yarn {
		if n := picks[y.Colour]; !other[y.Colour] && n > most {
			best, most = y, n
		}
	}
	if most == 0 {
		return nil
	}
	w := &weighing{Chip: m.chips[best.Colour], Colour: seen(best.Colour), Picks: most}
	metres := m.Warp.ReedWidthMM * (1 + m.Cloth.WeftExtra) / 1000 *
		float64(w.Picks*m.Cloth.Strands)
	w.grams = metres * best.Tex / 1000
	return w
}
