package packet

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// said is the text of the page of the built-in brief after some changes, as a
// person reads it.
func said(t testing.TB, changes ...string) string {
	t.Helper()
	text := string(brief.Default())
	for i := 0; i < len(changes); i += 2 {
		require.Equal(t, 1, strings.Count(text, changes[i]), changes[i])
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	return readAloud(pageOf(t, planOf(t, []byte(text))))
}

// readAloud is the text of a page as a person reads it.
func readAloud(page string) string {
	page = regexp.MustCompile(`(?s)<(style|script|svg).*?</(style|script|svg)>`).
		ReplaceAllString(page, " ")
	page = regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")
	return strings.Join(strings.Fields(html.UnescapeString(page)), " ")
}

// TestTicksBelongToOneSet: steps without numbers of their own read the same in every set.
func TestTicksBelongToOneSet(t *testing.T) {
	setOf := func(changes ...string) string {
		text := string(brief.Default())
		for i := 0; i < len(changes); i += 2 {
			require.Equal(t, 1, strings.Count(text, changes[i]), changes[i])
			text = strings.Replace(text, changes[i], changes[i+1], 1)
		}
		page := pageOf(t, planOf(t, []byte(text)))
		found := regexp.MustCompile(`<body data-set="(set-[0-9a-f]{16})">`).FindStringSubmatch(page)
		require.NotNil(t, found)
		return found[1]
	}
	own := setOf()
	assert.Equal(t, own, setOf(`name = "first light"`, `name = "early"`), "a piece, on the same warp")
	assert.NotEqual(t, own, setOf(`"Orchard kitchen towels"`, `"Another set"`))
	assert.NotEqual(t, own, setOf(`sett          = "10/cm"`, `sett = "9/cm"`), "another warp")
}

// TestInSight: 1 cm at 11/cm, shrunk by 10 %, is 12 picks, 4 cm of hem 48.
func TestInSight(t *testing.T) {
	text := said(t, "# hem_show", "hem_show")
	assert.Contains(t, text,
		"of them 48 in each hem and 12 of plain at each end that stay in sight")
	assert.Contains(t, text,
		"plain that stays in sight, from the fold line on · 5 6 T: cut after 10 picks T oat "+
			"thread 12 60 5.5 cm")
	assert.Contains(t, text,
		"plain that stays in sight, up to the fold line · 5 6 T: start 10 picks T oat thread 12 "+
			"1212 570 + 642 77.8 cm")
	assert.Contains(t, text,
		"The last fold lies 12 picks of plain outside the pattern, so that 1.0 cm of plain stays "+
			"in sight.")
	bare := said(t, "# hem_show", "hem_show", `hem       = "4 cm"`, `hem       = "0 cm"`)
	assert.Contains(t, bare, "picks , of them 12 of plain at each end that stay in sight")
	assert.NotContains(t, bare, "fold line")
	assert.NotContains(t, said(t), "in sight,")
}

// TestLevers: halvdräll passes its weft over shafts 1 and 2 for block A, over 1 and 3
// for tabby a, so that the others are raised.
func TestLevers(t *testing.T) {
	text := said(t, "treadles = 6", "treadles = 0")
	assert.Contains(t, text,
		"Raise these shafts; all others stay down. Shed Raise block A 3 4 block B 1 2 tabby a "+
			"2 4 tabby b 1 3 Lifts of one unit")
	assert.Contains(t, text, "block A pattern 3 4 , ground 2 4 , pattern 3 4 , ground 1 3")
	assert.Contains(t, text, "What · shafts to raise")
	assert.Contains(t, text, "hem · 2 4, 1 3")
	assert.Contains(t, text, "block A, 30 units · 3 4, 2 4, 3 4, 1 3")
	assert.NotContains(t, text, "readle")
	assert.NotContains(t, text, "ie-up")
	lowered := said(t, "treadles = 6", "treadles = 0", `"rising"  `, `"sinking" `)
	assert.Contains(t, lowered, "Lower these shafts; all others stay up. Shed Lower block A 1 2")
	assert.Contains(t, lowered, "What · shafts to lower")
	both := said(t, "treadles = 6", "treadles = 0", `"rising"  `, `"both" `)
	assert.Contains(t, both, "Raise these shafts; all others sink. Shed Raise block A 3 4")
}

// TestDirectTieUp: with a treadle to each shaft the treadles of a shed are those of its
// shafts, pressed together.
func TestDirectTieUp(t *testing.T) {
	text := said(t, "# tie_up", "tie_up", "treadles = 6", "treadles = 4")
	assert.Contains(t, text, "Tie each treadle to one shaft alone, treadle 1 to shaft 1")
	assert.Contains(t, text,
		"Press the treadles of these shafts together: they rise, all others stay down. Shed "+
			"Treadles, as shafts block A 3 4 block B 1 2 tabby a 2 4 tabby b 1 3")
	assert.Contains(t, text, "What · treadles to press together")
	assert.Contains(t, text, "4 treadles, one to each shaft, rising shed")
	assert.NotContains(t, text, "levers")
	lowered := said(t, "# tie_up", "tie_up", `"rising"  `, `"sinking" `)
	assert.Contains(t, lowered,
		"they sink, all others stay up. Shed Treadles, as shafts block A 1 2")
}

func TestShedBothWays(t *testing.T) {
	text := said(t, `"rising"  `, `"both" `)
	assert.Contains(t, text,
		"o in a black square is a shaft that this treadle raises, x in a white square one that "+
			"it lowers.")
}

// TestDressing: 540 ends at 10/cm are 54 groups. 46 cm finished are 46/(0.9 x 0.95) = 53.80
// cm in the reed: at 15/in 317.7 ends, 79 units of four are 316, so 21 groups of 15 and one
// end, 21.07 in, of which half is 10 1/2; at 7.5/cm 403.5 ends, 101 units are 404, so 52
// groups of 7 and 8 by turns are 390 and of the 14 left each of two groups has 7.
func TestDressing(t *testing.T) {
	inOrder := func(text string, words ...string) {
		t.Helper()
		at := 0
		for _, w := range words {
			k := strings.Index(text[at:], w)
			require.GreaterOrEqual(t, k, 0, "%q after %q", w, text[max(0, at-40):at])
			at += k
		}
	}
	back := said(t, "# dress ", "dress ")
	groups := "Lay the ends into it in the order of the cross: 10 ends to each centimetre, 54 " +
		"groups in all . " +
		"Begin 27 cm to the left of its middle"
	inOrder(back, "from back to front", "back apron rod through the loops of the starting peg",
		"lease sticks through the cross", groups, "Wind on", "undo each choke tie before",
		"loops of the end peg", "cut these loops", "Take the raddle off", "Threading",
		"Take the ends from the lease sticks", "Sleying", "Put the reed back",
		"Tying on in front", "Take the lease sticks out", "Tie-up")
	assert.NotContains(t, back, "do not follow the order below")
	front := said(t, "# dress ", "dress ", "back to front\"     # or \"front to back",
		"front to back\" # \"")
	inOrder(front, "from front to back", "Sleying", "lease sticks through the cross",
		"loops of the starting peg, cut these loops, and at once sley", "Threading",
		"Take the ends from the reed", "Beam", "back apron rod", "Take the lease sticks out",
		"Wind on", "undo each choke tie before", "loops of the end peg", "Only now cut these loops",
		"Tie-up")
	assert.NotContains(t, front, "raddle:")
	// the depth of a loom: common practice, no source
	reach := "the cross is made 60 cm from the starting peg , since so much free warp has to go"
	choke := "a hand’s breadth beyond the cross, on its way to the end peg, and from there " +
		"at every " +
		"arm's length; none between the cross and the starting peg; label"
	inOrder(front, reach, choke)
	for _, words := range []string{"made close to the starting peg",
		"(a choke tie) near the cross"} {
		assert.Contains(t, back, words)
		assert.NotContains(t, front, words)
	}
	inOrder(said(t), "If you dress it from front to back, do not follow the order below", "Beam",
		"Threading", "Sleying")
	inches := said(t, `"cm"                    # what`, `"in" # what`, `sett          = "10/cm"`,
		`sett = "15/in"`)
	assert.Contains(t, inches, "15 ends to each inch, 22 groups in all, the last of 1 end . Begin "+
		"10 1/2 in to the left")
	odd := said(t, `sett          = "10/cm"`, `sett = "7.5/cm"`)
	assert.Contains(t, odd,
		"7-8 ends over and over to each centimetre, 54 groups in all, the last of 7 ends .")
}

// TestThreadingFromTheRight: the last stripe is threaded first, its unit from its
// right, and ends are counted from there.
func TestThreadingFromTheRight(t *testing.T) {
	left, right := said(t), said(t, `# thread_from = "left"`, `thread_from = "right"`)
	assert.Contains(t, left, "1 O oat A × 29 1 2 3 2 ends 1 to 116 4 8 12 16 ")
	assert.Contains(t, left, "heddles by shaft: 1: 29, 2: 58, 3: 29")
	assert.Contains(t, right, "9 O oat A × 29 2 3 2 1 ends 1 to 116 from the right 4 8 12 16 ")
	assert.Contains(t, right, "threaded since the right edge")
	assert.Less(t, strings.Index(right, "9 O oat A × 29"),
		strings.Index(right, "8 R barley B × 18"))
}

// TestClosingEnd: one end more on shaft 1 in the middle, the fifth stripe of nine, which
// has 5 units; so 21 ends of 541, and shaft 1 136 heddles.
func TestClosingEnd(t *testing.T) {
	left := said(t, "# closing_end", "closing_end")
	assert.Contains(t, left,
		"The closing end. Stripe 5 has one end more, on shaft 1, to the right of its last unit: "+
			"it is the middle of the warp. From the next stripe to the right edge every unit is "+
			"turned round")
	assert.Contains(t, left,
		"Every unit of a block is threaded alike, to the right of stripe 5 turned round, ends "+
			"from left to right:")
	assert.Contains(t, left, "4 R barley B × 7 3 4 1 4 ends 233 to 260 ")
	assert.Contains(t, left,
		"5 O oat A × 5 1 2 3 2 then the closing end: 1 ends 261 to 281 264 268 272 276 280 the "+
			"closing end: 281 heddles by shaft: 1: 6, 2: 10, 3: 5")
	assert.Contains(t, left, "6 R barley B × 7 4 1 4 3 ends 282 to 309 285 ")
	assert.Contains(t, left, "O oat A 21 281 the closing end with it; the bout ends at the end peg")
	assert.Contains(t, left, "shaft 1 136 ")
	right := said(t, "# closing_end", "closing_end", `# thread_from = "left"`,
		`thread_from = "right"`)
	assert.Contains(t, right, "9 O oat A × 29 1 2 3 2 ends 1 to 116 from the right 4 8 ")
	assert.Contains(t, right,
		"5 O oat first the closing end: 1 A × 5 2 3 2 1 ends 261 to 281 from the right the "+
			"closing end: 261 265 269 273 277 281 heddles")
	assert.Contains(t, right, "4 R barley B × 7 4 1 4 3 ends 282 to 309 from the right")
	lopsided := said(t, "# closing_end", "closing_end", `direction = "falling", mirror = true`,
		`direction = "falling"`)
	assert.Contains(t, lopsided,
		"The closing end. Stripe 5 has one end more, on shaft 1, to the right of its last unit: "+
			"its block ends as it begins.")
	assert.NotContains(t, lopsided, "turned round")
	assert.NotContains(t, said(t), "losing end")
}

// TestPace: 1268 picks of the first piece and 2 of its separator at 900 an hour are
// 1.4111 hours, 84.7 minutes; five of these and 1248 picks 8.442 hours, 8 h 26.5 min. Told
// are the nearest five minutes.
func TestPace(t *testing.T) {
	text := said(t, "# pace ", "pace ")
	assert.Contains(t, text, "65.9 cm finished. About 1 h 25 min to weave.")
	assert.Contains(t, text, "At 900 picks an hour the pieces take about 8 h 25 min to weave")
	assert.NotContains(t, said(t), "to weave.")
}

// TestCost: at 225 g of 16/2 cotton, 3048 m, to a package; the built-in brief needs 4019 m
// of oat and a tenth to spare, 4421 m, and with none on hand two packages.
func TestCost(t *testing.T) {
	text := said(t, "# price ", "price ", `on_hand = "5200 m"`, `on_hand = "0 m"`)
	assert.Contains(t, text, "On the shelf To buy Cost")
	assert.Regexp(t, `2 packages \(4421.m\) 2 × 12.50 = 25.00`, text)
	assert.Contains(t, text, "What is to be bought costs 25.00 .")
	assert.NotContains(t, said(t), "Cost")
}

// TestPickOrder: the piece says its own order, and how it is trodden.
func TestPickOrder(t *testing.T) {
	text := said(t, `name = "first light"`, "name = \"first light\"\npick_order = \"P P a P P b\"")
	assert.Contains(t, text,
		"block A, in piece 1 pattern 1 (A) , pattern 1 (A) , ground 5 (a) , pattern 1 (A) , "+
			"pattern 1 (A) , ground 6 (b)")
	assert.Contains(t, text,
		"Its picks have an order of their own, P P a P P b: P is the pattern shuttle")
	assert.Regexp(t, `block A, \d+ units · 1 1 5 1 1 6 `, text)
	assert.Regexp(t, `block A, \d+ units · 1 5 1 6 `, text)
}
