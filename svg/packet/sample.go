package packet

import (
	"fmt"
	"html/template"
	"slices"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
)

// sample is the sheet of what is woven and washed before the set.
type sample struct {
	Keep, Woven, Parts, Beat string
	Picks                    int
	Selvedges, Wool          bool
	Colours                  template.HTML
	Lists                    []listPage
	Apart                    bool // what comes after the list begins a page
	Sizes                    []sampleSize
	Retie                    string // warp reckoned for tying on again; "" where it stays on
	Bundle                   string // how wide one is
	Line                     cutLine
	Off                      off
	Finishing, Measuring     int // parts of the page
}

// cutLine parts a sample that stays on the loom from the first piece.
type cutLine struct {
	Chip   template.HTML // of the yarn that is woven; "" where none is
	Strand string        // how many of its strands, where pattern weft has more
	Long   string        // what the picks take, out of the loom waste
	Bare   bool          // the first piece begins with bare warp
}

// off is how much a sample may be off the plan until something is done about it.
type off struct{ Share, Sample, Piece string }

// offShare is how much that is (common practice, no source: on a sample less can hardly
// be measured).
const offShare = 0.03

// sampleSize is one size of the sample, on the loom and washed.
type sampleSize struct{ Name, Woven, Washed string }

// afterSampleMM is about how high stands what is done with the sample once it is woven.
const afterSampleMM = 165

// sample is nil where none is woven.
func (m *maker) sample() *sample {
	steps := loomwork.SampleStepsOf(m.Plan)
	if len(steps) == 0 {
		return nil
	}
	s := &sample{Selvedges: m.Warp.FloatingSelvedgeEnds > 0, Woven: m.mm(m.Plan.Sample.WovenMM),
		Picks: steps[len(steps)-1].Picks, Parts: m.sampleParts(),
		Beat: m.sampleBeat(), Colours: listed(m.used(steps), ""), Bundle: m.bundle(),
		Wool: len(m.wool(nil)) > 0, Finishing: m.parts().Finishing, Measuring: m.parts().Measuring}
	rows := m.rows(steps, "")
	s.Keep = keepSteps("sample", rows)
	head := headMM(0, s.Beat, "Shuttles", namesOf(steps))
	var used float64
	s.Lists, used = m.lists(-1, head, steps, rows)
	s.Apart = used+afterSampleMM > pageMM
	washed := func(mm, shrinks float64) string { return m.mm(mm * (1 - shrinks)) }
	s.Sizes = []sampleSize{
		{"width", m.mm(m.Warp.WovenWidthMM), washed(m.Warp.WovenWidthMM, m.Cloth.ShrinkWidth)},
		{"length", s.Woven, washed(m.Plan.Sample.WovenMM, m.Cloth.ShrinkLength)},
	}
	s.Off = off{percent(offShare),
		m.mm(m.Plan.Sample.WovenMM * (1 - m.Cloth.ShrinkLength) * offShare),
		m.mm(m.Pieces[0].FinishedMM * offShare)}
	if m.sampleStays() {
		s.Line = m.cutLine()
	} else {
		s.Retie = m.mm(m.Cloth.RetieMM)
	}
	return s
}

// sampleStays tells whether a sample is woven that is not cut off before the pieces, since
// no warp is reckoned for tying on again.
func (m *maker) sampleStays() bool { return m.Plan.Sample != nil && m.Cloth.RetieMM == 0 }

// linePicks are those of a line to cut along.
const linePicks = 2

// cutLine is in the yarn of the first separator; where there are none a thread marks it.
func (m *maker) cutLine() cutLine {
	if m.Cloth.FringeMM > 0 {
		return cutLine{Bare: true}
	}
	first := m.Pieces[0]
	if first.SeparatorPick == 0 {
		return cutLine{}
	}
	return cutLine{Chip: m.chips[first.Separator], Strand: m.oneStrand(),
		Long: m.mm(linePicks * 10 / m.Cloth.HemGroundPerCM)}
}

// oneStrand says of ground and separators that they are single where the pattern weft is
// not.
func (m *maker) oneStrand() string {
	if m.Cloth.Strands == 1 {
		return ""
	}
	return ", one strand"
}

// sampleParts says what there is to see on it.
func (m *maker) sampleParts() string {
	var colours []string
	for _, r := range m.Plan.Sample.Runs {
		if r.Pattern != "" && !slices.Contains(colours, r.Pattern) {
			colours = append(colours, r.Pattern)
		}
	}
	words := fmt.Sprintf("each block with %s", measure.Count(len(colours), "pattern colour"))
	if m.Plan.Sample.HemPicks > 0 {
		words = m.plainStretch() + ", then " + words
	}
	return words
}
