package svg

import (
	"fmt"
	"io"
	"math"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/contrast"
	"stripesong/sequence/measure"
)

// The sizes of the sheet of mixtures.
const (
	mixRows    = 16
	mixColumns = 6
	mixMargin  = 10 * mm
	mixNames   = 38 * mm
	mixPitch   = 24 * mm
	mixCell    = 21 * mm
	mixBlock   = mixCell / 4
	mixRow     = 2*mixBlock + 5*mm
	mixTop     = 42 * mm
	mixGap     = 12 * mm
)

// mixtures is the sheet of what woven combinations look like.
type mixtures struct {
	*pen
	report  *contrast.Report
	rows    []string // pattern colours, the plainest first
	columns []over
}

// over is what a column's patterns lie on: a ground on a warp colour.
type over struct {
	ground string
	warp   int // place in the report's warp
}

// Contrast draws contrast.svg: a grid of woven mixtures, pattern areas beside
// ground areas as they would lie, with their grades; and the same grid in grey,
// which is the test weavers do with a camera. Rows are pattern colours, the
// plainest first; columns the grounds in use over the colours of the warp. Of a
// large shelf the best are shown and those in use, and it says how many more
// there are.
func Contrast(w io.Writer, r *contrast.Report) error {
	m := &mixtures{report: r}
	m.choose()
	grid := um(len(m.columns)) * mixPitch
	width := max(2*mixMargin+mixNames+2*grid+mixGap, 200*mm)
	height := mixTop + um(len(m.rows))*mixRow + 22*mm
	m.pen = open(w, width, height, "What shows on this warp",
		fmt.Sprintf("Woven mixtures for %q: pattern colours by row, grounds and warp colours by "+
			"column, in colour and in grey.", r.Title))
	m.heading(width)
	m.grid(mixMargin+mixNames, false)
	m.grid(mixMargin+mixNames+grid+mixGap, true)
	m.names()
	m.legend(height, width)
	return m.finish()
}

// choose picks rows and columns.
func (m *mixtures) choose() {
	for _, ground := range m.report.Grounds {
		for w := range m.report.Warp {
			if len(m.columns) < mixColumns {
				m.columns = append(m.columns, over{ground, w})
			}
		}
	}
	var order []*contrast.Pair
	used := make(map[string]bool)
	for i := range m.report.Pairs {
		p := &m.report.Pairs[i]
		used[p.Pattern] = used[p.Pattern] || p.Meets
		if p.Ground == m.report.Grounds[0] {
			order = append(order, p)
		}
	}
	spare := mixRows - len(used)
	for _, used := range used {
		if !used {
			spare++
		}
	}
	for _, p := range order {
		if !used[p.Pattern] {
			spare--
		}
		if len(m.rows) < mixRows && (used[p.Pattern] || spare >= 0) {
			m.rows = append(m.rows, p.Pattern)
		}
	}
}

func (m *mixtures) heading(width um) {
	r := m.report
	m.text(mixMargin, 14*mm, head, head.fit("What shows on this warp", width-2*mixMargin))
	lead := fmt.Sprintf("%s · seen from %s · of %s those that see it least decide · colours here "+
		"are not yarn", r.Title, measure.FormatDistance(r.DistanceM, r.Units), r.SightsInWords())
	m.text(mixMargin, 20*mm, body, body.fit(lead, width-2*mixMargin))
	grid := um(len(m.columns)) * mixPitch
	m.text(mixMargin+mixNames, 28*mm, title, title.fit("As woven", grid))
	m.text(mixMargin+mixNames+grid+mixGap, 28*mm, title, title.fit("In grey", grid))
}

// names heads rows with the pattern colours by themselves.
func (m *mixtures) names() {
	f := small.in(black)
	m.text(mixMargin, mixTop-2*mm, small, "pattern")
	for i, name := range m.rows {
		y := mixTop + um(i)*mixRow
		m.outlined(rect(mixMargin, y, 6*mm, 2*mixBlock), ink(m.colour(name).RGB), hair, 150)
		m.text(mixMargin+8*mm, y+mixBlock+f.size/3, f, f.fit(name, mixNames-10*mm))
	}
}

