package svg

import (
	"io"

	"stripesong/sequence/plan"
)

// Crossings writes one side of piece i (from 0) as a PNG for other programs: one
// pixel a crossing, each exactly the colour of the thread on top; body and hems,
// ends left to right as the weaver faces the loom, the first pick at the bottom,
// floating selvedges left out. The back is turned over sideways. It fails where i
// is no piece, where the plan contradicts itself, or where w does.
func Crossings(w io.Writer, p *plan.Plan, i int, back bool) error {
	c, err := clothOf(p, i)
	if err != nil {
		return err
	}
	rows, order := c.rows(back)
	_, err = w.Write(bitmap{width: len(c.ends), inks: c.inks, rows: rows, order: order,
		period: c.unit}.png())
	return err
}

// rows gives every distinct line of the picture once, and which of them each
// line is, from the top: a towel of a thousand picks has about a dozen.
func (c *cloth) rows(back bool) (rows [][]byte, order []int) {
	known := map[weftPick]int{}
	order = make([]int, len(c.picks))
	for pick, kind := range c.picks {
		row, ok := known[kind]
		if !ok {
			row = len(rows)
			known[kind] = row
			rows = append(rows, c.row(pick, back))
		}
		order[len(order)-1-pick] = row
	}
	return rows, order
}

// row is one line of the picture, as numbers of colours.
func (c *cloth) row(pick int, back bool) []byte {
	row := make([]byte, len(c.ends))
	for x := range row {
		row[x] = c.top(pick, x, back)
	}
	return row
}
