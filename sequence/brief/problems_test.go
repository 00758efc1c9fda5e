package brief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// small is a brief with one of each table.
const small = `title = "Small"
seed  = 3

[set]
pieces = 2
width  = "40 cm"
length = "60 cm"

[cloth]
sett   = "8/cm"
ground = "8/cm"

[loom]
reed = "40/10cm"

[yarn.cotton]
count = "8/2 cotton"

[yarn.linen]
tex = 100

[[colour]]
name = "oat"
hex  = "#efe6d2"
yarn = "cotton"

[[colour]]
name    = "plum"
hex     = "#5a2a4a"
yarn    = "linen"
on_hand = "900 m"

[warp]
colours = ["oat"]
rhythm  = { kind = "even", stripes = 5 }

[weft]
ground  = "oat"
colours = ["plum"]
rhythm  = { kind = "even", stripes = 3 }

[[piece]]
name = "first"

[[piece]]
name = "second"
runs = ["A 12 plum", "plain 2", "B 6 plum"]
`

// set is the small brief's changes: keys and values in turn.
func set(keysAndValues ...string) (all []Change) {
	for i := 0; i < len(keysAndValues); i += 2 {
		all = append(all, Change{keysAndValues[i], keysAndValues[i+1]})
	}
	return all
}

// changed is the small brief with changes made.
func changed(t testing.TB, changes []Change) string {
	t.Helper()
	text, err := Edit("b.toml", []byte(small), changes)
	require.NoError(t, err)
	return string(text)
}

// wrong is a change that makes the small brief one with a mistake: what is said
// of it first, with its place, and what to do.
type wrong struct {
	name    string
	changes []Change
	says    string
	hint    string
}

func TestProblems(t *testing.T) {
	for group, all := range map[string][]wrong{
		"keys": wrongKeys, "quantities": wrongQuantities, "numbers": wrongNumbers,
		"yarns": wrongYarns, "colours": wrongColours, "rules": wrongRules,
		"blocks": wrongBlocks, "rhythms": wrongRhythms, "runs": wrongRuns,
		"structures": wrongStructures, "choice": wrongChoice,
	} {
		for _, one := range all {
			t.Run(group+"/"+one.name, func(t *testing.T) {
				text := changed(t, one.changes)
				_, err := Parse("b.toml", []byte(text), Options{})
				require.Error(t, err)
				p := err.(Problems)[0]
				assert.Equal(t, one.says, p.Error())
				assert.Equal(t, one.hint, p.Hint)
				if p.Line > 0 {
					assert.Equal(t, strings.Split(text, "\n")[p.Line-1], p.LineText)
				}
			})
		}
	}
}

// Keys and kinds of values.
var wrongKeys = []wrong{
	{"a key misspelt", set("set.pieces", "", "set.peices", "2"),
		"b.toml:7:1: set.peices: there is no such key",
		`did you mean "pieces"?`},
	{"a table misspelt", set("loom", "", "looms.reed", `"40/10cm"`),
		"b.toml:46:2: looms: there is no such key",
		`did you mean "loom"?`},
	{"capitals", set("set.width", "", "set.Width", `"40 cm"`),
		"b.toml:7:1: set.Width: there is no such key",
		`did you mean "width"?`},
	{"a key of another table", set("loom.sett", `"8/cm"`),
		"b.toml:15:1: loom.sett: there is no such key",
		"it stands under [cloth]: is that heading missing or further down?"},
	{"a table that is none", set("loom", "7"),
		"b.toml:3:8: loom: should be a table, not a whole number",
		"write a table: key = { ... } or a [heading]"},
	{"a number that is a text", set("set.pieces", `"2"`),
		"b.toml:5:10: set.pieces: should be a whole number, not a text",
		"write a whole number without quotes"},
	{"a text that is a number", set("title", "7"),
		"b.toml:1:9: title: should be a text, not a whole number",
		`put it in quotes: "..."`},
	{"true that is a text", set("cloth.floating_selvedge", `"yes"`),
		"b.toml:12:21: cloth.floating_selvedge: should be true or false, not a text",
		"write true or false without quotes"},
	{"names that are numbers", set("warp.colours", "[1]"),
		"b.toml:34:12: warp.colours: should hold texts, not a whole number",
		`put it in quotes: "..."`},
	{"a title that is a date", set("title", "2024-05-01"),
		"b.toml:1:9: title: should be a text, not a date or time",
		`put it in quotes: "..."`},
}

