package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
	"stripesong/sequence/look"
)

// unevenBrief has a structure whose blocks cover unlike parts of each other, plain
// cloth in the body, and a closer hem in the same yarn.
const unevenBrief = `title = "Uneven"
[set]
pieces = 1
hem = "3 cm"
[structure]
name   = "uneven"
shafts = 4
order  = "P a P b"
units  = { A = [1, 2, 1, 2, 3, 2], B = [3, 4, 1, 4, 1, 4] }
sheds  = { A = [1, 2], B = [3, 4] }
tabby  = { a = [1, 3], b = [2, 4] }
[cloth]
sett = "8/cm"
ground = "6/cm"
hem_ground = "10/cm"
draw_in = "5%"
take_up = "8%"
shrink_width = "10%"
shrink_length = "10%"
weft_extra = "10%"
[loom]
shafts = 8
treadles = 10
width = "100 cm"
waste = "70 cm"
[yarn.cotton]
count = "8/2 cotton"
[[colour]]
name = "chalk"
hex = "#f4f1e8"
yarn = "cotton"
[[colour]]
name = "ink"
hex = "#141c3a"
yarn = "cotton"
[warp]
runs = ["A 12 chalk", "B 6 chalk", "A 1 ink"]
[weft]
ground = "ink"
hem = "ink"
[[piece]]
name = "one"
runs = ["A 9 ink", "plain 3", "B 8 chalk"]
`

// TestTablesGiveThePlansColours: what the tables of the view say of threads and widths
// gives the plan's mixed colour of every block, on both sides, in plain cloth and in
// hems too.
func TestTablesGiveThePlansColours(t *testing.T) {
	b := open(t, unevenBrief)
	p, view := b.Plan(), b.View()
	shades, piece := p.Shades(), view.Pieces[0]
	for i, warp := range p.Warp.Runs {
		for j, weft := range p.Pieces[0].Runs {
			for _, back := range []bool{false, true} {
				want := shades.Body(warp, weft, back)
				require.NotNil(t, want)
				got := view.Tables.colour(view.Warp.Runs[i], piece.Runs[j], piece.Drawn, back)
				assert.Equal(t, want.RGB.Hex(), got, "%v %v back %v", warp, weft, back)
			}
		}
		want := shades.Hem(warp.Colour, p.Pieces[0].Hem)
		require.NotNil(t, want)
		warpColour := view.Warp.Runs[i].Colour
		w := look.Widths{Warp: view.Tables.Widths[warpColour][0],
			Ground: view.Tables.Widths[piece.Hem][2]}
		assert.Equal(t, want.RGB.Hex(), view.Tables.mix(w.Plain(), warpColour, piece.Hem, 0))
	}
}

// colour is the colour of a patch, from the tables alone.
func (t Tables) colour(warp, weft Run, in Drawn, back bool) string {
	w := look.Widths{Warp: t.Widths[warp.Colour][0], Ground: t.Widths[in.Ground][1]}
	if weft.Block == "" {
		return t.mix(w.Plain(), warp.Colour, in.Ground, 0)
	}
	weave := t.Weaves[in.Weave]
	w.Pattern = weave.Pattern[weft.Colour]
	over, of := 0, 0
	for _, pick := range weave.Picks[weft.Block] {
		for _, shaft := range t.Threading[warp.Block] {
			if pick%2 == 1 {
				of++
				if (pick>>shaft&1 == 1) != back { // bit 0 tells pattern picks, bit s is shaft s
					over++
				}
			}
		}
	}
	return t.mix(w.Patch(float64(over)/float64(of)), warp.Colour, in.Ground, weft.Colour)
}

func (t Tables) mix(s look.Shares, warp, ground, pattern int) string {
	light := func(colour int) palette.Linear {
		rgb, _ := palette.ParseHex(t.Hex[colour])
		return rgb.Linear()
	}
	return palette.Scatter(t.Scatter).Mix(
		palette.Part{Colour: light(warp), Area: s.Warp},
		palette.Part{Colour: light(ground), Area: s.Ground},
		palette.Part{Colour: light(pattern), Area: s.Pattern}).RGB().Hex()
}
