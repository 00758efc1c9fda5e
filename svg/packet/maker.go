package packet

import (
	"fmt"
	"hash/fnv"
	"html/template"
	"io"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
	"stripesong/svg"
)

// maker puts a plan into words. The first error of a drawing or a colour is
// kept.
type maker struct {
	*plan.Plan
	letters map[string]string
	chips   map[string]template.HTML
	tie     *loomwork.TieUp
	proof   template.HTML // the ruler that stands with every tape
	inline  svg.Inliner
	err     error
}

func newMaker(p *plan.Plan) *maker {
	m := &maker{Plan: p, letters: loomwork.LettersOf(p), chips: map[string]template.HTML{"": ""},
		tie: loomwork.TieUpOf(p)}
	for i, c := range p.Colours {
		m.chips[c.Name] = template.HTML(
			fmt.Sprintf(`<span class="chip"><i class="k%d"></i><b>%s</b> <span>%s</span></span>`,
				i, m.letters[c.Name], template.HTMLEscapeString(seen(c.Name))))
	}
	m.proof = m.draw(svg.Proof)
	return m
}

// seen is text of a brief, fit to be read; escaping is the template's.
func seen(s string) string { return svg.Visible(s) }

// draw is a drawing to stand in the page.
func (m *maker) draw(what func(io.Writer) error) template.HTML {
	s, err := m.inline.Draw(what)
	if err != nil && m.err == nil {
		m.err = err
	}
	return template.HTML(s)
}

func (m *maker) plan(what func(io.Writer, *plan.Plan) error) template.HTML {
	return m.draw(func(w io.Writer) error { return what(w, m.Plan) })
}

// colourStyles gives every chip its colour.
func (m *maker) colourStyles() string {
	var b strings.Builder
	for i, c := range m.Colours {
		fmt.Fprintf(&b, ".k%d{background:%s}\n", i, c.RGB.Hex())
	}
	return b.String()
}

func (m *maker) mm(v float64) string     { return measure.FormatLength(v, m.Units) }
func (m *maker) tapeMM(v float64) string { return loomwork.TapeLength(v, m.Units) } // in lists
func (m *maker) metres(v float64) string { return loomwork.YarnLength(v, m.Units) }
func (m *maker) grams(v float64) string  { return loomwork.YarnWeight(v, m.Units) }

// set names what all ticks of the page are kept under, so that those of one set are not
// seen in another: by its title and its warp, as a piece may be planned anew on a warp
// that is on the loom.
func (m *maker) set() string {
	w := m.Warp
	return keep("set", m.Title, fmt.Sprint(w.Runs, w.Ends, w.WoundMM))
}

// keep names what a part of the page keeps its ticks under: it changes with
// what is to be done there, so that a new plan does not show the ticks of
// another, and a change to one piece leaves the ticks of the rest.
func keep(part string, of ...string) string {
	h := fnv.New64a()
	for _, s := range of {
		io.WriteString(h, s+"\x00")
	}
	return fmt.Sprintf("%s-%016x", part, h.Sum64())
}

// colourView is a line of the key to the colours.
type colourView struct {
	Chip         template.HTML
	Letter, Yarn string
}

func (m *maker) colours() (all []colourView) {
	for _, c := range m.Colours {
		all = append(all, colourView{m.chips[c.Name], m.letters[c.Name], seen(c.Yarn)})
	}
	return all
}

// lead is the whole set in two sentences.
func (m *maker) lead() string {
	w := m.Warp
	ends := measure.Count(w.Ends, "end")
	if w.FloatingSelvedgeEnds > 0 {
		ends += " and " + measure.Count(w.FloatingSelvedgeEnds, "floating selvedge")
	}
	return fmt.Sprintf("%s of %s on one warp of %s, %s; the finished cloth weighs %s.",
		measure.Count(len(m.Pieces), "piece"), seen(weave.Spelt(m.Structure)), ends,
		m.warpSize(), measure.FormatCloth(m.GramsPerM2, m.Units))
}

// warpSize is how long and wide the warp is, or what is left of one that is on the loom.
func (m *maker) warpSize() string {
	wide := m.mm(m.Warp.ReedWidthMM) + " wide in the reed"
	if m.Midway != nil {
		return fmt.Sprintf("%s, which is on the loom with %s of it left", wide,
			m.mm(m.Midway.WarpMM))
	}
	return fmt.Sprintf("%s long as wound and %s", measure.FormatWarp(m.Warp.WoundMM, m.Units), wide)
}
