package plan

import (
	"math"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/look"
)

// DistancesM are the distances contrast is graded at.
var DistancesM = look.DistancesM

// gradedAt is which of them decides warnings.
var gradedAt = slices.Index(DistancesM, look.DecisiveM)

// contrasts works out every trio that meets in each piece, the sides of the
// pieces, and the mixed colours that occur.
func (m *maker) contrasts() {
	for _, c := range m.used {
		m.plan.Colours = append(m.plan.Colours, m.colourLine(c))
	}
	mixes := make(map[look.Trio]bool)
	for i := range m.plan.Pieces {
		p := &m.plan.Pieces[i]
		edge := m.narrowestMM(i)
		for _, t := range m.trios(i) {
			if !mixes[t] {
				mixes[t] = true
				m.addMixes(t)
			}
			if t.Pattern != look.Plain {
				p.Contrast = append(p.Contrast, m.contrast(t, edge(t)))
			}
		}
		p.Face, p.Back = m.side(i, false), m.side(i, true)
	}
}

func (m *maker) colourLine(c int) Colour {
	from := m.b.Colours[c]
	return Colour{Name: from.Name, Hex: from.Hex, Yarn: m.b.Yarns[from.Yarn].Name, Lab: labOf(m.look.Light(c).Lab())}
}

func labOf(l palette.Lab) [3]float64 { return lab4([3]float64{l.L, l.A, l.B}) }

// trios lists what meets in a piece: by warp colour, then pattern colour, each
// in the order of its first run; plain ground last.
func (m *maker) trios(piece int) []look.Trio {
	ground := m.b.Pieces[piece].Weft.Ground
	var found []look.Trio
	patterns := colours(m.weftRuns[piece])
	for _, w := range colours(m.warpRuns) {
		for _, c := range patterns {
			found = append(found, look.Trio{Warp: w, Ground: ground, Pattern: c})
		}
	}
	return found
}

// narrowestMM gives the narrowest finished edge, warp run or weft run, where a
// trio meets in a piece.
func (m *maker) narrowestMM(piece int) func(look.Trio) float64 {
	endMM := value(over(m.widthLeft(), m.b.Cloth.Sett.PerMM))
	unitMM := value(times(m.weftUnitMM, remains(m.b.Cloth.ShrinkLength.Part)))
	warp, weft := narrowest(m.warpRuns), narrowest(m.weftRuns[piece])
	return func(t look.Trio) float64 {
		return min(float64(warp[t.Warp]*m.s.UnitEnds())*endMM, float64(weft[t.Pattern])*unitMM)
	}
}

func (m *maker) contrast(t look.Trio, widthMM float64) Contrast {
	x := m.look.Patch(t)
	c := Contrast{Warp: m.colour(t.Warp), Ground: m.colour(t.Ground), Pattern: m.colour(t.Pattern),
		On: labOf(x.OnLab), Off: labOf(x.OffLab), NarrowestM: round4(widthMM),
		DeltaL: round4(math.Abs(x.OnLab.L - x.OffLab.L)), DeltaE: round4(palette.DeltaE00(x.OnLab, x.OffLab))}
	worst, decisive := look.Worst(x.On, x.Off, widthMM, look.DecisiveM)
	c.Vision = worst.String()
	for _, d := range DistancesM {
		s := look.See(x.On, x.Off, worst, widthMM, d)
		c.Seen = append(c.Seen, Seen{DistanceM: d, DeltaL: round4(math.Abs(s.DeltaL)), DeltaE: round4(s.DeltaE), Grade: s.Grade.String()})
	}
	c.HueOnly = decisive.HueOnly()
	return c
}

func (m *maker) addMixes(t look.Trio) {
	x := m.look.Patch(t)
	add := func(state string, c palette.Linear, lab palette.Lab) {
		m.plan.Mixes = append(m.plan.Mixes, Mix{Warp: m.colour(t.Warp), Ground: m.colour(t.Ground), Pattern: m.colour(t.Pattern),
			State: state, Hex: c.RGB().Hex(), Lab: labOf(lab)})
	}
	if t.Pattern == look.Plain {
		add("plain", x.On, x.OnLab)
		return
	}
	add("on", x.On, x.OnLab)
	add("off", x.Off, x.OffLab)
}

// side is the mean lightness of one side of a piece's body and the share of it
// that is pattern area, both by area.
func (m *maker) side(piece int, back bool) Side {
	ground := m.b.Pieces[piece].Weft.Ground
	var light float64
	var pattern, all int
	weft := merged(m.weftRuns[piece])
	for _, w := range merged(m.warpRuns) {
		for _, r := range weft {
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

// setSides is both sides of all bodies together, by area.
func (m *maker) setSides() {
	mean := func(side func(Piece) Side) Side {
		var light, pattern, all float64
		for _, p := range m.plan.Pieces {
			area := float64(p.BodyUnits)
			all += area
			light += float64(area * side(p).MeanL)
			pattern += float64(area * side(p).PatternShare)
		}
		return Side{MeanL: round4(light / all), PatternShare: round4(pattern / all)}
	}
	m.plan.Set.Face = mean(func(p Piece) Side { return p.Face })
	m.plan.Set.Back = mean(func(p Piece) Side { return p.Back })
}
