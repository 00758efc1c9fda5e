package weave_test

import (
	"encoding/json"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/weave"
)

func builtin(t testing.TB, name string) *weave.Structure {
	t.Helper()
	s, ok := weave.Lookup(name)
	require.True(t, ok, name)
	return s
}

// units is one strip of one unit for each letter; a dot is plain ground.
func units(letters string) []weave.Strip {
	var strips []weave.Strip
	for _, r := range letters {
		block := string(r)
		if r == '.' {
			block = ""
		}
		strips = append(strips, weave.Strip{Block: block, Units: 1})
	}
	return strips
}

// draw is the drawdown as text, first pick first: W weft on the face, | warp.
func draw(threading []int, picks []weave.Woven) []string {
	var lines []string
	rows, of := weave.FaceRows(threading, picks)
	for _, n := range of {
		line := ""
		for _, weft := range rows[n] {
			if weft {
				line += "W"
			} else {
				line += "|"
			}
		}
		lines = append(lines, line)
	}
	return lines
}

// random is a sequence of strips drawn from a fixed seed.
func random(rng *rand.Rand, letters []string, most int) []weave.Strip {
	strips := make([]weave.Strip, 1+rng.IntN(most))
	for i := range strips {
		strips[i] = weave.Strip{Block: letters[rng.IntN(len(letters))], Units: 1 + rng.IntN(4)}
	}
	return strips
}

// each runs a check on many random warps and bodies of every built-in
// structure.
func each(t *testing.T, check func(t *testing.T, s *weave.Structure, warp, body []weave.Strip)) {
	for _, name := range weave.Names() {
		t.Run(name, func(t *testing.T) {
			s := builtin(t, name)
			rng := rand.New(rand.NewPCG(1, 2))
			for range 50 {
				check(t, s, random(rng, s.Letters(), 6), random(rng, append(s.Letters(), ""), 6))
			}
		})
	}
}

func TestNames(t *testing.T) {
	assert.Equal(t, []string{"halvdrall", "summer-and-winter", "monks-belt"}, weave.Names())
	_, ok := weave.Lookup("satin")
	assert.False(t, ok)
}

func TestLookupGivesACopy(t *testing.T) {
	mine := builtin(t, "halvdrall")
	mine.Blocks[0].Unit[0], mine.Blocks[1].Sheds[0], mine.Order[0].Index, mine.Blocks[0].Letter = 9,
		9, 9, "Z"
	assert.NoError(t, builtin(t, "halvdrall").Validate())
}

// By hand from the threading 1 2 3 2 3 4 1 4: the pattern of A covers 1 and 2, tabby a 1 and
// 3, b 2 and 4.
func TestHalvdrallDrawing(t *testing.T) {
	s := builtin(t, "halvdrall")
	assert.Equal(t, []string{"WW|W||W|", "W|W|W|W|", "WW|W||W|", "|W|W|W|W"},
		draw(s.Threading(units("AB")), s.UnitPicks("A")))
}

// By hand from the threading 1 3 2 3 1 4 2 4: P1 covers 1 and 3, a 1 and 2, P2
// 2 and 3, b 3 and 4.
func TestSummerAndWinterDrawing(t *testing.T) {
	s := builtin(t, "summer-and-winter")
	assert.Equal(t, []string{"WW|WW|||", "W|W|W|W|", "|WWW||W|", "|W|W|W|W"},
		draw(s.Threading(units("AB")), s.UnitPicks("A")))
}

func TestCounts(t *testing.T) {
	for name, ends := range map[string]int{"halvdrall": 4, "summer-and-winter": 4,
		"monks-belt": 2} {
		s := builtin(t, name)
		assert.Equal(t, ends, s.UnitEnds(), name)
		assert.Equal(t, 2, s.PatternPicks(), name)
		assert.Equal(t, 2, s.GroundPicks(), name)
		assert.Equal(t, []string{"A", "B"}, s.Letters(), name)
	}
}

// Halvdräll, a units of A and b of B: heddles a+b, 2a, a+b, 2b (common
// practice, no source).
func TestHalvdrallHeddles(t *testing.T) {
	s := builtin(t, "halvdrall")
	const a, b = 17, 5
	warp := []weave.Strip{{"A", 10}, {"B", 5}, {"", 3}, {"A", 7}}
	assert.Equal(t, []int{a + b, 2 * a, a + b, 2 * b}, s.Heddles(warp))
}

func TestHeddlesAreTheThreadingCounted(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, _ []weave.Strip) {
		counted := make([]int, s.Shafts)
		for _, shaft := range s.Threading(warp) {
			counted[shaft-1]++
		}
		assert.Equal(t, counted, s.Heddles(warp))
	})
}

// Hems are tabby, a first; plain units are ground alone; nothing else is
// woven.
func TestPicksOfAPiece(t *testing.T) {
	s := builtin(t, "halvdrall")
	a, b := weave.Woven{Shed: s.Tabby[0]}, weave.Woven{Shed: s.Tabby[1]}
	pb := weave.Woven{Pattern: true, Shed: weave.ShedOf(3, 4)}
	assert.Equal(t, []weave.Woven{a, b, a, b, pb, a, pb, b, a, b, a, b},
		s.Picks(4, []weave.Strip{{"B", 1}})[:12])
	assert.Equal(t, []weave.Woven{a, b, a, b, a, b}, s.Picks(2, []weave.Strip{{"", 1}}))
	assert.Len(t, s.Picks(6, []weave.Strip{{"A", 3}, {"", 2}}), 6+3*4+2*2+6)
}

