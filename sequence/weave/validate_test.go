package weave_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/weave"
)

func TestBuiltInStructuresAreValid(t *testing.T) {
	for _, name := range weave.Names() {
		assert.NoError(t, builtin(t, name).Validate(), name)
	}
}

// tiedBlocks is a weaver's own structure: n blocks of summer-and-winter, two
// tie-down shafts and one shaft a block (common practice, no source).
func tiedBlocks(n int) *weave.Structure {
	s := &weave.Structure{Name: "own", Shafts: n + 2,
		Order: []weave.Pick{{true, 0}, {false, 0}, {true, 1}, {false, 1}}}
	s.Tabby[0] = weave.ShedOf(1, 2)
	for i := range n {
		shaft := i + 3
		s.Tabby[1] |= weave.ShedOf(shaft)
		s.Blocks = append(s.Blocks, weave.Block{
			Letter: string(rune('A' + i)),
			Unit:   []int{1, shaft, 2, shaft},
			Sheds:  []weave.Shed{weave.ShedOf(1, shaft), weave.ShedOf(2, shaft)},
		})
	}
	return s
}

// widest is eight blocks of four shafts of their own: all 32 shafts.
func widest() *weave.Structure {
	s := &weave.Structure{Name: "own", Shafts: 32,
		Order: []weave.Pick{{true, 0}, {false, 0}, {true, 0}, {false, 1}}}
	for i := range 8 {
		f := 4*i + 1
		s.Tabby[0] |= weave.ShedOf(f, f+2)
		s.Tabby[1] |= weave.ShedOf(f+1, f+3)
		s.Blocks = append(s.Blocks,
			weave.Block{string(rune('A' + i)), []int{f, f + 1, f + 2, f + 3},
				[]weave.Shed{weave.ShedOf(f, f+1, f+2)}})
	}
	return s
}

func TestAWeaversOwnStructures(t *testing.T) {
	for n := 2; n <= 8; n++ {
		s := tiedBlocks(n)
		require.NoError(t, s.Validate(), "%d blocks", n)
		assert.Equal(t, 3, s.LongestFloats().Weft(), "%d blocks", n)
		warp := units("ABABBA")
		assert.Equal(t, walked(draw(s.Threading(warp), s.Picks(2, units("AB.")))),
			s.FloatsIn(warp, 2, units("AB.")))
	}
	s := widest()
	require.NoError(t, s.Validate())
	num, den := s.Phi(true)
	assert.Equal(t, [2]int{3, 4}, [2]int{num, den})
	assert.Equal(t, "29+30+31", s.UnitPicks("H")[0].Shed.String())
	assert.Equal(t, weave.Unbounded, s.LongestFloats().WeftBack,
		"other blocks lie over the weft for their whole width")
	assert.Equal(t, 3, s.LongestFloats().WeftFace)
}

