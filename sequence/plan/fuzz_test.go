package plan_test

import (
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// tooLong is far above what any input takes on a busy machine.
// beside reads shelves of the examples, whatever they are called.
func beside(name string) ([]byte, error) {
	if !filepath.IsLocal(name) {
		return nil, os.ErrNotExist
	}
	return os.ReadFile("../../examples/short-shelf/shelf.toml")
}

// tried reads and plans a text: what comes out is a plan that agrees with
// itself or an error at a place that exists.
func tried(t *testing.T, text []byte) {
	t.Helper()
	b, err := brief.Parse("towels.toml", text, brief.Options{Shelf: beside})
	if err != nil {
		placedIn(t, text, err)
		return
	}
	if b.Vary != nil { // the search has tests of its own; here it only has to end
		b.Vary.Candidates = min(b.Vary.Candidates, 50)
	}
	p, err := plan.Make(context.Background(), b)
	if err != nil {
		placedIn(t, text, err)
		return
	}
	consistent(t, b, p)
}

// placedIn is [placed] for problems of the text itself, not of its shelf.
func placedIn(t *testing.T, text []byte, err error) {
	t.Helper()
	if problems, ok := err.(brief.Problems); ok {
		for _, p := range problems {
			if p.File != "towels.toml" && p.File != "" {
				return
			}
		}
	}
	placed(t, text, err)
}

func exampleBriefs(f *testing.F) [][]byte {
	f.Helper()
	names, err := filepath.Glob("../../examples/*/brief.toml")
	require.NoError(f, err)
	require.GreaterOrEqual(f, len(names), 5)
	all := [][]byte{brief.Default()}
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(f, err)
		all = append(all, text)
	}
	return all
}

// FuzzBrief takes any bytes for a brief.
func FuzzBrief(f *testing.F) {
	for _, text := range exampleBriefs(f) {
		f.Add(text)
		f.Add([]byte("\ufeff" + strings.ReplaceAll(string(text), "\n", "\r\n")))
	}
	f.Fuzz(tried)
}

// smallBrief has every table and is quick to plan.
const smallBrief = `title = "two"
seed = 3
[set]
pieces = 3
width = "10 cm"
length = "12 cm"
hem = "1 cm"
[cloth]
sett = "8/cm"
ground = "7/cm"
[loom]
[yarn.cotton]
count = "8/2 cotton"
[yarn.linen]
tex = 60
[[colour]]
name = "oat"
hex = "#efe6d2"
yarn = "cotton"
[[colour]]
name = "damson"
hex = "#4b1f3f"
yarn = "linen"
[[colour]]
name = "rosehip"
hex = "#8f2a26"
yarn = "linen"
[warp]
colours = ["oat", "rosehip"]
rhythm = { kind = "even", stripes = 3 }
[weft]
ground = "oat"
colours = ["damson", "rosehip"]
rhythm = { kind = "even", stripes = 3 }
[[piece]]
name = "first"
[[piece]]
runs = ["A 4 damson", "plain 2", "B 6 rosehip"]
`

// fuzzedKeys are the keys whose values are changed, most that a brief may have.
var fuzzedKeys = strings.Fields(`title units seed set.pieces set.width set.in_reed set.length set.woven set.hem set.hem_show set.separator set.spare set.fringe
cloth.structure cloth.sett cloth.ground cloth.hem_ground cloth.draw_in cloth.take_up cloth.shrink_width cloth.shrink_length cloth.weft_extra
cloth.strands cloth.spread cloth.floating_selvedge loom.shafts loom.treadles loom.tie_up loom.shed loom.dress loom.thread_from loom.pace loom.width loom.waste loom.sample loom.board loom.reed
loom.heddles loom.bout yarn.cotton.count yarn.cotton.tex yarn.cotton.run yarn.cotton.package yarn.cotton.price yarn.cotton.wraps colour[0].name colour[0].hex colour[0].yarn
colour[1].on_hand warp.colours warp.rhythm warp.order warp.shares warp.blocks warp.middle warp.first warp.seed warp.runs weft.ground weft.hem weft.separator
weft.colours weft.rhythm weft.order weft.shares weft.blocks weft.middle weft.runs piece[0].name piece[0].runs piece[0].rhythm piece[1].ground piece[1].pick_order weft.pick_order piece[1].rhythm
piece[2].rhythm piece[2].blocks piece[2].middle vary.candidates vary.at_least vary.per_piece vary.rhythms vary.within vary.kinship shelf nonsense`)