func (m *mixtures) colour(name string) contrast.ShelfColour {
	i := slices.IndexFunc(m.report.Colours, func(c contrast.ShelfColour) bool {
		return c.Name == name
	})
	if i < 0 {
		return contrast.ShelfColour{}
	}
	return m.report.Colours[i]
}

// grid draws all cells, and above them what they lie on.
func (m *mixtures) grid(x um, grey bool) {
	for c, column := range m.columns {
		left := x + um(c)*mixPitch
		m.text(left, mixTop-7*mm, small.in(black), small.fit("on "+column.ground, mixCell))
		m.text(left, mixTop-4*mm, small, small.fit("over "+m.report.Warp[column.warp], mixCell))
		m.chip(left, m.colour(column.ground), grey)
		m.chip(left+mixCell/2, m.colour(m.report.Warp[column.warp]), grey)
		for i, pattern := range m.rows {
			pair := m.report.PairOf(column.ground, pattern)
			m.cell(left, mixTop+um(i)*mixRow, m.report.Combos(pair)[column.warp], grey)
		}
	}
}

// chip is a yarn by itself above its column.
func (m *mixtures) chip(x um, c contrast.ShelfColour, grey bool) {
	with := c.RGB
	if grey {
		with = greyOf(c.Lab[0])
	}
	m.outlined(rect(x, mixTop-3*mm, mixCell/2, 1500), ink(with), hair, 100)
}

// cell draws pattern and ground areas as two blocks lie, and says how they
// show. What the plan weaves is framed.
func (m *mixtures) cell(x, y um, c contrast.Combo, grey bool) {
	on, off := c.OnRGB, c.OffRGB
	grade := c.Range.Or(c.Grade)
	says := fmt.Sprintf("%s %.0f", grade, math.Abs(c.SeenL))
	if grey {
		on, off = greyOf(c.On[0]), greyOf(c.Off[0])
		says = fmt.Sprintf("L* %.0f on %.0f", c.On[0], c.Off[0])
	}
	var blocks outline
	for i := range um(4) {
		blocks = blocks.rect(x+i*mixBlock, y+(i%2)*mixBlock, mixBlock, mixBlock)
	}
	m.group()
	m.title(fmt.Sprintf("%s on %s over %s: %s", c.Pattern, c.Ground, c.Warp, grade))
	m.fill(rect(x, y, mixCell, 2*mixBlock), ink(off))
	m.fill(blocks, ink(on))
	f := small
	if len(c.Pieces) > 0 {
		m.stroke(rect(x-400, y-400, mixCell+800, 2*mixBlock+800), black, 300)
		f = small.in(black)
	}
	m.text(x, y+2*mixBlock+3*mm, f, f.fit(says, mixPitch))
	m.end()
}

// greyOf is the grey of a lightness.
func greyOf(l float64) palette.RGB { return palette.Lab{L: l}.XYZ().Linear().RGB() }

func (m *mixtures) legend(height, width um) {
	f := small
	y := height - 15*mm
	for _, l := range m.legendLines() {
		for _, words := range f.wrap(l, width-2*mixMargin) {
			m.text(mixMargin, y, f, words)
			y += f.line()
		}
	}
}

func (m *mixtures) legendLines() []string {
	lines := []string{"Framed: woven in the plan. The number is the difference in lightness (L*) " +
		"that is left at that distance. On the back pattern and ground areas change places.",
		"Grades: below 3.4 faint, below 6.8 soft, below 13.6 clear, below 30 strong, else bold; " +
			"unseen where even the colours can't be told apart."}
	hidden := fmt.Sprintf("Not shown here, but in the report: %d more pattern colours",
		len(m.report.Colours)-len(m.rows))
	if all := len(m.report.Grounds) * len(m.report.Warp); all > len(m.columns) {
		hidden += fmt.Sprintf(" and %d more combinations of ground and warp", all-len(m.columns))
	}
	if hidden += "."; len(m.report.Colours) == len(m.rows) &&
		len(m.report.Grounds)*len(m.report.Warp) == len(m.columns) {
		return lines
	}
	return append(lines, hidden)
}
