package packet

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestWhatItIsWovenOf: 16/2 cotton is, by the definition of its count, 16/2 hanks of 840
// yd to the pound, 6720 yd/lb and 13,547 m/kg; 20/1 linen 20 leas of 300 yd, 6000 yd/lb
// and 12,096 m/kg.
func TestWhatItIsWovenOf(t *testing.T) {
	text := said(t)
	for _, line := range []string{
		"Warp cotton, 16/2 cotton, about 13500 m/kg O oat R barley",
		"Pattern weft linen, 20/1 linen, about 12100 m/kg, 2 strands wound together D damson L " +
			"leaf shade S rosehip E sloe",
		"Hems fine, 24/2 cotton, about 20300 m/kg T oat thread",
		"Sett 10.0/cm, in a reed of 50/10cm dents, 2 in every dent",
		"Picks 8.0/cm ground and 8.0/cm pattern; plain stripes 8.0/cm, ground alone; hems and " +
			"separators 11.0/cm, ground alone",
		"Weft 59.4 cm for each pick: the width in the reed, and 10 % more for its curve, its " +
			"turns and its tails; a pattern pick takes 2 times that",
		"Width in the reed 54.0 cm, at the fell 51.3 cm, finished 46.2 cm",
		"Length on the loom 82.0 cm to 82.7 cm, finished and hemmed 65.9 cm to 66.6 cm",
		// two dents of 2 mm beside the warp
		"Loom 4 shafts, 6 treadles, of which 4 are tied (1, 2, 5 and 6 from the left), rising " +
			"shed; at least 54.4 cm wide",
	} {
		assert.Contains(t, text, line)
	}
	assert.Contains(t, said(t, `units = "cm"`, `units = "in"`),
		"cotton, 16/2 cotton, about 6720 yd/lb")
	assert.Contains(t, said(t, `strands       = 2`, `strands = 1`), "about 12100 m/kg, single")
	assert.Contains(t, said(t, `count   = "20/1 linen"`, `tex = 80`),
		"linen, tex 80, about 12500 m/kg")
	assert.Contains(t, said(t, `treadles = 6`, `treadles = 0`), "Loom 4 shafts, levers;")
	assert.Contains(t, said(t, `treadles = 6`, `treadles = 4`), "Loom 4 shafts, 4 treadles, rising")
}

// TestPieceBeat: two pattern picks beside one ground pick, and the hem's own.
func TestPieceBeat(t *testing.T) {
	assert.Contains(t, said(t),
		"8.0/cm ground and 8.0/cm pattern picks, 2 strands wound together; hems and "+
			"separators 11.0/cm.")
	text := said(t, `name = "first light"`, "name = \"first light\"\npick_order = \"P P a P P b\"")
	assert.Contains(t, text, "8.0/cm ground and 16.0/cm pattern picks")
	assert.Contains(t, text,
		"8.0/cm ground and 8.0/cm pattern, but where a piece has an order of its own")
}

// TestThreeFigures: a count is known no better than that.
func TestThreeFigures(t *testing.T) {
	for v, want := range map[float64]string{13546.7: "13500", 12096: "12100", 3360: "3360",
		847.4: "847", 52.6: "53"} {
		assert.Equal(t, want, threeFigures(v))
	}
}

// TestSampleSheet: 15 cm asked for; a fifth is hem, the rest four colours over two
// blocks, each 6 weft units of 2.5 mm: 12 cm; the hem takes what is left, 30 mm or 33
// picks at 11/cm, 32 in whole pairs.
func TestSampleSheet(t *testing.T) {
	text := said(t)
	assert.Contains(t, text,
		"The sample 14.9 cm woven under tension, 224 picks : a stretch of hem, then each block "+
			"with 4 pattern colours.")
	assert.Contains(t, text,
		"1 hem · 5 6 T: start, cut after 10 20 30 picks T oat thread 32 32 2.9 cm")
	assert.Contains(t, text, "cut off, washed and measured before anything else is woven")
	// 3 % of 14.9 cm shrunk by a tenth, and of a piece of 65.9 cm
	assert.Contains(t, text, "Up to 3 % off the plan, which is about 0.4 cm in the length of the "+
		"washed sample and 2.0 cm in a finished piece, weave as planned.")
	assert.Contains(t, text, "By hand: multiply the units of every step by the planned washed "+
		"length, divide by the measured one")
	assert.Contains(t, text, "25.0 cm of warp is allowed for it.")
	assert.NotContains(t, said(t, `sample   = "15 cm"`, `sample   = "0 cm"`), "Tying on again")
}

