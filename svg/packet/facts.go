package packet

import (
	"fmt"
	"html/template"
	"math"
	"slices"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// wovenOf is a line of what the set is woven of, as a printed pattern has it.
type wovenOf struct {
	Name  string
	Words string
	Chips []template.HTML
}

// wovenOf lists yarns by their use, how close they lie, sizes and the loom.
func (m *maker) wovenOf() (all []wovenOf) {
	all = append(all, m.yarnsOf("Warp", "", m.isWarp)...)
	all = append(all, m.yarnsOf("Ground weft", "", m.isGround)...)
	all = append(all, m.yarnsOf("Pattern weft", m.strands(), m.isPattern)...)
	all = append(all, m.yarnsOf(m.endsTitle(), "", m.isHem)...)
	all = append(all, m.yarnsOf("Separators", "", m.isSeparator)...)
	add := func(name, words string) { all = append(all, wovenOf{Name: name, Words: words}) }
	add("Sett", m.settWords())
	add("Picks", m.beatWords())
	add("Weft", m.pickWords())
	add("Width", fmt.Sprintf("in the reed %s, at the fell %s, finished %s",
		m.mm(m.Warp.ReedWidthMM), m.mm(m.Warp.WovenWidthMM), m.mm(m.Warp.FinishedWidthMM)))
	add("Length", m.lengthWords())
	add("Loom", m.loomWords())
	return all
}

// isWarp tells whether a colour is in the warp.
func (m *maker) isWarp(y plan.Yarn) bool {
	return slices.ContainsFunc(m.Warp.Runs, func(r plan.WarpRun) bool {
		return r.Colour == y.Colour
	})
}

// isPattern tells whether a colour is thrown as pattern.
func (m *maker) isPattern(y plan.Yarn) bool {
	return slices.ContainsFunc(m.Pieces, func(p plan.Piece) bool {
		return slices.ContainsFunc(p.Runs, func(r plan.WeftRun) bool {
			return r.Pattern == y.Colour
		})
	})
}

// isGround tells whether a colour is thrown as ground, hems and separators apart.
func (m *maker) isGround(y plan.Yarn) bool {
	return slices.ContainsFunc(m.Pieces, func(p plan.Piece) bool {
		return slices.ContainsFunc(p.Runs, func(r plan.WeftRun) bool {
			return r.Ground == y.Colour
		})
	})
}

// isHem tells whether a colour is a hem's, of a piece that has another ground, or of the
// sample alone.
func (m *maker) isHem(y plan.Yarn) bool {
	if s := m.Plan.Sample; s != nil && s.HemPicks > 0 && s.Hem == y.Colour && !m.isGround(y) {
		return true
	}
	return y.HemM > 0 && slices.ContainsFunc(m.Pieces, func(p plan.Piece) bool {
		return p.Hem == y.Colour &&
			!slices.ContainsFunc(p.Runs, func(r plan.WeftRun) bool { return r.Ground == y.Colour })
	})
}

// isSeparator tells whether a colour is a separator's, and no ground's or hem's.
func (m *maker) isSeparator(y plan.Yarn) bool { return y.SepM > 0 && !m.isGround(y) && !m.isHem(y) }

// yarnsOf is a line for each yarn that some of the colours are of; more is said after
// each.
func (m *maker) yarnsOf(use, more string, has func(plan.Yarn) bool) (all []wovenOf) {
	for _, t := range m.Yarns {
		line := wovenOf{Name: use, Words: m.thickness(t) + more}
		for _, y := range m.Yarn {
			if y.Yarn == t.Yarn && has(y) {
				line.Chips = append(line.Chips, m.chips[y.Colour])
			}
		}
		if line.Chips != nil {
			all = append(all, line)
		}
	}
	return all
}

// pieceBeat is how close the picks of one piece lie, and of how many strands its
// pattern weft is.
func (m *maker) pieceBeat(p plan.Piece) string {
	return m.bodyBeat(m.UnitMM(&p), p.PickOrder) + " picks" + m.strands() + m.stripeBeat(p) +
		m.plainBeat(p.EndPicks() > 0, p.SeparatorPick > 0)
}

// stripeBeat is how close the picks of plain stripes in a piece lie, which are as long as units
// with pattern; "" where it has none.
func (m *maker) stripeBeat(p plan.Piece) string {
	if !hasStripes(p) {
		return ""
	}
	return "; plain stripes " + m.groundBeat(m.UnitMM(&p), p.PickOrder)
}

// hasStripes tells whether a piece has plain stripes.
func hasStripes(p plan.Piece) bool {
	return slices.ContainsFunc(p.Runs, func(r plan.WeftRun) bool { return r.Block == "" })
}

// groundBeat is how close the ground picks of a body lie.
func (m *maker) groundBeat(unitMM float64, order string) string {
	return measure.FormatDensity(float64(m.InOrder(order).GroundPicks())/unitMM, m.Units)
}

// sampleBeat is how close the picks of the sample lie, which is woven in the structure's own
// order, and of how many strands its pattern weft is.
func (m *maker) sampleBeat() string {
	return m.bodyBeat(m.Cloth.WeftUnitMM, "") + " picks" + m.strands() +
		m.plainBeat(m.Plan.Sample.HemPicks > 0, false)
}

// plainBeat is how close the picks of hems and separators lie; "" where there are none.
func (m *maker) plainBeat(hems, separators bool) string {
	var what []string
	if hems {
		what = append(what, m.endsName())
	}
	if separators {
		what = append(what, "separators")
	}
	if what == nil {
		return ""
	}
	return fmt.Sprintf("; %s %s", plan.List(what),
		measure.FormatDensity(m.Cloth.HemGroundPerCM/10, m.Units))
}

// thickness is a yarn's name, its count and what runs to the kilogram or pound.
func (m *maker) thickness(t plan.Thickness) string {
	run := fmt.Sprintf("%s m/kg", threeFigures(1e6/t.Tex))
	if m.Units == "in" {
		const gramsPerPound, metresPerYard = 453.59237, 0.9144
		run = fmt.Sprintf("%s yd/lb", threeFigures(1000*gramsPerPound/metresPerYard/t.Tex))
	}
	count := seen(t.Count)
	if strings.Contains(count, "/kg") || strings.Contains(count, "/lb") {
		return fmt.Sprintf("%s, %s", seen(t.Yarn), count)
	}
	if count == "" || count == seen(t.Yarn) {
		return fmt.Sprintf("%s, about %s", seen(t.Yarn), run)
	}
	return fmt.Sprintf("%s, %s, about %s", seen(t.Yarn), count, run)
}

// threeFigures rounds to three figures: a count is known no better.
func threeFigures(v float64) string {
	if v <= 0 || math.IsInf(v, 0) {
		return fmt.Sprint(v)
	}
	step := math.Pow(10, max(0, math.Floor(math.Log10(v))-2))
	return fmt.Sprintf("%.0f", float64(math.Round(v/step)*step))
}

func (m *maker) strands() string {
	if m.Cloth.Strands == 1 {
		return ", single"
	}
	return fmt.Sprintf(", %d strands wound together", m.Cloth.Strands)
}

func (m *maker) settWords() string {
	sett := measure.FormatDensity(m.Warp.SettPerCM/10, m.Units)
	s := loomwork.SleyingOf(m.Plan)
	if s == nil {
		return sett
	}
	return fmt.Sprintf("%s, in a reed of %s dents, %s", sett, seen(m.Loom.Reed), sleyWords(s))
}

// beatWords is how close the picks lie, under tension.
func (m *maker) beatWords() string {
	words := m.bodyBeat(m.Cloth.WeftUnitMM, "")
	if slices.ContainsFunc(m.Pieces, func(p plan.Piece) bool { return p.PickOrder != "" }) {
		words += ", but where a piece has an order of its own"
	}
	if slices.ContainsFunc(m.Pieces, hasStripes) {
		words += "; plain stripes " + m.groundBeat(m.Cloth.WeftUnitMM, "") + ", ground alone"
	}
	hems := slices.ContainsFunc(m.Pieces, func(p plan.Piece) bool { return p.EndPicks() > 0 }) ||
		m.Plan.Sample != nil && m.Plan.Sample.HemPicks > 0
	separators := slices.ContainsFunc(m.Pieces, func(p plan.Piece) bool {
		return p.SeparatorPick > 0
	})
	if plain := m.plainBeat(hems, separators); plain != "" {
		words += plain + ", ground alone"
	}
	return words
}

// pickWords is what one pick takes of its yarn.
func (m *maker) pickWords() string {
	words := fmt.Sprintf("%s for each pick: the width in the reed, and %s more for its curve, "+
		"its turns and its tails",
		m.mm(float64(m.Warp.ReedWidthMM*(1+m.Cloth.WeftExtra))), percent(m.Cloth.WeftExtra))
	if m.Cloth.Strands > 1 {
		words += fmt.Sprintf("; a pattern pick takes %d times that", m.Cloth.Strands)
	}
	return words
}

// bodyBeat is the picks of a body: those of a piece's own order, or of the structure's
// where that is "".
func (m *maker) bodyBeat(unitMM float64, order string) string {
	pattern := float64(m.InOrder(order).PatternPicks()) / unitMM
	return fmt.Sprintf("%s ground and %s pattern", m.groundBeat(unitMM, order),
		measure.FormatDensity(pattern, m.Units))
}

// lengthWords is the length of the pieces, or between which they lie.
func (m *maker) lengthWords() string {
	woven, finished := make([]float64, len(m.Pieces)), make([]float64, len(m.Pieces))
	for i, p := range m.Pieces {
		woven[i], finished[i] = p.WovenMM, p.FinishedMM
	}
	between := func(all []float64) string {
		least, most := m.mm(slices.Min(all)), m.mm(slices.Max(all))
		if least == most {
			return least
		}
		return least + " to " + most
	}
	ready := "finished"
	if m.Pieces[0].HemPicks > 0 {
		ready += " and hemmed"
	}
	words := fmt.Sprintf("on the loom %s, %s %s", between(woven), ready, between(finished))
	if m.Cloth.FringeMM > 0 {
		words += fmt.Sprintf("; at each end %s of bare warp besides, on the loom: a fringe is "+
			"shorter once it is knotted", m.mm(m.Cloth.FringeMM))
	}
	return words
}

func (m *maker) loomWords() string {
	words := fmt.Sprintf("%d shafts, ", m.Weave.Shafts)
	switch {
	case m.Loom.Treadles == 0:
		words += "levers"
	case m.Loom.Direct():
		words += fmt.Sprintf("%d treadles, one to each shaft, %s shed", m.Loom.TreadlesUsed,
			m.Loom.Shed)
	case m.Loom.Shed == "both":
		words += m.treadleWords() + ", shafts tied to rise and to sink"
	default:
		words += fmt.Sprintf("%s, %s shed", m.treadleWords(), m.Loom.Shed)
	}
	return words + fmt.Sprintf("; at least %s wide", measure.FormatLeast(m.loomWidthMM(), m.Units))
}

// treadleWords says how many treadles are tied, and which where the loom has more.
func (m *maker) treadleWords() string {
	used := m.Loom.TreadlesUsed
	if m.Loom.Treadles <= used {
		return fmt.Sprintf("%d treadles", used)
	}
	var numbers []string
	for _, t := range m.tie.Treadles {
		numbers = append(numbers, fmt.Sprint(t.Number))
	}
	return fmt.Sprintf("%d treadles, of which %d are tied (%s from the left)", m.Loom.Treadles,
		used, plan.List(numbers))
}

// loomWidthMM is how wide warp and floating selvedges lie in the reed; without a reed an end
// takes as much as at the sett.
func (m *maker) loomWidthMM() float64 {
	beside := float64(m.Warp.FloatingSelvedgeEnds)
	if s := loomwork.SleyingOf(m.Plan); s != nil {
		return s.WidthMM / float64(s.Dents) * (float64(s.Dents) + beside)
	}
	return m.Warp.ReedWidthMM + float64(beside*10)/m.Warp.SettPerCM
}