// Quantities and what stands in their place.
var wrongQuantities = []wrong{
	{"no unit", set("set.width", `"40"`),
		`b.toml:6:10: set.width: 40 has no unit: write "40 cm" or "40 in"`,
		`a quantity is a number and its unit, as in "46 cm", "8/cm", "10%" or "225 g"`},
	{"a bare number", set("set.width", "40"),
		`b.toml:6:10: set.width: 40 has no unit: write "40 cm" or "40 in"`,
		"a quantity is a text that carries its unit, in quotes"},
	{"an unknown unit", set("set.width", `"40 furlongs"`),
		`b.toml:6:10: set.width: length "40 furlongs": unknown unit "furlongs": write ` +
			`it in mm, cm, m, in, ft or yd, for instance "46 cm" or "18 in"`,
		`a quantity is a number and its unit, as in "46 cm", "8/cm", "10%" or "225 g"`},
	{"no quantity at all", set("set.width", "true"),
		"b.toml:6:10: set.width: should be a text with a unit, not true or false",
		`put it in quotes: "..."`},
	{"no width", set("set.width", `"0 cm"`),
		"b.toml:6:10: set.width: must be more than nothing",
		`write a length such as "46 cm"`},
	{"a piece of no length", set("set.length", "", "set.woven", `"0 cm"`),
		"b.toml:7:9: set.woven: must be more than nothing",
		`write a length such as "46 cm"`},
	{"a piece of 11 km", set("set.length", `"11000 m"`),
		"b.toml:7:10: set.length: 11000 m is more than the 10 km that are worked on",
		"is the unit mistaken?"},
	{"too many threads", set("cloth.sett", `"2000/cm"`),
		"b.toml:10:10: cloth.sett: 2000/cm is not between 1/10cm and 1000/cm",
		"is the unit mistaken?"},
	{"more than all lost", set("cloth.draw_in", `"105%"`),
		`b.toml:12:11: cloth.draw_in: percentage "105%" is more than the whole: write "0%" to "100%"`,
		`a quantity is a number and its unit, as in "46 cm", "8/cm", "10%" or "225 g"`},
	{"nearly all lost", set("cloth.draw_in", `"95%"`),
		"b.toml:12:11: cloth.draw_in: 95% is more than can be lost",
		"write a percentage from 0% to 90%"},
	{"a reed without a unit", set("loom.reed", `"40"`),
		`b.toml:14:8: loom.reed: 40 has no unit: write "40/cm" or "40/in"`,
		`count the reed's dents as its label does, as in "10/in" or "50/10cm"`},
	{"an unknown count", set("yarn.cotton.count", `"8/2 nettle"`),
		`b.toml:17:9: yarn.cotton.count: yarn count "8/2 nettle": labels do not agree ` +
			`on what "nettle" counts: give the run from the label instead, as in run = ` +
			`"6770 m/kg" or run = "3360 yd/lb"; or write cotton, linen, worsted, run, Nm ` +
			"or tex",
		`write it as on the label, size and ply and kind, as in "8/2 cotton", "16/2 ` +
			`linen" or "Nm 28/2"`},
	{"two widths", set("set.in_reed", `"20 in"`),
		"b.toml:8:11: set.in_reed: stands beside width, and they say the same thing in two ways",
		"keep one of the two"},
	{"neither width", set("set.width", ""),
		"b.toml:4:2: set.width: is missing",
		"write width, or in_reed in its place"},
	{"neither length", set("set.length", ""),
		"b.toml:4:2: set.length: is missing",
		`"first" has no runs that would set its length: write length, or woven in its place`},
	{"no sett", set("cloth.sett", ""),
		"b.toml:9:2: cloth.sett: is missing",
		`write it as in "sett = \"8/cm\""`},
}

