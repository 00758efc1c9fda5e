package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
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

// TestMixesAreThePlans: what the page fills a block with is the plan's mixed colour
// of that side and block, in plain cloth and in hems too.
func TestMixesAreThePlans(t *testing.T) {
	b := open(t, unevenBrief)
	p, view := b.Plan(), b.View()
	shades, piece := p.Shades(), p.Pieces[0]
	runs := append([]plan.WeftRun{{}}, piece.Runs...) // the hem first
	for _, warp := range p.Warp.Runs {
		for i, run := range runs {
			for _, back := range []bool{false, true} {
				want := shades.Body(warp, run, back)
				if i == 0 {
					want = shades.Hem(warp.Colour, piece.Hem)
				}
				require.NotNil(t, want)
				block := warp.Block
				if run.Block == "" {
					block = ""
				}
				found := 0
				for _, m := range view.Mixes {
					if view.Colours[m.Warp].Name == warp.Colour && m.Hem == (i == 0) && m.Woven == run.Block && m.Block == block {
						found++
						side := map[bool][]string{false: m.Face, true: m.Back}[back]
						assert.Equal(t, want.RGB.Hex(), side[0], "%v %v back %v", warp, run, back)
					}
				}
				assert.Equal(t, 1, found, "%v %v", warp, run)
			}
		}
	}
	plain, hem := shades.Body(p.Warp.Runs[0], runs[2], false), shades.Hem("chalk", "ink")
	assert.NotEqual(t, plain.RGB.Hex(), hem.RGB.Hex(), "a closer hem is darker")
}
