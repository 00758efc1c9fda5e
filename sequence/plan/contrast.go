package plan

import (
	"math"

	"stripesong/palette"
)

// DistancesM are the distances contrast is graded at: in the hand, across the
// table, across the room.
var DistancesM = []float64{0.4, 2, 5}

// gradedAt is which of them decides warnings.
const gradedAt = 1

var sights = []palette.Sight{palette.Normal, palette.Protan, palette.Deutan}

// contrasts works out every trio that meets in each piece, the sides of the
// pieces, and the mixed colours that occur.
func (m *maker) contrasts() {
	for _, c := range m.used {
		m.plan.Colours = append(m.plan.Colours, m.colourLine(c))
	}
	mixes := make(map[trio]bool)
	for i := range m.plan.Pieces {
		p := &m.plan.Pieces[i]
		for _, t := range m.trios(i) {
			if !mixes[t] {
				mixes[t] = true
				m.addMixes(t)
			}
			if t.pattern >= 0 {
				p.Contrast = append(p.Contrast, m.contrast(t, m.narrowestMM(i, t)))
			}
		}
		p.Face, p.Back = m.side(i, false), m.side(i, true)
	}
}

func (m *maker) colourLine(c int) Colour {
	from := m.b.Colours[c]
	return Colour{Name: from.Name, Hex: from.Hex, Yarn: m.b.Yarns[from.Yarn].Name, Lab: labOf(m.look.light[c].Lab())}
}

func labOf(l palette.Lab) [3]float64 { return lab4([3]float64{l.L, l.A, l.B}) }

// trios lists what meets in a piece: by warp colour, then pattern colour, each
// in the order of its first run; plain ground last.
func (m *maker) trios(piece int) []trio {
	ground := m.b.Pieces[piece].Weft.Ground
	var found []trio
	seen := make(map[trio]bool)
	for _, w := range m.warpRuns {
		for _, r := range m.weftRuns[piece] {
			if t := (trio{w.Colour, ground, r.Colour}); !seen[t] {
				seen[t] = true
				found = append(found, t)
			}
		}
	}
	return found
}

// narrowestMM is the narrowest finished edge, warp run or weft run, where a
// trio meets in a piece.
func (m *maker) narrowestMM(piece int, t trio) float64 {
	endMM := value(over(m.widthLeft(), m.b.Cloth.Sett.PerMM))
	unitMM := value(times(m.weftUnitMM, remains(m.b.Cloth.ShrinkLength.Part)))
	least := math.Inf(1)
	for _, r := range m.warpRuns {
		if r.Colour == t.warp {
			least = min(least, float64(r.Units*m.s.UnitEnds())*endMM)
		}
	}
	for _, r := range m.weftRuns[piece] {
		if r.Colour == t.pattern {
			least = min(least, float64(r.Units)*unitMM)
		}
	}
	return least
}

func (m *maker) contrast(t trio, widthMM float64) Contrast {
	x := m.look.of(t)
	c := Contrast{Warp: m.colour(t.warp), Ground: m.colour(t.ground), Pattern: m.colour(t.pattern),
		On: labOf(x.onLab), Off: labOf(x.offLab), NarrowestM: round4(widthMM),
		DeltaL: round4(math.Abs(x.onLab.L - x.offLab.L)), DeltaE: round4(palette.DeltaE00(x.onLab, x.offLab))}
	worst, decisive := palette.Normal, seenAt(x, palette.Normal, widthMM, DistancesM[gradedAt])
	for _, sight := range sights[1:] {
		if s := seenAt(x, sight, widthMM, DistancesM[gradedAt]); worse(s, decisive) {
			worst, decisive = sight, s
		}
	}
	c.Vision = worst.String()
	for _, d := range DistancesM {
		s := seenAt(x, worst, widthMM, d)
		c.Seen = append(c.Seen, Seen{DistanceM: d, DeltaL: round4(s.deltaL), DeltaE: round4(s.deltaE), Grade: s.grade.String()})
	}
	c.HueOnly = palette.HueOnly(decisive.deltaL, decisive.deltaE)
	return c
}

type seen struct {
	deltaL, deltaE float64
	grade          palette.Grade
}

// seenAt is what one sight has left of a contrast at a distance.
func seenAt(x mixed, sight palette.Sight, widthMM, distanceM float64) seen {
	on, off := sight.See(x.on), sight.See(x.off)
	a, b := palette.SeenStripes(on.XYZ(), off.XYZ(), widthMM, distanceM)
	la, lb := a.Lab(), b.Lab()
	s := seen{deltaL: math.Abs(la.L - lb.L), deltaE: palette.DeltaE00(la, lb)}
	s.grade = palette.GradeOf(s.deltaL, s.deltaE)
	return s
}

func micro(v float64) int64 { return int64(math.Round(float64(v * 1e6))) }

// worse compares by grade, then by lightness in millionths.
func worse(a, b seen) bool {
	if a.grade != b.grade {
		return a.grade < b.grade
	}
	return micro(a.deltaL) < micro(b.deltaL)
}

func (m *maker) addMixes(t trio) {
	x := m.look.of(t)
	add := func(state string, c palette.Linear, lab palette.Lab) {
		m.plan.Mixes = append(m.plan.Mixes, Mix{Warp: m.colour(t.warp), Ground: m.colour(t.ground), Pattern: m.colour(t.pattern),
			State: state, Hex: c.RGB().Hex(), Lab: labOf(lab)})
	}
	if t.pattern < 0 {
		add("plain", x.on, x.onLab)
		return
	}
	add("on", x.on, x.onLab)
	add("off", x.off, x.offLab)
}

// side is the mean lightness of one side of a piece's body and the share of it
// that is pattern area, both by area.
func (m *maker) side(piece int, back bool) Side {
	ground := m.b.Pieces[piece].Weft.Ground
	var light float64
	var pattern, all int
	for _, w := range m.warpRuns {
		for _, r := range m.weftRuns[piece] {
			area := w.Units * r.Units
			all += area
			light += float64(float64(area) * m.look.lab(w, r, ground, back).L)
			if r.Block >= 0 && (w.Block == r.Block) != back {
				pattern += area
			}
		}
	}
	return Side{MeanL: round4(light / float64(all)), PatternShare: round4(float64(pattern) / float64(all))}
}
