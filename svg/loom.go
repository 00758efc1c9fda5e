package svg

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/plan"
)

// The squares of the drafts for the loom, large enough to follow from a bench.
const (
	cell    = 9 * mm
	draftX  = 22 * mm // for the numbers of the shafts
	draftY  = 8 * mm  // for what stands above
	beneath = 7 * mm
)

var (
	draftName   = font{size: 4200, bold: true, colour: black}
	draftNumber = font{size: 3400, colour: black}
)

// draft is squares over shafts, shaft 1 at the foot.
type draft struct {
	pen    *pen
	shafts int
}

func (d *draft) y(shaft int) um { return draftY + um(d.shafts-shaft)*cell }

// grid draws the empty squares of some columns.
func (d *draft) grid(x um, columns int) {
	lines := outline(nil)
	w, h := um(columns)*cell, um(d.shafts)*cell
	for k := range columns + 1 {
		lines = lines.line(x+um(k)*cell, draftY, x+um(k)*cell, draftY+h)
	}
	for k := range d.shafts + 1 {
		lines = lines.line(x, draftY+um(k)*cell, x+w, draftY+um(k)*cell)
	}
	d.pen.stroke(lines, quiet, 250)
}

// full fills a square and writes in it.
func (d *draft) full(x um, column, shaft int, s string) {
	left, top := x+um(column)*cell, d.y(shaft)
	d.pen.fill(rect(left+500, top+500, cell-mm, cell-mm), black)
	d.pen.text(left+cell/2, top+cell*68/100, draftName.in(paper).at(middle), s)
}

// empty writes in a square.
func (d *draft) empty(x um, column, shaft int, s string) {
	d.pen.text(x+um(column)*cell+cell/2, d.y(shaft)+cell*68/100, draftName.at(middle), s)
}

func (d *draft) shaftNumbers() {
	for shaft := 1; shaft <= d.shafts; shaft++ {
		d.pen.text(draftX-2*mm, d.y(shaft)+cell*65/100, draftNumber.at(end),
			"shaft "+strconv.Itoa(shaft))
	}
}

// Units draws one threading unit of each block, ends left to right, and turned round of
// each that is threaded so too.
func Units(w io.Writer, p *plan.Plan) error {
	s, all := p.Weave, unitsOf(p)
	unit, gap := s.UnitEnds(), cell
	width := draftX + um(len(all))*(um(unit)*cell+gap)
	height := draftY + um(s.Shafts)*cell + 2*mm
	d := &draft{open(w, width, height, "Threading of one unit of each block", unitsInWords(all)),
		s.Shafts}
	d.shaftNumbers()
	for i, one := range all {
		x := draftX + um(i)*(um(unit)*cell+gap)
		d.grid(x, unit)
		d.pen.text(x+um(unit)*cell/2, draftY-2*mm, draftName.at(middle), one.name)
		for column, shaft := range one.shafts {
			d.full(x, column, shaft, strconv.Itoa(shaft))
		}
	}
	return d.pen.finish()
}

// unit is a threading unit with what it is called.
type unit struct {
	name   string
	shafts []int
}

// unitsOf are those of all blocks, and turned round of the blocks that are threaded so.
func unitsOf(p *plan.Plan) (all []unit) {
	for _, block := range p.Weave.Blocks {
		all = append(all, unit{"block " + block.Letter, block.Unit})
	}
	for _, block := range p.Weave.Blocks {
		if slices.ContainsFunc(p.Warp.Runs, func(r plan.WarpRun) bool {
			return r.Turned && r.Block == block.Letter
		}) {
			shafts := slices.Clone(block.Unit)
			slices.Reverse(shafts)
			all = append(all, unit{block.Letter + " turned", shafts})
		}
	}
	return all
}

func unitsInWords(all []unit) string {
	var words []string
	for _, one := range all {
		words = append(words,
			fmt.Sprintf("%s: shafts %s", one.name, strings.Trim(fmt.Sprint(one.shafts), "[]")))
	}
	return strings.Join(words, "; ")
}

// TieUp draws which shafts are tied to which treadle of this loom.
func TieUp(w io.Writer, p *plan.Plan) error {
	tie := loomwork.TieUpOf(p)
	columns := treadlesOf(p, tie)
	shafts := p.Weave.Shafts
	d := &draft{open(w, draftX+um(columns)*cell+2*mm, draftY+um(shafts)*cell+beneath, "Tie-up",
		tieUpInWords(p, tie)), shafts}
	d.shaftNumbers()
	d.grid(draftX, columns)
	for k := range columns {
		d.pen.text(draftX+um(k)*cell+cell/2, draftY+um(shafts)*cell+5*mm, draftNumber.at(middle),
			strconv.Itoa(k+1))
	}
	for _, t := range tie.Treadles {
		d.pen.text(draftX+um(t.Number-1)*cell+cell/2, draftY-2*mm, draftName.at(middle), t.Name)
		ties(t, p.Loom.Shed,
			func(shaft int, sign string) { d.full(draftX, t.Number-1, shaft, sign) },
			func(shaft int, sign string) { d.empty(draftX, t.Number-1, shaft, sign) })
	}
	return d.pen.finish()
}

// treadlesOf is how many treadles a tie-up has room for: all that the loom has, more where
// the weave takes more.
func treadlesOf(p *plan.Plan, tie *loomwork.TieUp) int {
	n := p.Loom.Treadles
	for _, t := range tie.Treadles {
		n = max(n, t.Number)
	}
	return n
}

// ties marks what a treadle does with each shaft: o in a full square where it rises, x
// where it sinks (the trade's signs), in an empty square where it is tied to do so on a
// loom on which others rise.
func ties(t loomwork.Treadle, shed string, full, empty func(shaft int, sign string)) {
	for i, tied := range t.Ties {
		switch {
		case tied && shed == "sinking":
			full(i+1, "x")
		case tied:
			full(i+1, "o")
		case shed == "both":
			empty(i+1, "x")
		}
	}
}

func tieUpInWords(p *plan.Plan, tie *loomwork.TieUp) string {
	does := map[string]string{
		"rising":  "Shafts that the treadle raises",
		"sinking": "Shafts that the treadle lowers",
		"both":    "Shafts that the treadle raises; it lowers the others",
	}
	words := []string{does[p.Loom.Shed]}
	for _, t := range tie.Treadles {
		shafts := strings.Trim(fmt.Sprint(t.Shafts()), "[]")
		words = append(words, fmt.Sprintf("treadle %d (%s): %s", t.Number, t.Name, shafts))
	}
	return strings.Join(words, "; ")
}
