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
	Selvedges                bool
	Colours                  template.HTML
	Lists                    []listPage
	Apart                    bool // what comes after the list begins a page
	Sizes                    []sampleSize
	Retie                    string // warp reckoned for tying on again; "" for none
	RetieUsual               string // what to write for it
	Bundle                   string // how wide one is
}

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
		RetieUsual: "25 cm"}
	if m.Units == "in" {
		s.RetieUsual = "10 in"
	}
	rows := m.rows(steps)
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
	if m.Cloth.RetieMM > 0 {
		s.Retie = m.mm(m.Cloth.RetieMM)
	}
	return s
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
