package plan

import (
	"fmt"
	"math/big"

	"stripesong/sequence/exact"
	"stripesong/sequence/yarn"
)

// Picks must find room: the part of a length that their yarns fill, as round as
// they are. Above fullBeat they cannot be beaten in; above hardBeat it takes a
// hard beat (common practice, no source).
const (
	fullBeat = 1.0
	hardBeat = 0.85
)

// fill is how much of its length some weft of a piece fills.
type fill struct {
	piece int
	what  string
	part  float64
}

// beatNotes tells of weft that has no room, or hardly any, at its worst.
func (m *maker) beatNotes() {
	var worst fill
	for i := range m.b.Pieces {
		for _, f := range m.fills(i) {
			if f.part > worst.part {
				worst = f
			}
		}
	}
	percent := fmt.Sprintf("%.0f %%", 100*worst.part)
	where := fmt.Sprintf("%s of %s", worst.what, m.called(worst.piece))
	m.plan.Cloth.Beat = exact.RoundTo(worst.part, 4)
	switch {
	case worst.part > fullBeat:
		m.note(Warning, "beat-impossible",
			"the weft can't be beaten in: in the %s its yarns need %s of the room there is; "+
				"weave fewer picks to the %s, or use finer yarn or fewer strands",
			where, percent, perWhat(m.b.Units))
	case worst.part > hardBeat:
		m.note(Remark, "beat-hard",
			"the weft needs a hard beat: in the %s its yarns need %s of the room there is; "+
				"sample it first",
			where, percent)
	}
}

func perWhat(units string) string {
	if units == "in" {
		return "inch"
	}
	return "centimetre"
}

// fills is how full each kind of weft of a piece is: body, plain stretches, hems.
func (m *maker) fills(piece int) (all []fill) {
	weft := m.b.Pieces[piece].Weft
	ground := m.roundMM(weft.Ground, 1)
	if m.plan.Pieces[piece].EndPicks() > 0 {
		hem := float64(m.roundMM(weft.Hem, 1) * exact.Float(m.b.Cloth.HemGround.PerMM))
		all = append(all, fill{piece, "hems", hem})
	}
	in := m.in(piece)
	unitMM := exact.Float(in.unitMM)
	groundMM := float64(ground * float64(in.GroundPicks()))
	for _, r := range m.weftRuns[piece] {
		if r.Block < 0 {
			all = append(all, fill{piece, "plain stretches", groundMM / unitMM})
			continue
		}
		pattern := float64(m.roundMM(r.Colour, m.b.Cloth.Strands) * float64(in.PatternPicks()))
		all = append(all, fill{piece, "body", (groundMM + pattern) / unitMM})
	}
	return all
}

// roundMM is the diameter of strands of a colour's yarn as one round yarn.
func (m *maker) roundMM(colour, strands int) float64 {
	y := m.b.Yarns[m.b.Colours[colour].Yarn]
	if y.Wraps != nil {
		return yarn.DiameterOfWrapsMM(exact.Float(y.Wraps.PerMM), strands)
	}
	return yarn.DiameterMM(exact.Float(y.Tex), strands)
}

// gramsPerM2 is the weight of warp and weft in the pieces over their finished
// area with hems unfolded. Waste is left out: a pick counts as long as the reed is
// wide, since turns and tails come on top.
func (m *maker) gramsPerM2() float64 {
	woven := new(big.Rat)
	for _, mm := range m.pieceWovenMM {
		woven = exact.Plus(woven, mm)
	}
	grams := m.warpGrams(exact.Over(woven, exact.Remains(m.b.Cloth.TakeUp.Part)))
	for i := range m.b.Pieces {
		grams = exact.Plus(grams, m.weftGrams(i))
	}
	length := exact.Times(woven, exact.Remains(m.b.Cloth.ShrinkLength.Part))
	area := exact.Times(length, exact.Times(m.reedWidthMM, m.widthLeft()))
	return exact.Rounded(exact.Over(exact.Times(grams, exact.Whole(1_000_000)), area))
}

// warpGrams is the weight of all ends over a length of wound warp in mm.
func (m *maker) warpGrams(wound *big.Rat) *big.Rat {
	ends := make([]int, len(m.b.Colours))
	for i, r := range m.warpRuns {
		ends[r.Colour] += m.plan.Warp.Runs[i].Ends
	}
	if m.b.Cloth.FloatingSelvedge {
		ends[m.warpRuns[0].Colour]++
		ends[m.warpRuns[len(m.warpRuns)-1].Colour]++
	}
	return m.gramsOf(ends, wound)
}

// weftGrams is the weight of a piece's weft, hems included, without separators.
func (m *maker) weftGrams(piece int) *big.Rat {
	weft, p := m.b.Pieces[piece].Weft, m.plan.Pieces[piece]
	picks := make([]int, len(m.b.Colours))
	if p.EndPicks() > 0 {
		picks[weft.Hem] += 2 * p.EndPicks()
	}
	for j, r := range m.weftRuns[piece] {
		picks[weft.Ground] += p.Runs[j].GroundPicks
		if r.Block >= 0 {
			picks[r.Colour] += p.Runs[j].PatternPicks * m.b.Cloth.Strands
		}
	}
	return m.gramsOf(picks, m.reedWidthMM)
}

// gramsOf is the weight of so many threads of each colour, all of one length in mm.
func (m *maker) gramsOf(threads []int, mm *big.Rat) *big.Rat {
	grams := new(big.Rat)
	for colour, n := range threads {
		if n > 0 {
			metres := exact.Over(exact.Times(exact.Whole(n), mm), exact.Whole(1000))
			grams = exact.Plus(grams, yarn.Grams(metres, m.tex(colour)))
		}
	}
	return grams
}

func (m *maker) tex(colour int) *big.Rat {
	return m.b.Yarns[m.b.Colours[colour].Yarn].Tex
}
