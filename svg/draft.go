package svg

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// The ordinary draft: squares, the room beside them, and how much of each block it shows.
const (
	square      = 5 * mm
	draftAside  = 12 * mm // for the numbers of the shafts
	draftGap    = 2 * mm  // between its four parts
	draftUnits  = 2       // of threading, and of weft, of each block
	draftLegend = 6 * mm
)

var draftSmall = font{size: 2600, colour: black}

// cornerDraft is the cloth where one block meets the next, as drafts show it: the
// threading at the foot, the cloth above it as it grows, the tie-up at the lower right
// and the treadling over it, read upwards.
type cornerDraft struct {
	pen     *pen
	plan    *plan.Plan
	tie     *loomwork.TieUp
	warp    []string // blocks of the warp that are shown, and of the weft
	weft    []string
	shafts  []int
	picks   []weave.Woven
	treads  []loomwork.Tread
	columns int // of the tie-up: treadles, or shafts where sheds are opened shaft by shaft
}

// Draft writes the ordinary draft of the structure: the last units of the first block of
// the warp, the first units of the next, and the weft over one change of block.
func Draft(w io.Writer, p *plan.Plan) error {
	d := &cornerDraft{plan: p, tie: loomwork.TieUpOf(p)}
	d.blocks()
	d.columns = p.Weave.Shafts
	if !p.Loom.ByShaft() {
		d.columns = treadlesOf(p, d.tie)
	}
	ends, rows := um(len(d.shafts))*square, um(len(d.picks))*square
	wide := draftAside + ends + draftGap + um(d.columns)*square + draftAside
	high := rows + draftGap + um(p.Weave.Shafts)*square + 2*draftLegend
	d.pen = open(w, wide, high, "Draft", d.words())
	d.cloth(draftAside, rows)
	d.threading(draftAside, rows+draftGap)
	d.treadling(draftAside+ends+draftGap, rows)
	d.tieUp(draftAside+ends+draftGap, rows+draftGap)
	d.pen.text(0, high-mm, draftSmall,
		"black: pattern weft on top; grey: ground weft on top; white: warp on top")
	return d.pen.finish()
}

// blocks chooses what is shown: two blocks that lie side by side in the warp, or its only
// one, and those of them that are woven.
func (d *cornerDraft) blocks() {
	runs := d.plan.Warp.Runs
	d.warp = []string{runs[0].Block}
	for _, run := range runs {
		if run.Block != runs[0].Block {
			d.warp = append(d.warp, run.Block)
			break
		}
	}
	for _, block := range d.warp {
		if b, ok := d.plan.Weave.Block(block); ok {
			d.shafts = append(d.shafts, slices.Repeat(b.Unit, draftUnits)...)
		}
		i := slices.IndexFunc(d.tie.Blocks, func(b loomwork.BlockTread) bool {
			return b.Block == block
		})
		if i < 0 {
			continue
		}
		d.weft = append(d.weft, block)
		for range draftUnits {
			d.picks = append(d.picks, d.plan.InOrder(d.tie.Blocks[i].Order).UnitPicks(block)...)
			d.treads = append(d.treads, d.tie.Blocks[i].Picks...)
		}
	}
}

func (d *cornerDraft) words() string {
	return "Threading of the last units of block " +
		strings.Join(d.warp, " and the first of block ") +
		d.sheds() + strings.Join(d.weft, " and then block ") +
		", and the cloth."
}

// sheds says how sheds are drawn.
func (d *cornerDraft) sheds() string {
	if d.plan.Loom.Treadles == 0 {
		return ", shafts to move over block "
	}
	return ", tie-up, treadling over block "
}

// squares draws empty squares whose upper left corner lies at x, y.
func (d *cornerDraft) squares(x, y um, columns, rows int) {
	lines := outline(nil)
	for k := range columns + 1 {
		lines = lines.line(x+um(k)*square, y, x+um(k)*square, y+um(rows)*square)
	}
	for k := range rows + 1 {
		lines = lines.line(x, y+um(k)*square, x+um(columns)*square, y+um(k)*square)
	}
	d.pen.stroke(lines, line, 150)
}