// Numbers and words.
var wrongNumbers = []wrong{
	{"too many pieces", set("set.pieces", "201"),
		"b.toml:5:10: set.pieces: must be from 1 to 200, not 201",
		"write a whole number from 1 to 200"},
	{"fewer pieces than tables", set("set.pieces", "1"),
		"b.toml:45:3: piece: there are 2 [[piece]] tables for a set of 1",
		"raise pieces in [set], or take a table away"},
	{"a seed below nought", set("seed", "-1"),
		"b.toml:2:9: seed: must be from 0 to 9007199254740992, not -1",
		"write a whole number from 0 to 9007199254740992"},
	{"spread too wide", set("cloth.spread", "9"),
		"b.toml:12:10: cloth.spread: must be from 0.5 to 5",
		"yarn lies about 1.5 times as wide in washed cloth as it is round"},
	{"scatter too far", set("cloth.scatter", "0.75"),
		"b.toml:12:11: cloth.scatter: must be from 0 to 0.5",
		"0 is for yarn that lets no light through; 0.02 is usual"},
	{"a power of ten", set("cloth.scatter", "1e-2"),
		`b.toml:12:11: cloth.scatter: "1e-2" is not a number this can work with`,
		"write a plain number such as 3 or 1.5"},
	{"a text", set("cloth.scatter", `"a little"`),
		"b.toml:12:11: cloth.scatter: should be a number, not a text",
		"write a number without quotes"},
	{"heddles of two shafts", set("loom.heddles", "[120, 120]"),
		"b.toml:15:11: loom.heddles: has 2 numbers for 4 shafts",
		"write one number for each shaft, shaft 1 first, or how many there are in all"},
	{"heddles below nought", set("loom.heddles", "[120, -1, 120, 120]"),
		"b.toml:15:17: loom.heddles: should hold whole numbers of heddles",
		"write a list such as [120, 160, 120, 160]"},
	{"heddles in all below nought", set("loom.heddles", "-1"),
		"b.toml:15:11: loom.heddles: must be from 0 to 100000, not -1",
		"write a whole number from 0 to 100000"},
	{"levers tied up", set("loom.treadles", "0", "loom.tie_up", `"direct"`),
		"b.toml:16:10: loom.tie_up: with treadles = 0 there are none to tie up",
		"leave tie_up out: on a table loom every shaft has its own lever"},
	{"a direct tie-up of both ways", set("loom.shed", `"both"`, "loom.tie_up", `"direct"`),
		`b.toml:16:10: loom.tie_up: with shed = "both" every treadle moves all ` +
			"shafts, so that no two can be pressed together",
		`write tie_up = "sheds", or leave it out`},
	{"treadles below none", set("loom.treadles", "-1"),
		"b.toml:15:12: loom.treadles: must be from 0 to 128, not -1",
		"write a whole number from 0 to 128"},
	{"no pace", set("loom.pace", "0"),
		"b.toml:15:8: loom.pace: must be from 1 to 100000, not 0",
		"write a whole number from 1 to 100000"},
	{"pace as a text", set("loom.pace", `"900"`),
		"b.toml:15:8: loom.pace: should be a whole number, not a text",
		"write a whole number without quotes"},
	{"another way to dress", set("loom.dress", `"back-to-front"`),
		`b.toml:15:9: loom.dress: "back-to-front" is none of back to front, front to back`,
		`did you mean "back to front"?`},
	{"from no edge", set("loom.thread_from", `"middle"`),
		`b.toml:15:15: loom.thread_from: "middle" is none of left, right`,
		"write one of: left, right"},
	{"near a key of the loom", set("loom.thread_form", `"left"`),
		"b.toml:15:1: loom.thread_form: there is no such key",
		`did you mean "thread_from"?`},
	{"near a key of the set", set("set.hemshow", `"1 cm"`),
		"b.toml:8:1: set.hemshow: there is no such key",
		`did you mean "hem_show"?`},
	{"an unknown word", set("loom.shed", `"up"`),
		`b.toml:15:8: loom.shed: "up" is none of rising, sinking, both`,
		"write one of: rising, sinking, both"},
}

