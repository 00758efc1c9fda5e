package svg

import "stripesong/palette"

// bitmap is the picture in colours of eight bits a channel: with a palette where
// 256 colours are enough, else with a colour of its own for each pixel.
func (v *view) bitmap(order []int) bitmap {
	b := bitmap{width: v.width, order: order, period: v.period, rows: make([][]byte, len(v.lines))}
	inks, of := quantise(v.colours)
	if v.holds(inks, of) {
		b.inks = inks
		for i, line := range v.lines {
			row := make([]byte, v.width)
			for x, c := range line {
				row[x] = of[c]
			}
			b.rows[i] = row
		}
		return b
	}
	for i, line := range v.lines {
		row := make([]byte, 0, 3*v.width)
		for _, c := range line {
			rgb := v.colours[c].light.RGB()
			row = append(row, rgb.R, rgb.G, rgb.B)
		}
		b.rows[i] = row
	}
	return b
}

// paletteMicroE is the most by which a palette may shift the average of a patch, in
// millionths of dE00.
const paletteMicroE = 800_000

// holds tells whether a palette keeps the average of every patch.
func (v *view) holds(inks []palette.RGB, of []uint8) bool {
	light := make([]palette.Linear, len(inks))
	for i, ink := range inks {
		light[i] = ink.Linear()
	}
	for _, patch := range v.patches {
		part := 1 / float64(len(patch))
		var exact, kept palette.Linear
		for _, c := range patch {
			exact = plusLight(exact, part, v.colours[c].light)
			kept = plusLight(kept, part, light[of[c]])
		}
		if palette.MicroE(exact.Lab(), kept.Lab()) > paletteMicroE {
			return false
		}
	}
	return true
}