// fill fills a square, with a word in it where there is one.
func (d *cornerDraft) fill(x, y um, with paint, word string) {
	d.pen.fill(rect(x+400, y+400, square-800, square-800), with)
	if word != "" {
		d.pen.text(x+square/2, y+square*68/100, draftSmall.in(paper).at(middle), word)
	}
}

// write writes in the middle of a square.
func (d *cornerDraft) write(x, y um, word string) {
	d.pen.text(x+square/2, y+square*68/100, draftSmall.at(middle), word)
}

// cloth draws what is on top, the first pick at the foot.
func (d *cornerDraft) cloth(x, foot um) {
	for i, pick := range d.picks {
		y := foot - um(i+1)*square
		for k, weft := range weave.Face(d.shafts, pick.Shed) {
			switch {
			case weft && pick.Pattern:
				d.pen.fill(rect(x+um(k)*square, y, square, square), black)
			case weft:
				d.pen.fill(rect(x+um(k)*square, y, square, square), hair)
			}
		}
	}
	d.squares(x, foot-um(len(d.picks))*square, len(d.shafts), len(d.picks))
}

// threading draws the shaft of each end, shaft 1 at the foot, and its block beneath.
func (d *cornerDraft) threading(x, top um) {
	all := d.plan.Weave.Shafts
	for shaft := 1; shaft <= all; shaft++ {
		d.pen.text(x-mm, top+um(all-shaft)*square+square*68/100, draftSmall.at(end),
			strconv.Itoa(shaft))
	}
	d.squares(x, top, len(d.shafts), all)
	for k, shaft := range d.shafts {
		d.fill(x+um(k)*square, top+um(all-shaft)*square, black, strconv.Itoa(shaft))
	}
	each := len(d.shafts) / len(d.warp)
	for i, block := range d.warp {
		middleOf := x + um(i*each)*square + um(each)*square/2
		d.pen.text(middleOf, top+um(all)*square+4*mm, draftSmall.at(middle), "block "+block)
	}
}

// treadling draws which treadle, or which levers, open the shed of each pick, read
// upwards, and beside it P for a pattern pick, a and b for tabby.
func (d *cornerDraft) treadling(x, foot um) {
	d.squares(x, foot-um(len(d.picks))*square, d.columns, len(d.picks))
	for i, tread := range d.treads {
		y := foot - um(i+1)*square
		name := tread.Name
		if tread.Pattern {
			name = "P"
		}
		columns := []int{tread.Treadle}
		if d.plan.Loom.ByShaft() {
			columns = d.tie.Treadle(tread.Treadle).Shafts()
		}
		for _, c := range columns {
			d.fill(x+um(c-1)*square, y, d.ink(tread), "")
		}
		d.pen.text(x+um(d.columns)*square+mm, y+square*68/100, draftSmall, name)
	}
}

func (d *cornerDraft) ink(tread loomwork.Tread) paint {
	if tread.Pattern {
		return black
	}
	return line
}

// tieUp draws the shafts of each treadle, as the tie-up does; for levers only the numbers
// of the shafts.
func (d *cornerDraft) tieUp(x, top um) {
	all := d.plan.Weave.Shafts
	if d.plan.Loom.ByShaft() {
		for shaft := range all {
			d.write(x+um(shaft)*square, top, strconv.Itoa(shaft+1))
		}
		return
	}
	d.squares(x, top, d.columns, all)
	for k := range d.columns {
		d.pen.text(x+um(k)*square+square/2, top+um(all)*square+4*mm, draftSmall.at(middle),
			strconv.Itoa(k+1))
	}
	for _, t := range d.tie.Treadles {
		left := x + um(t.Number-1)*square
		ties(t, d.plan.Loom.Shed,
			func(shaft int, sign string) { d.fill(left, top+um(all-shaft)*square, black, sign) },
			func(shaft int, sign string) { d.write(left, top+um(all-shaft)*square, sign) })
	}
}
