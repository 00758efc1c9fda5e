package remedy

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
)

// threeBlocks are five towels in summer and winter of three blocks on five shafts, with
// one of them written out.
func threeBlocks(t *testing.T) string {
	t.Helper()
	return changed(t, five, `board = "4.5 yd"`, `board = "9 yd"`,
		`structure = "halvdrall"`, `structure = "three"`,
		"[yarn.cotton]", `[structure] # from her own notes
name = "three"
shafts = 5
order = "P1 a P2 b"
units = { A = [1, 3, 2, 3], B = [1, 4, 2, 4], C = [1, 5, 2, 5] } # C is the border
sheds = { A = [[1, 3], [2, 3]], B = [[1, 4], [2, 4]], C = [[1, 5], [2, 5]] }
tabby = { a = [1, 2], b = [3, 4, 5] }
[yarn.cotton]`,
		"name = \"five\"\ncolours = [\"moss\", \"rust\"]",
		"name = \"five\"\nruns = [\"A 40 moss\", \"C 40 rust\", \"B 40 moss\"]")
}

// offered are the ways out of one trouble, in words.
func offered(a *Answer, code string) (all []string) {
	for _, r := range a.Remedies {
		if r.For == code {
			all = append(all, r.What)
		}
	}
	return all
}

// TestFewerShafts: without its third block summer and winter takes 4 shafts of 5, since
// each block has one of its own beside the two that tie down.
func TestFewerShafts(t *testing.T) {
	text := changed(t, threeBlocks(t), `[loom]`, "[loom]\nshafts = 4\ntreadles = 10")
	a := find(t, text, ".")
	assert.Equal(t, []string{
		"three on 4 shafts, without block C (block C as A)",
		"three on 4 shafts, without block B (block B as C, C then called B)",
		"woven as halvdräll instead of three, block C as A",
		"woven as summer and winter instead of three, block C as A",
	}, offered(a, "shafts"))
	after := take(t, text, a.Remedies[0])
	assert.Contains(t, after, "units = { A = [1, 3, 2, 3], B = [1, 4, 2, 4] } # C is the border")
	assert.Contains(t, after, `runs = ["A 40 moss", "A 40 rust", "B 40 moss"]`)
	_, p := planOf(t, reader("."), after)
	assert.Equal(t, 4, p.Weave.Shafts)
	assert.Equal(t, "three", p.Weave.Name)
	other := take(t, text, a.Remedies[2])
	assert.Contains(t, other, "# [structure] # from her own notes", "her structure stays to read")
}

// TestShaftsInBetween: shafts that no block of those left is threaded on go, and those
// after them get lower numbers.
func TestShaftsInBetween(t *testing.T) {
	text := changed(t, threeBlocks(t), `[loom]`, "[loom]\nshafts = 4\ntreadles = 10",
		"B = [1, 4, 2, 4], C = [1, 5, 2, 5]", "B = [1, 5, 2, 5], C = [1, 4, 2, 4]",
		"B = [[1, 4], [2, 4]], C = [[1, 5], [2, 5]]", "B = [[1, 5], [2, 5]], C = [[1, 4], [2, 4]]")
	after := take(t, text, find(t, text, ".").Remedies[0])
	assert.Contains(t, after, "B = [1, 4, 2, 4] }")
	assert.Contains(t, after, "B = [[1, 4], [2, 4]] }")
	assert.Contains(t, after, "b = [3, 4]")
}

// TestFewerTreadles by hand: summer and winter has two tabby sheds and two for each of
// two blocks, six; in columns it has one for each, four. On four shafts four treadles of
// one shaft each open any shed, two at once.
func TestFewerTreadles(t *testing.T) {
	text := changed(t, five, `board = "4.5 yd"`, `board = "9 yd"`, `structure = "halvdrall"`,
		`structure = "summer-and-winter"`, `[loom]`, "[loom]\ntreadles = 4")
	for _, c := range []struct {
		name, shed string
		want       []string
	}{
		{"rising", "rising", []string{"each treadle tied to one shaft, two pressed at once",
			"in columns, picks P1 a P1 b instead of P1 a P2 b",
			"woven as halvdräll instead of summer and winter"}},
		{"where a treadle moves every shaft", "both", []string{
			"in columns, picks P1 a P1 b instead of P1 a P2 b",
			"woven as halvdräll instead of summer and winter"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := changed(t, text, "[loom]", "[loom]\nshed = \""+c.shed+"\"")
			a := find(t, text, ".")
			assert.Equal(t, c.want, offered(a, "treadles"))
			for _, r := range a.Remedies {
				_, p := planOf(t, reader("."), take(t, text, r))
				assert.LessOrEqual(t, p.Loom.TreadlesUsed, 4)
			}
		})
	}
}

// TestNoFewerTreadles: halvdräll has four sheds, and no structure that is built in has
// fewer; with three treadles for four shafts nothing helps.
func TestNoFewerTreadles(t *testing.T) {
	text := changed(t, five, `board = "4.5 yd"`, `board = "9 yd"`, `[loom]`,
		"[loom]\ntreadles = 3")
	a := find(t, text, ".")
	assert.Empty(t, offered(a, "treadles"))
	require.Len(t, a.Unmended, 1)
	assert.Equal(t, "no way out was found for treadles",
		a.Unmended[0].Told())
}

// TestTwoFeet: with the sheds of summer and winter on five shafts a pattern pick covers
// two and raises three, on a sinking loom it lowers two.
func TestTwoFeet(t *testing.T) {
	text := changed(t, threeBlocks(t), `[loom]`,
		"[loom]\nshafts = 5\ntie_up = \"direct\"\nshed = \"rising\"")
	_, p := planOf(t, reader("."), text)
	assert.Equal(t, 1, codes(p)["treadles-at-once"])
	assert.Equal(t, 5, p.Loom.TreadlesUsed)
	assert.Equal(t, []string{"a treadle for each shed instead of one for each shaft"},
		offered(find(t, changed(t, text, "[loom]", "[loom]\ntreadles = 8"), "."),
			"treadles-at-once")[:1])
	var notes []plan.Note
	_, four := planOf(t, reader("."), changed(t, five, `[loom]`,
		"[loom]\ntreadles = 4\ntie_up = \"direct\"\nshed = \"sinking\""))
	for _, n := range four.Notes {
		if strings.HasPrefix(n.Code, "treadles") {
			notes = append(notes, n)
		}
	}
	assert.Empty(t, notes)
}