// Yarns of the shelf.
var wrongYarns = []wrong{
	{"none", set("yarn", "", "colour", ""),
		"b.toml:1:1: yarn: is missing",
		`describe at least one yarn: [yarn.cotton] with count = "8/2 cotton"`},
	{"a price with a sign", set("yarn.linen.price", `"12.50 kr"`),
		`b.toml:21:9: yarn.linen.price: "12.50 kr" is no price`,
		"write what a package costs in figures with a point, without a sign, as in \"12.50\""},
	{"a price with a comma", set("yarn.linen.price", `"12,50"`),
		`b.toml:21:9: yarn.linen.price: "12,50" is no price`,
		"write what a package costs in figures with a point, without a sign, as in \"12.50\""},
	{"a price below nothing", set("yarn.linen.price", `"-1"`),
		`b.toml:21:9: yarn.linen.price: "-1" is no price`,
		"write what a package costs in figures with a point, without a sign, as in \"12.50\""},
	{"a price without quotes", set("yarn.linen.price", "12.50"),
		"b.toml:21:9: yarn.linen.price: should be a text, not a number",
		`put it in quotes: "..."`},
	{"no count", set("yarn.cotton.count", "", "yarn.cotton.wraps", `"14/cm"`),
		"b.toml:16:7: yarn.cotton.count: is missing",
		`write count = "8/2 cotton", tex = 148, or run = "3360 yd/lb"`},
	{"tex too fine", set("yarn.linen.tex", "0.01"),
		"b.toml:20:7: yarn.linen.tex: comes to 0.01 tex, which is no yarn for weaving",
		"a yarn of 8/2 cotton is 148 tex"},
	{"a run too fine", set("yarn.linen.tex", "", "yarn.linen.run", `"90000000 m/kg"`),
		"b.toml:20:7: yarn.linen.run: comes to 0.01 tex, which is no yarn for weaving",
		"a yarn of 8/2 cotton is 148 tex"},
	{"a package of less than a metre", set("yarn.linen.package", `"1 cm"`),
		"b.toml:21:11: yarn.linen.package: 1 cm comes to less than a metre",
		`write a package as in "225 g" or "900 m"`},
	{"more on hand than is worked on", set("colour[1].on_hand", `"20000000 m"`),
		"b.toml:31:11: colour.on_hand: 20000000 m comes to more than the 10 000 km " +
			"that are worked on",
		"is the unit mistaken?"},
}

// Colours of the shelf.
var wrongColours = []wrong{
	{"none", set("colour", ""),
		"b.toml:1:1: colour: is missing",
		"describe at least one colour: [[colour]] with name, hex and yarn"},
	{"no tables", set("colour", "", "colour", `["oat"]`),
		"b.toml:3:11: colour: should hold tables",
		"write [[colour]] above each colour's keys"},
	{"no name", set("colour[2].hex", `"#334455"`, "colour[2].yarn", `"linen"`),
		"b.toml:49:3: colour.name: is missing",
		"give every colour a name of yours"},
	{"no hex", set("colour[0].hex", ""),
		"b.toml:22:3: colour.hex: is missing",
		`write the colour as in hex = "#24463c"`},
	{"a hex too short", set("colour[0].hex", `"#efe6d"`),
		`b.toml:24:8: colour.hex: "#efe6d" is not a colour`,
		`write six hexadecimal digits after a #, as in "#24463c"`},
	{"which yarn of two", set("colour[0].yarn", ""),
		"b.toml:22:3: colour.yarn: is missing",
		"there are several yarns: say which one this colour is of"},
	{"an unknown yarn", set("colour[0].yarn", `"coton"`),
		`b.toml:25:8: colour.yarn: there is no yarn "coton"`,
		`did you mean "cotton"?`},
	{"two of one name", set(
		"colour[2].name", `"oat"`,
		"colour[2].hex", `"#334455"`,
		"colour[2].yarn", `"linen"`,
	),
		`b.toml:50:8: colour.name: there are two colours called "oat"`,
		"give every colour a name of its own"},
	{"a name misspelt", set("weft.colours", `["plumb"]`),
		`b.toml:39:12: weft.colours: there is no colour "plumb"`,
		`did you mean "plum"?`},
}
