package svg

import (
	"io"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/plan"
)

// Picture writes one side of piece i (from 0) as a PNG, as the finished piece
// looks: true proportions, hems folded away, the first pick at the bottom; every
// thread as wide as it lies, then reduced to pixels in linear light, so that the
// average of a block is the plan's mixed colour. The back is turned over sideways.
// It fails where i is no piece, where the plan contradicts itself, or where w does.
func Picture(w io.Writer, p *plan.Plan, i int, back bool) error {
	if _, err := clothOf(p, i); err != nil {
		return err
	}
	v := newView(p, &p.Pieces[i], back)
	order, err := v.order()
	if err != nil {
		return err
	}
	_, err = w.Write(v.bitmap(order).png())
	return err
}

// view is one side of a piece's body as a picture.
type view struct {
	plan   *plan.Plan
	piece  *plan.Piece
	back   bool
	shades *plan.Shades
	pixels
	*across

	colours []tint    // all that occur, by number
	patches [][]int32 // the colours of a unit of each patch, as numbers
	lines   [][]int32 // different lines of pixels, as numbers of colours
}

// tint is one colour of a picture, and how many places of all patches have it.
type tint struct {
	light palette.Linear
	uses  int
}

func newView(p *plan.Plan, piece *plan.Piece, back bool) *view {
	v := &view{plan: p, piece: piece, back: back, shades: p.Shades(), pixels: pixelsOf(p, piece)}
	v.across = acrossWarp(p, v.width, back)
	return v
}

// tint numbers a colour; one after another alike share their number.
func (v *view) tint(light palette.Linear) int32 {
	last := len(v.colours) - 1
	if last < 0 || v.colours[last].light != light {
		v.colours = append(v.colours, tint{light: light})
		last++
	}
	v.colours[last].uses++
	return int32(last)
}

// plusLight adds a part of some light.
func plusLight(to palette.Linear, part float64, more palette.Linear) palette.Linear {
	for ch, v := range more {
		to[ch] += float64(part * v)
	}
	return to
}

// order draws the lines of every kind of weft once and tells which of them each
// line of the picture is, from the top.
func (v *view) order() ([]int, error) {
	known := make(map[weftKind][]int)
	units := make([][]int, len(v.piece.Runs)) // the lines of a unit of each run, the lowest first
	show, err := v.drawShow()
	if err != nil {
		return nil, err
	}
	for i, run := range v.piece.Runs {
		kind := kindOf(run, v.back)
		if known[kind] == nil {
			lines, err := v.draw(v.unitOf(run), max(1, v.unit))
			if err != nil {
				return nil, err
			}
			known[kind] = lines
		}
		units[i] = known[kind]
	}
	if v.unit == 0 {
		return v.coarse(v.stretches(units, show)), nil
	}
	order := make([]int, 0, v.height)
	order = append(order, show...)
	for i, lines := range units {
		for range v.piece.Runs[i].Units {
			order = append(order, lines...)
		}
	}
	order = append(order, show...)
	slices.Reverse(order)
	return order, nil
}