// Common practice, no source: pattern and tabby alternate.
func TestPatternAndTabbyAlternate(t *testing.T) {
	for _, name := range weave.Names() {
		s := builtin(t, name)
		for i, p := range s.Picks(0, []weave.Strip{{"A", 3}, {"B", 2}, {"A", 1}}) {
			assert.Equal(t, i%2 == 0, p.Pattern, "%s pick %d", name, i)
		}
	}
}

// Common practice, no source: cut out every pattern pick and plain weave is
// left.
func TestWithoutPatternPlainWeaveIsLeft(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, body []weave.Strip) {
		ground := slices.DeleteFunc(s.Picks(4, body), func(p weave.Woven) bool { return p.Pattern })
		for i, line := range draw(s.Threading(warp), ground) {
			for j, top := range line {
				require.Equal(t, (i+j)%2 == 0, top == 'W', "pick %d end %d", i, j)
			}
		}
	})
}

// The back, turned over sideways, shows at each crossing the other thread.
func TestFaceAndBackAreComplements(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, body []weave.Strip) {
		threading := s.Threading(warp)
		for _, p := range s.Picks(2, body) {
			face := weave.Face(threading, p.Shed)
			back := turned(face)
			for i := range face {
				require.NotEqual(t, face[i], back[len(back)-1-i])
			}
			require.Equal(t, face, turned(back))
		}
	})
}

func TestFaceRowsAreMadeOnce(t *testing.T) {
	s := builtin(t, "halvdrall")
	threading := s.Threading(units("ABBA"))
	picks := s.Picks(10, []weave.Strip{{"A", 20}, {"B", 20}})
	rows, of := weave.FaceRows(threading, picks)
	assert.Len(t, rows, 4)
	require.Len(t, of, len(picks))
	for i, p := range picks {
		assert.Equal(t, weave.Face(threading, p.Shed), rows[of[i]])
	}
}

// By hand: of halvdräll's A, 1 2 3 2, its pattern over 1 and 2 covers three ends of four, and
// that of B, over 3 and 4, one. Of summer and winter's 1 3 2 3, P1 over 1 and 3 and P2 over 2
// and 3 cover three of four, and those of B, over 1 and 4 or 2 and 4, one. Monk's belt covers
// a whole block or none of it.
func TestPhi(t *testing.T) {
	for name, want := range map[string][4]int{
		"halvdrall": {3, 4, 1, 4}, "summer-and-winter": {3, 4, 1, 4}, "monks-belt": {1, 1, 0, 1},
	} {
		s := builtin(t, name)
		n1, d1 := s.Phi(true)
		n2, d2 := s.Phi(false)
		assert.Equal(t, want, [4]int{n1, d1, n2, d2}, name)
		n1, d1 = s.PhiOf("B", "B")
		n2, d2 = s.PhiOf("B", "A")
		assert.Equal(t, want, [4]int{n1, d1, n2, d2}, name)
	}
	n, d := builtin(t, "halvdrall").PhiOf("", "A")
	assert.Equal(t, [2]int{0, 1}, [2]int{n, d}, "plain ground covers nothing")
}

func TestShedAsJSON(t *testing.T) {
	text, err := json.Marshal(weave.ShedOf(4, 1, 32))
	require.NoError(t, err)
	assert.Equal(t, "[1,4,32]", string(text))
	text, err = json.Marshal(weave.Shed(0))
	require.NoError(t, err)
	assert.Equal(t, "[]", string(text))

	for _, name := range weave.Names() {
		s := builtin(t, name)
		text, err := json.Marshal(s)
		require.NoError(t, err)
		var again weave.Structure
		require.NoError(t, json.Unmarshal(text, &again))
		assert.Equal(t, *s, again)
	}

	var shed weave.Shed
	assert.ErrorContains(t, json.Unmarshal([]byte(`[0]`), &shed),
		"shaft 0 of a shed: write 1 to 32")
	assert.ErrorContains(t, json.Unmarshal([]byte(`[33]`), &shed),
		"shaft 33 of a shed: write 1 to 32")
	assert.ErrorContains(t, json.Unmarshal([]byte(`"1+2"`), &shed),
		"a shed is a list of shafts, as in [1, 2]")
}

func TestShedAsText(t *testing.T) {
	assert.Equal(t, "1+3", weave.ShedOf(3, 1).String())
	assert.Equal(t, "none", weave.Shed(0).String())
	assert.True(t, weave.ShedOf(32).Covers(32))
	assert.False(t, weave.ShedOf(32).Covers(31))
}

// turned is a row of the face seen from the back, the cloth turned over
// sideways: what lay on top lies below, and the ends run right to left.
func turned(face []bool) []bool {
	row := make([]bool, len(face))
	for i, weft := range face {
		row[len(row)-1-i] = !weft
	}
	return row
}