// Each row breaks halvdräll in one way and gives the whole of what the weaver
// is told.
func TestBrokenStructuresAreRefused(t *testing.T) {
	ground := func(indices ...int) (picks []weave.Pick) {
		for _, i := range indices {
			picks = append(picks, weave.Pick{Pattern: true}, weave.Pick{Index: i})
		}
		return picks
	}
	for _, c := range []struct {
		what   string
		mutate func(s *weave.Structure)
		want   string
	}{
		{"no shafts", func(s *weave.Structure) { s.Shafts = 0 },
			"0 shafts: a structure has 2 to 32"},
		{"too many shafts", func(s *weave.Structure) { s.Shafts = 33 },
			"33 shafts: a structure has 2 to 32"},
		{"one block", func(s *weave.Structure) { s.Blocks = s.Blocks[:1] },
			"1 blocks: a structure has 2 to 8"},
		{"nine blocks", func(s *weave.Structure) { s.Blocks = tiedBlocks(9).Blocks },
			"9 blocks: a structure has 2 to 8"},
		{"letters", func(s *weave.Structure) { s.Blocks[1].Letter = "C" },
			`block 2 is called "C": call it "B", blocks are lettered in order`},
		{"empty units", func(s *weave.Structure) { s.Blocks[0].Unit, s.Blocks[1].Unit = nil, nil },
			"the unit of block A has 0 ends: write 1 to 64\nthe unit of block B has 0 ends: " +
				"write 1 to 64"},
		{"unlike units", func(s *weave.Structure) { s.Blocks[1].Unit = []int{3, 4} },
			"the unit of block B has 2 ends and that of block A 4: make them alike"},
		{"shaft above", func(s *weave.Structure) { s.Blocks[0].Unit[3] = 5 },
			"the unit of block A puts end 4 on shaft 5: there are shafts 1 to 4"},
		{"shaft nought", func(s *weave.Structure) { s.Blocks[1].Unit[0] = 0 },
			"the unit of block B puts end 1 on shaft 0: there are shafts 1 to 4"},
		{"no sheds", func(s *weave.Structure) { s.Blocks[1].Sheds = nil },
			"block B has no pattern shed: write the shafts the weft covers\n" +
				"pick 1 of the order wants pattern shed 1, and block B has 0: give every block " +
				"that many sheds\n" +
				"pick 3 of the order wants pattern shed 1, and block B has 0: give every block " +
				"that many sheds"},
		{"shed above", func(s *weave.Structure) { s.Blocks[0].Sheds[0] = weave.ShedOf(1, 6) },
			"pattern shed A covers shafts 1+6: there are shafts 1 to 4"},
		{"empty shed", func(s *weave.Structure) { s.Blocks[0].Sheds[0] = 0 },
			"pattern shed A covers no shaft, so the weft would only lie behind: name the shafts " +
				"it covers"},
		{"full shed", func(s *weave.Structure) { s.Blocks[0].Sheds[0] = weave.ShedOf(1, 2, 3, 4) },
			"pattern shed A covers every shaft, so the weft would only lie in front: " +
				"leave some out"},
		{"idle shed", func(s *weave.Structure) {
			s.Blocks[0].Sheds = append(s.Blocks[0].Sheds, weave.ShedOf(1))
		},
			"no pick of the order uses pattern shed A2: drop the shed or add a pick P2"},
		{"tabby above", func(s *weave.Structure) { s.Tabby[1] = weave.ShedOf(2, 7) },
			"tabby b covers shafts 2+7: there are shafts 1 to 4"},
		{"empty tabby", func(s *weave.Structure) { s.Tabby[0] = 0 },
			"tabby a covers no shaft, so the weft would only lie behind: name the shafts " +
				"it covers"},
		{"no order", func(s *weave.Structure) { s.Order = nil },
			"the order has 0 picks: write 1 to 64\n" +
				"no pick of the order uses pattern shed A: drop the shed or add a pick P1\n" +
				"no pick of the order uses pattern shed B: drop the shed or add a pick P1"},
		{"endless order", func(s *weave.Structure) { s.Order = ground(make([]int, 33)...) },
			"the order has 66 picks: write 1 to 64"},
		{"no such tabby", func(s *weave.Structure) { s.Order[1].Index = 2 },
			"pick 2 of the order is ground with tabby 2: there are a (0) and b (1)"},
		{"no such pattern", func(s *weave.Structure) { s.Order[2].Index = 1 },
			"pick 3 of the order wants pattern shed 2, and block A has 1: give every block that " +
				"many sheds"},
		{"pattern below nought", func(s *weave.Structure) { s.Order[2].Index = -1 },
			"pick 3 of the order wants pattern shed 0, and block A has 1: give every block that " +
				"many sheds"},
		{"tabbies overlap", func(s *weave.Structure) { s.Tabby[1] = weave.ShedOf(1, 2, 4) },
			"tabby a and tabby b both cover shafts 1: leave each in one of them\n" +
				"no plain weave in the unit of block A: ends 1 and 2, on shafts 1 and 2, lie in " +
				"the same tabby\n" +
				"the ends of shaft 1 are not tied down: while block A is woven they lie below " +
				"every pick; put them into a shed"},
		{"tabby leaves out", func(s *weave.Structure) { s.Tabby[1] = weave.ShedOf(2) },
			"neither tabby covers shafts 4: put each into one of them\n" +
				"no plain weave in the unit of block B: ends 1 and 2, on shafts 3 and 4, lie in " +
				"the same tabby\n" +
				"the ends of shaft 4 are not tied down: while block A is woven they lie above " +
				"every pick; put them into a shed"},
		{"unit not plain", func(s *weave.Structure) { s.Blocks[0].Unit = []int{1, 3, 2, 4} },
			"no plain weave in the unit of block A: ends 1 and 2, on shafts 1 and 3, lie in the " +
				"same tabby"},
		{"join to itself", func(s *weave.Structure) {
			s.Blocks[0].Unit, s.Blocks[1].Unit = []int{1, 2, 1}, []int{3, 4, 3}
		}, "no plain weave where a unit of block A joins one of block A: its last end, on shaft " +
			"1, and the next, on shaft 1, lie in the same tabby"},
		{"join to another", func(s *weave.Structure) { s.Blocks[1].Unit = []int{4, 3, 4, 1} },
			"no plain weave where a unit of block A joins one of block B: its last end, on shaft " +
				"2, and the next, on shaft 4, lie in the same tabby"},
		{"b first", func(s *weave.Structure) { s.Order = ground(1, 0) },
			"pick 2 of the order is tabby b: without the pattern picks the ground must go a b a " +
				"b, so write a here"},
		{"a twice", func(s *weave.Structure) { s.Order = ground(0, 0) },
			"pick 4 of the order is tabby a: without the pattern picks the ground must go a b a " +
				"b, so write b here\n" +
				"the ends of shaft 1 are not tied down: while block A is woven they lie below " +
				"every pick; put them into a shed\n" +
				"the ends of shaft 4 are not tied down: while block A is woven they lie above " +
				"every pick; put them into a shed\n" +
				"the ends of shaft 2 are not tied down: while block B is woven they lie above " +
				"every pick; put them into a shed\n" +
				"the ends of shaft 3 are not tied down: while block B is woven they lie below " +
				"every pick; put them into a shed"},
		{"odd", func(s *weave.Structure) { s.Order = ground(0, 1, 0) },
			"the order has 3 ground picks: end it on tabby b, so that the next unit can " +
				"begin with a"},
		{"blocks exchanged", func(s *weave.Structure) {
			s.Blocks[0].Sheds, s.Blocks[1].Sheds = s.Blocks[1].Sheds, s.Blocks[0].Sheds
		}, "the pattern sheds of block A cover 6 crossings of block B and 2 of its own unit: " +
			"they must cover their own block most\n" +
			"the pattern sheds of block B cover 6 crossings of block A and 2 of its own unit: " +
			"they must cover their own block most"},
	} {
		s := builtin(t, "halvdrall")
		c.mutate(s)
		assert.EqualError(t, s.Validate(), c.want, c.what)
	}
}