// TestSampleStays: without warp for tying on again the sample is not cut off before the
// pieces; two picks at 11/cm, or what there is between pieces, part it from the first.
func TestSampleStays(t *testing.T) {
	const none = `retie    = "25 cm"`
	for _, changes := range [][]string{{none, ``}, {none, ``, "separator = 2", "separator = 0"},
		{none, ``, `fringe    = "0 cm"`, `fringe = "6 cm"`}} {
		text := said(t, changes...)
		assert.Regexp(t, "sew a narrow zigzag (at the end with the header and on each side of the "+
			"line between the sample and piece 1; then cut it off there|across both its "+
			"ends, and cut "+
			"it off close to its last pick: piece 1 keeps 6.0 cm of warp)\\.", text)
		assert.Contains(t, text, "It is measured on the loom and stays on : no warp is allowed")
		assert.Contains(t, text, "It is measured on the loom and stays on; only then is the set")
		assert.Contains(t, text, "The sample first: sew a narrow zigzag ")
		assert.Contains(t, text, "what was not woven: tied on in front, thrums behind")
		for _, never := range []string{"Tying on again", "cut off, washed and measured before",
			"tie each bundle in front of the reed", "print the packet anew"} {
			assert.NotContains(t, text, never)
		}
	}
	assert.Contains(t, said(t, none, ``), "Weave two picks of S rosehip , one strand in plain "+
		"tabby, a and then b: the line along which the sample is cut off. They take 0.2 cm, which "+
		"comes out of the loom waste. Then begin")
	assert.Contains(t, said(t, none, ``, "separator = 2", "separator = 0"),
		"After the last pick mark both edges with a thread: the line along which the sample is")
	assert.Contains(t, said(t, none, ``, `fringe    = "0 cm"`, `fringe = "6 cm"`),
		"The bare warp before piece 1 parts the sample from it;")
	text := said(t)
	assert.NotContains(t, text, "stays on")
	assert.NotContains(t, text, "The sample first")
	assert.Contains(t, text, "tied on in front, after the sample too, thrums behind")
}

// TestWool: only what felts is washed as what felts, and pieces are no towels unless they
// are called that.
func TestWool(t *testing.T) {
	text := said(t)
	assert.Contains(t, text,
		"Wash as the pieces will be washed in use. Press while still damp, from")
	assert.NotContains(t, text, "Wool")
	assert.NotContains(t, text, "felts")
	assert.NotContains(t, text, "owel will")
	const fringe, fringed = `fringe    = "0 cm"`, `fringe = "6 cm"`
	weft := said(t, `count   = "20/1 linen"`, `count = "20/2 worsted"`, fringe, fringed)
	assert.Contains(t, weft, "Wool felts for good, here D damson , L leaf shade , S rosehip , "+
		"E sloe : wash by hand and lukewarm throughout, the first time and always, in use too; "+
		"move it little, do not rub or wring it, and let it meet no sudden change from "+
		"warm to cold.")
	assert.Contains(t, weft, "wash it by itself, lukewarm as below, and take it out at once.")
	assert.Contains(t, weft,
		"wash it apart. Wool: by hand, lukewarm throughout, and moved little. "+
			"Wash the sample")
	assert.Contains(t, weft, "Wash by hand and lukewarm, as the pieces will be washed in use.")
	assert.Contains(t, weft, "bare warp tangles and frays in water")
	warp := said(t, `count   = "16/2 cotton"`, `count = "20/2 worsted"`, fringe, fringed)
	assert.Contains(t, warp, "bare warp felts and tangles in water")
}

