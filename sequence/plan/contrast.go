package plan

import (
	"context"
	"math"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
	"stripesong/sequence/weave"
)

// contrasts works out every trio that meets in each piece, the sides of the
// pieces, and the mixed colours that occur.
func (m *maker) contrasts(ctx context.Context) error {
	for _, c := range m.used {
		m.plan.Colours = append(m.plan.Colours, m.colourLine(c))
		m.addThickness(m.b.Colours[c].Yarn)
	}
	mixes := make(map[look.Trio]bool)
	for i := range m.plan.Pieces {
		if err := ctx.Err(); err != nil {
			return err
		}
		p := &m.plan.Pieces[i]
		edge := m.narrowestMM(i)
		for _, t := range append(m.trios(i), m.hemTrios(i)...) {
			if mixed := mixedAs(t); !mixes[mixed] {
				mixes[mixed] = true
				m.addMixes(mixed)
			}
			if t.Pattern >= 0 {
				p.Contrast = append(p.Contrast, m.contrast(t, edge(t)))
			}
		}
		p.Face, p.Back = m.side(i, false), m.side(i, true)
		p.Lighter = m.lighter(i)
		p.MoreSides = m.moreOf(i, p.Lighter)
	}
	return nil
}

func (m *maker) colourLine(c int) Colour {
	from := m.b.Colours[c]
	w := m.look.YarnWidths(c)
	return Colour{
		Name: from.Name,
		RGB:  from.RGB,
		Yarn: m.b.Yarns[from.Yarn].Name,
		Lab:  m.look.Light(c).Lab().Rounded(),
		Widths: Widths{exact.RoundTo(w.Pattern, 4), exact.RoundTo(w.Warp, 4),
			exact.RoundTo(w.Ground, 4), exact.RoundTo(w.Hem, 4)},
	}
}

// addThickness tells a yarn of the set once.
func (m *maker) addThickness(yarn int) {
	y := m.b.Yarns[yarn]
	told := func(t Thickness) bool { return t.Yarn == y.Name }
	if !slices.ContainsFunc(m.plan.Yarns, told) {
		m.plan.Yarns = append(m.plan.Yarns,
			Thickness{Yarn: y.Name, Count: y.Count, Tex: exact.Rounded(y.Tex)})
	}
}

// trios lists what meets in a piece: by warp colour, then pattern colour, each
// in the order of its first run; plain ground last.
func (m *maker) trios(piece int) []look.Trio {
	in := m.groundIn(piece)
	var found []look.Trio
	patterns := colours(m.weftRuns[piece])
	for _, w := range colours(m.warpRuns) {
		for _, c := range patterns {
			found = append(found,
				look.Trio{Warp: w, Ground: in.ground, Pattern: c, Weave: in.weave})
		}
	}
	return found
}

// hemTrios lists what meets in the hems of a piece.
func (m *maker) hemTrios(piece int) (found []look.Trio) {
	if m.plan.Pieces[piece].EndPicks() == 0 {
		return nil
	}
	for _, w := range colours(m.warpRuns) {
		found = append(found,
			look.Trio{Warp: w, Ground: m.b.Pieces[piece].Weft.Hem, Pattern: look.Hem})
	}
	return found
}

// narrowestMM gives the narrowest finished edge, warp run or weft run, where a
// trio meets in a piece.
func (m *maker) narrowestMM(piece int) func(look.Trio) float64 {
	endMM := exact.Float(exact.Over(m.widthLeft(), m.b.Cloth.Sett.PerMM))
	unitMM := exact.Float(exact.Times(m.in(piece).unitMM,
		exact.Remains(m.b.Cloth.ShrinkLength.Part)))
	warp, weft := m.narrowestEnds(), narrowest(m.weftRuns[piece])
	return func(t look.Trio) float64 {
		return min(float64(warp[t.Warp])*endMM, float64(weft[t.Pattern])*unitMM)
	}
}

// narrowestEnds is the fewest ends of a warp run of each colour.
func (m *maker) narrowestEnds() map[int]int {
	least := make(map[int]int)
	for i, r := range m.warpRuns {
		ends := m.plan.Warp.Runs[i].Ends
		if n, ok := least[r.Colour]; !ok || ends < n {
			least[r.Colour] = ends
		}
	}
	return least
}

func (m *maker) contrast(t look.Trio, widthMM float64) Contrast {
	x := m.look.Patch(t)
	c := Contrast{
		Warp:        m.colour(t.Warp),
		Ground:      m.colour(t.Ground),
		Pattern:     m.colour(t.Pattern),
		On:          x.OnLab.Rounded(),
		Off:         x.OffLab.Rounded(),
		DeltaL:      exact.RoundTo(math.Abs(x.OnLab.L-x.OffLab.L), 4),
		DeltaE:      exact.RoundTo(palette.DeltaE00(x.OnLab, x.OffLab), 4),
		NarrowestMM: exact.RoundTo(widthMM, 4),
		Shares:      OnOff{sharesOf(m.look.OnShares(t)), sharesOf(m.look.OffShares(t))},
	}
	worst, decisive := look.Worst(x.On, x.Off, widthMM, look.DecisiveM)
	c.Vision = worst
	for _, d := range look.DistancesM {
		s := look.See(x.On, x.Off, worst, widthMM, d)
		seen := Seen{DistanceM: d, DeltaL: exact.RoundTo(math.Abs(s.DeltaL), 4),
			DeltaE: exact.RoundTo(s.DeltaE, 4), Grade: s.Grade}
		if !m.look.Known() {
			seen.Range = RangeOf(m.look.Range(t, worst, widthMM, d))
		}
		c.Seen = append(c.Seen, seen)
	}
	c.Range = c.At(look.DecisiveM).Range.lightness()
	c.HueOnly = decisive.HueOnly()
	return c
}