func TestOrdersWithoutGroundOrPatternAreRefused(t *testing.T) {
	s := builtin(t, "halvdrall")
	s.Order = []weave.Pick{{Pattern: true}}
	assert.ErrorContains(t, s.Validate(),
		"the order has no ground picks: let tabby a and b alternate between the pattern picks")

	s = builtin(t, "halvdrall")
	s.Order = []weave.Pick{{Index: 0}, {Index: 1}}
	assert.ErrorContains(t, s.Validate(), "no pick of the order uses pattern shed A")
}

// No single change of a shaft or a shed leaves the validator and the cloth at
// odds: whatever it lets pass does weave plain without the pattern.
func TestWhatPassesWeavesPlain(t *testing.T) {
	passed := 0
	for _, name := range weave.Names() {
		for block := range 2 {
			for end := range builtin(t, name).UnitEnds() {
				for shaft := 1; shaft <= 4; shaft++ {
					for tabby := range weave.Shed(16) {
						s := builtin(t, name)
						s.Blocks[block].Unit[end], s.Tabby[0] = shaft, tabby
						if s.Validate() != nil {
							continue
						}
						passed++
						what := fmt.Sprintf("%s block %d end %d shaft %d tabby %v", name, block,
							end, shaft, tabby)
						lines := draw(s.Threading(units("AABBA")), s.Picks(4, nil))
						assert.Equal(t, weave.Floats{WeftFace: 1, WeftBack: 1, WarpFace: 1,
							WarpBack: 1}, walked(lines), what)
					}
				}
			}
		}
	}
	assert.Greater(t, passed, 20, "the built-in structures themselves are among them")
}
