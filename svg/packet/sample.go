package packet

import (
	"fmt"
	"html/template"
	"slices"

	"stripesong/sequence/loomwork"
)

// sample is the sheet of what is woven and washed before the set.
type sample struct {
	Keep, Woven, Parts, Beat string
	Picks                    int
	Opener                   string
	Selvedges                bool
	Colours                  template.HTML
	Steps                    []step // the last woven first, as they stand on the page
	Sizes                    []sampleSize
	Retie                    string // warp reckoned for tying on again; "" for none
}

// sampleSize is one size of the sample, on the loom and washed.
type sampleSize struct{ Name, Woven, Washed string }

// sample is nil where none is woven.
func (m *maker) sample() *sample {
	steps := loomwork.SampleStepsOf(m.Plan)
	if len(steps) == 0 {
		return nil
	}
	s := &sample{Selvedges: m.Warp.FloatingSelvedgeEnds > 0, Woven: m.mm(m.Plan.Sample.WovenMM), Picks: steps[len(steps)-1].Picks, Parts: m.sampleParts(),
		Opener: m.opener(), Beat: m.sampleBeat(), Colours: listed(m.used(steps), "")}
	s.Steps = m.rows(steps)
	s.Keep = keepSteps("sample", s.Steps)
	slices.Reverse(s.Steps)
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
	words := fmt.Sprintf("each block with %s", count(len(colours), "pattern colour"))
	if m.Plan.Sample.HemPicks > 0 {
		words = "a stretch of hem, then " + words
	}
	return words
}