func sharesOf(s look.Shares) [3]float64 {
	return [3]float64{exact.RoundTo(s.Pattern, 4), exact.RoundTo(s.Warp, 4),
		exact.RoundTo(s.Ground, 4)}
}

// RangeOf is a range of what is seen as a plan has it, rounded.
func RangeOf(r look.Range) *Range {
	return &Range{
		DeltaL: [2]float64{
			exact.RoundTo(math.Abs(r.Least.DeltaL), 4),
			exact.RoundTo(math.Abs(r.Greatest.DeltaL), 4),
		},
		Grades: [2]palette.Grade{r.Least.Grade, r.Greatest.Grade},
	}
}

// mixedAs is a trio as far as its mix goes: in plain ground the order of picks does
// not count.
func mixedAs(t look.Trio) look.Trio {
	if t.Pattern < 0 {
		t.Weave = 0
	}
	return t
}

// addMixes adds the colours of a trio: for pattern weft one for each share of
// ends that it passes over somewhere in the structure, on either side.
func (m *maker) addMixes(t look.Trio) {
	mix := Mix{Warp: m.colour(t.Warp), Ground: m.colour(t.Ground), Pattern: m.colour(t.Pattern)}
	add := func(state State, phi float64) {
		shade := m.look.Shade(t, phi)
		mix.State, mix.Cover = state, exact.RoundTo(phi, 4)
		mix.RGB, mix.Lab = shade.Light.RGB(), shade.Lab.Rounded()
		m.plan.Mixes = append(m.plan.Mixes, mix)
	}
	switch t.Pattern {
	case look.Plain:
		add(Plain, 0)
	case look.Hem:
		add(InHem, 0)
	default:
		if t.Weave > 0 {
			mix.PickOrder = m.weaves[t.Weave].order
			mix.PatternWidth = exact.RoundTo(m.look.Widths(t).Pattern, 4)
		}
		for _, c := range m.covers(m.weaves[t.Weave].Structure) {
			add(c.state, c.phi)
		}
	}
}

// cover is a share of ends that pattern weft passes over on one side.
type cover struct {
	state State // [Covers] where it is meant to show there, [Behind] where not
	phi   float64
}

// covers lists the shares of ends that the structure's pattern weft passes over,
// each once, those of the face first.
func (m *maker) covers(s *weave.Structure) (all []cover) {
	for _, back := range []bool{false, true} {
		for _, own := range []bool{true, false} {
			state := Behind
			if own != back {
				state = Covers
			}
			for _, phi := range phis(s, own, back) {
				if !slices.ContainsFunc(all, func(c cover) bool { return c.phi == phi }) {
					all = append(all, cover{state, phi})
				}
			}
		}
	}
	return all
}

// phis lists the shares of ends covered, of a block that is woven or of others.
func phis(s *weave.Structure, own, back bool) (all []float64) {
	for i, woven := range s.Blocks {
		for j, lies := range s.Blocks {
			if (i == j) == own {
				all = append(all, look.Phi(s, woven.Letter, lies.Letter, back))
			}
		}
	}
	return all
}

// side is the mean lightness of one side of a piece's body and the share of it
// that is pattern area, both by area.
func (m *maker) side(piece int, back bool) Side {
	in := m.groundIn(piece)
	var light float64
	var pattern, all int
	weft := merged(m.weftRuns[piece])
	for _, w := range merged(m.warpRuns) {
		for _, r := range weft {
			area := w.Units * r.Units
			all += area
			light += float64(float64(area) * m.look.lab(w, r, in, back).L)
			if r.Block >= 0 && (w.Block == r.Block) != back {
				pattern += area
			}
		}
	}
	return Side{MeanL: exact.RoundTo(light/float64(all), 4),
		PatternShare: exact.RoundTo(float64(pattern)/float64(all), 4)}
}

// setSides is both sides of all bodies together, by area.
func (m *maker) setSides() {
	mean := func(side func(Piece) Side) Side {
		var light, pattern, all float64
		for i, p := range m.plan.Pieces {
			area := float64(float64(p.BodyUnits) * m.longer(i))
			all += area
			light += float64(area * side(p).MeanL)
			pattern += float64(area * side(p).PatternShare)
		}
		return Side{MeanL: exact.RoundTo(light/all, 4), PatternShare: exact.RoundTo(pattern/all, 4)}
	}
	m.plan.Set.Face = mean(func(p Piece) Side { return p.Face })
	m.plan.Set.Back = mean(func(p Piece) Side { return p.Back })
	m.plan.Set.Lighter = m.lighter(-1)
}