// TestFringes: 6 cm at each end of each piece: the second cut lies after two pieces of
// 82.0 cm, three fringes and one and a half separators of 2 picks at 11/cm. A tail is four
// times the 54 cm of the reed, there are twelve; 540 ends are 135 bundles of four.
func TestFringes(t *testing.T) {
	text := said(t, `fringe    = "0 cm"`, `fringe = "6 cm"`)
	assert.Contains(t, text, "1 leave 6.0 cm unwoven for the fringe 0 bare warp")
	assert.Contains(t, text, "2 hem · 5 6 T: start with a tail of 2.16 m, cut after · hemstitch "+
		"with the first tail when four picks are woven, over the lowest two 10 20")
	assert.Contains(t, text, "to 66.6 cm; at each end 6.0 cm of bare warp "+
		"besides, on the loom: a fringe is shorter once it is knotted")
	assert.Contains(t, text, "The fringe at each end, 6.0 cm of bare warp on the loom, comes "+
		"besides, and is shorter once it is knotted and trimmed.")
	assert.Contains(t, text, "hem · 5 6 T: start, cut after with a tail of 2.16 m 10 20")
	assert.Contains(t, text,
		"Before a piece, leave 6.0 cm of warp bare, which is the fringe on the loom, and "+
			"shorter once it is knotted and trimmed: open the two tabby sheds in turn and lay a "+
			"strip of card into each")
	assert.Contains(t, text,
		"from right to left, over four ends at a time: 135 bundles . They begin at the "+
			"right edge, "+
			"and need not be the units of the threading, which are counted from the left. "+
			"The list "+
			"also says over how many picks, and which: one of them at least is ground")
	assert.Contains(t, text,
		"hemstitch with the last tail, then leave 6.0 cm unwoven for the fringe hemstitch over "+
			"the topmost two 0 bare warp")
	// P a P b: of four picks at the foot the lowest two are pattern and ground; b ends it
	bare := said(t, `fringe    = "0 cm"`, `fringe = "6 cm"`, `hem       = "4 cm"`,
		`hem = "0 cm"`)
	assert.Contains(t, bare, "hemstitch with the first tail when four picks, pattern and ground "+
		"together, are woven, over the lowest two (pattern, ground)")
	assert.Contains(t, bare, "hemstitch over the topmost two (ground, pattern)")
	// P P a P P b: two of pattern alone would slip
	thick := said(t, `fringe    = "0 cm"`, `fringe = "6 cm"`, `hem       = "4 cm"`,
		`hem = "0 cm"`, `name = "first light"`,
		"name = \"first light\"\npick_order = \"P P a P P b\"")
	assert.Contains(t, thick, "when five picks, pattern and ground together, are woven, over the "+
		"lowest three (pattern, pattern, ground)")
	assert.Contains(t, text, "That takes 26 m of oat thread, which comes out of what is to spare.")
	assert.Contains(t, text, "20 tails to turn in, 2 to hemstitch with: T oat thread")
	assert.Contains(t, text, "ladder windfall S rosehip 2 182.2 cm")
	assert.Contains(t, text, "Knot or twist the fringes now, one hemstitched bundle or two at a "+
		"time, before the wash")
	assert.NotContains(t, text, "zigzag on the hem")
	assert.Contains(t, text,
		"then cut the warp 6.0 cm and a hand’s breadth behind the last pick, for the last fringe")
	assert.Contains(t, text, "a fringe of 6.0 cm and a hem of 4.0 cm at the same end")
	assert.Contains(t, text, "before the wash: bare warp tangles and frays in water.")
	plain := said(t)
	assert.Contains(t, plain, "ladder windfall S rosehip 2 164.2 cm 147.8 cm")
	assert.NotContains(t, plain, "unwoven for the fringe")
	assert.Contains(t, plain, "Each cut goes through the middle of its separator: the figures "+
		"only help to find it.")
	assert.NotContains(t, plain, "The fringes")
}

// TestWhereAmI: what a piece asks is said before it is begun, and what has been woven of
// both shuttles. By hand for the first piece: four runs each of damson and leaf shade start
// and end, 16 tails, two of oat, four of the hems, two of the separator. Behind its last run,
// 24 units, 293 units of two pattern and two ground picks lie on a hem of 48: 586 + 634, and
// 43.6 + 293 x 2.5 mm. An odd separator turns the tabby round.
func TestWhereAmI(t *testing.T) {
	text := said(t)
	assert.Contains(t, text,
		"4 shuttles, 7 changes of pattern colour, 22 tails to turn in: T oat thread , D damson , "+
			"O oat , L leaf shade ; for the separator S rosehip , one strand")
	assert.Contains(t, text, "separator, one strand, to cut along · 5 6 S: start, cut after")
	assert.NotContains(t, said(t, `strands       = 2`, `strands = 1`), "one strand")
	assert.Contains(t, text, "L: start from the left, cut after")
	assert.Contains(t, text, "L leaf shade on O oat 48 + 48 1220 586 + 634 77.6 cm")
	assert.Contains(t, text,
		"when it lies at the right edge, tabby a comes next, at the left edge tabby b")
	assert.NotContains(t, text, "its last shed is also the first")
	assert.Contains(t, said(t, "separator = 2", "separator = 3"),
		"its last shed is also the first of the next piece, which is right: it is cut there")
}