// fuzzedValues are values they take; "%" stands for a fuzzed number.
var fuzzedValues = strings.Split(strings.ReplaceAll(`%|-%|%.%|"% cm"|"% in"|"% mm"|"%/cm"|"%/in"|"%/%cm"|"%%%"|"% g"|"% m"|"% yd"|"%/% cotton"|"Nm %"|"% m/kg"|""|true|false|[]|{}|[%]|[%, %, %]
"oat"|"damson"|["oat", "damson", "rosehip"]|["oat", "oat"]|"summer-and-winter"|"monks-belt"|"halvdrall"|"A"|"P P a P P b"|"sinking"|"graded"|"hue"|"shuffle"|"shares"
{ kind = "even", stripes = % }|{ kind = "even", stripes = %, mirror = true }|{ kind = "repeat", weights = [%, %], times = % }|{ kind = "repeat", weights = [%.%, 1, 0.00%] }
{ kind = "fibonacci", terms = %, from = %, direction = "out-and-back" }|{ kind = "fibonacci", terms = %, mirror = true }|{ kind = "graded", stripes = %, ratio = %.% }
{ kind = "graded", stripes = %, ratio = "%:%", steps = "proportional", mirror = true }|{ kind = "random", stripes = %, narrowest = %, widest = % }
{ kind = "euclid", accents = %, of = %, mirror = true }|{ letters = "AB" }|{ letters = "ABA", weights = [%, %, %], mirror = true }|{ letters = "BAB", weights = [%, 1, %] }
{ letters = "ABA", weights = [%, %, %], edges = "stripes" }|{ letters = "BA", shares = [%, %], edges = "stripes", mirror = true }|{ shares = [%, %] }|{ letters = "ABA", centre = "%\u0025" }
"%\u0025 plain"|"%\u0025 even %"|"% cm A oat"|"% in plain"|"% cm even %"|"none"
["A % oat", "B % damson"]|["plain %", "A % oat"]|["B % rosehip", "B 1 rosehip", "A % oat"]|"#%"|"on_hand"|"rhythm"|["random", "euclid"]|1979-05-27|nan|inf|0x%|1e%`, "\n", "|"), "|")

// FuzzValues changes values of a brief that works: each three numbers are a key,
// a value and what stands in it.
func FuzzValues(f *testing.F) {
	for i := range fuzzedKeys {
		f.Add([]byte{byte(i), byte(7 * i), byte(i), byte(3 * i), byte(2 * i), 5})
	}
	f.Add([]byte("0\x1f\x04"))
	f.Fuzz(func(t *testing.T, steps []byte) {
		text := []byte(smallBrief)
		for i := 0; i+2 < len(steps) && i < 15; i += 3 {
			key := fuzzedKeys[int(steps[i])%len(fuzzedKeys)]
			value := fuzzedValues[int(steps[i+1])%len(fuzzedValues)]
			value = strings.ReplaceAll(value, "%", numbers[int(steps[i+2])%len(numbers)])
			if changed, err := brief.Edit("towels.toml", text,
				[]brief.Change{{Key: key, Value: value}}); err == nil {
				text = changed
			}
		}
		tried(t, text)
	})
}

// numbers are what stands in changed values.
var numbers = strings.Fields("0 1 2 3 4 5 7 8 9 12 13 20 29 30 31 50 99 100 199 200 201 500 999 " +
	"1000 1001 2000 9999 10000 10001 40000 99999 100000 1000000 9999999 2147483647 4294967296 " +
	"999999999999 9007199254740993 9223372036854775807 9223372036854775808")

// FuzzRuns takes any text for the runs of the warp and of a piece.
func FuzzRuns(f *testing.F) {
	for _, run := range []string{"A 12 oat", "plain 2", "B 4 damson", "A 10000 oat", "A 012 oat",
		"A  3   rosehip ", "C 1 oat", "A 1", "plain 2 oat", "\u00a0A 1 oat", "A\t3\toat",
		"A 3 \x00"} {
		f.Add(run, "A 6 damson")
		f.Add("B 3 oat", run)
	}
	f.Fuzz(func(t *testing.T, warp, weft string) {
		text := strings.Replace(smallBrief, "[warp]",
			"[warp]\nruns = [\"A 3 oat\", "+strconv.Quote(warp)+"]", 1)
		text = strings.Replace(text, `"plain 2", "B 6`, strconv.Quote(weft)+`, "B 6`, 1)
		tried(t, []byte(text))
	})
}

// FuzzStructure takes any text for a structure of the weaver's own.
func FuzzStructure(f *testing.F) {
	for _, s := range []string{eightEnds,
		"[structure]\nunits = { A = [1, 2], B = [3, 4] }\nsheds = { A = [1, 2], B = [3, 4] }\n" +
			"tabby = { a = [1, 3], b = [2, 4] }\n",
		"[structure]\norder = \"P1 a P2 b\"\nunits = { A = [1, 3, 2, 3], B = [1, 4, 2, 4] }\n" +
			"sheds = { A = [[1, 3], [2, 3]], B = [[1, 4], [2, 4]] }\ntabby = { a = [1, 2], b = " +
			"[3, 4] }\n",
		"[structure]\nshafts = 32\norder = \"a b\"\nunits = { A = [1], B = [32] }\n" +
			"sheds = { A = [1], B = [32] }\ntabby = { a = [1], b = [32] }\n",
		"[structure]\nshafts = 6\nunits = { A = [1, 2, 3, 2], B = [3, 4, 1, 4], C = [5, 6, 5, 6] " +
			"}\nsheds = { A = [1, 2], B = [3, 4], C = [5, 6] }\ntabby = { a = [1, 3, 5], b = [2, " +
			"4, 6] }\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, structure string) {
		text := smallBrief + "\n" + structure
		tried(t, []byte(strings.Replace(text, "[loom]", "[loom]\nshafts = 32", 1)))
	})
}
