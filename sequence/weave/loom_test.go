package weave_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/weave"
)

// Common practice, no source: four shafts and four treadles suffice for
// halvdräll.
func TestHalvdrallTakesFourShaftsAndFourTreadles(t *testing.T) {
	s := builtin(t, "halvdrall")
	assert.Equal(t, 4, s.Shafts)
	assert.Equal(t, []weave.Treadle{
		{"a", weave.ShedOf(1, 3)}, {"b", weave.ShedOf(2, 4)}, {"A", weave.ShedOf(1, 2)},
		{"B", weave.ShedOf(3, 4)},
	}, s.Treadles(s.Picks(4, units("ABA"))))
}

func TestTreadlesAreThoseUsed(t *testing.T) {
	s := builtin(t, "summer-and-winter")
	names := func(body string) (list []string) {
		for _, treadle := range s.Treadles(s.Picks(2, units(body))) {
			list = append(list, treadle.Name)
		}
		return list
	}
	assert.Equal(t, []string{"a", "b", "A1", "A2", "B1", "B2"}, names("BA"))
	assert.Equal(t, []string{"a", "b", "B1", "B2"}, names("B.B"))
	assert.Equal(t, []string{"a", "b"}, names("."))
	assert.Empty(t, s.Treadles(nil))
}

func TestBlocksThatShareAShedShareATreadle(t *testing.T) {
	s := builtin(t, "summer-and-winter")
	s.Blocks[0].Sheds[1] = s.Blocks[0].Sheds[0]
	assert.Equal(t, "A1/A2", s.Treadles(s.UnitPicks("A"))[2].Name)
}

// On a loom whose treadles raise the shafts tied to them, warp lies on top
// where a shaft is up; on one that sinks them, weft lies on top where a shaft
// is down. Both must show the face that the structure says.
func TestTieUpShowsTheFaceOnEitherLoom(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, body []weave.Strip) {
		threading, picks := s.Threading(warp), s.Picks(2, body)
		treadles := s.Treadles(picks)
		steps := treadling(treadles, picks)
		rising, sinking := s.TieUp(treadles, false), s.TieUp(treadles, true)
		for i, p := range picks {
			face := weave.Face(threading, p.Shed)
			for j, shaft := range threading {
				require.Equal(t, face[j], !rising[steps[i]][shaft-1], "rising")
				require.Equal(t, face[j], sinking[steps[i]][shaft-1], "sinking")
			}
		}
	})
}

func TestTreadlingOfOneUnit(t *testing.T) {
	s := builtin(t, "halvdrall")
	picks := s.Picks(2, units("AB"))
	treadles := s.Treadles(picks)
	assert.Equal(t, []int{0, 1, 2, 0, 2, 1, 3, 0, 3, 1, 0, 1}, treadling(treadles, picks))
	assert.Equal(t, []int{-1}, treadling(treadles, []weave.Woven{{Shed: weave.ShedOf(1)}}))
}

// Common practice, no source: without floating selvedges a pattern weft misses
// the outermost ends. Which, by hand: the shuttle starts from the right, so it
// turns at the left after its first pass. Over 1 2 3 2 in the shed 1+2 it lies
// over two ends at the left edge before it dives, over one at the right.
func TestPatternWeftMissesTheEdge(t *testing.T) {
	s := builtin(t, "halvdrall")
	threading := s.Threading(units("AA"))
	left, right := weave.SelvedgeMisses(threading, s.Picks(4, []weave.Strip{{"A", 2}}), true)
	assert.Equal(t, weave.Miss{Ends: 2, Turns: 2, Of: 2}, left)
	assert.Equal(t, weave.Miss{Ends: 1, Turns: 1, Of: 1}, right)
}

// By hand: between a pick over 1 and 2 and one over 3 and 4 every end changes
// sides, so the turn catches the edge; the turns within each block do not.
func TestATurnBetweenBlocksCatchesTheEdge(t *testing.T) {
	s := builtin(t, "halvdrall")
	left, right := weave.SelvedgeMisses(s.Threading(units("A")),
		s.Picks(0, []weave.Strip{{"A", 1}, {"B", 1}}), true)
	assert.Equal(t, weave.Miss{Ends: 2, Turns: 2, Of: 2}, left)
	assert.Equal(t, weave.Miss{Ends: 0, Turns: 0, Of: 1}, right)
}

// By hand, 1 3 2 3: at the left, shaft 1 is covered by P1 and not by P2: caught.
// At the right both cover the last end, on 3, and only P2 the one before it, on
// 2: that one holds the weft and the last is missed.
func TestSummerAndWinterMissesOneEndAtOneSide(t *testing.T) {
	s := builtin(t, "summer-and-winter")
	left, right := weave.SelvedgeMisses(s.Threading(units("AA")),
		s.Picks(2, []weave.Strip{{"A", 3}}), true)
	assert.Equal(t, weave.Miss{Ends: 0, Turns: 0, Of: 3}, left)
	assert.Equal(t, weave.Miss{Ends: 1, Turns: 2, Of: 2}, right)
}

// A belt's weft misses the whole stripe at the edge, and if there is nothing
// else, the whole cloth.
func TestMonksBeltMissesItsEdgeStripe(t *testing.T) {
	s := builtin(t, "monks-belt")
	picks := s.Picks(0, []weave.Strip{{"A", 2}})
	left, right := weave.SelvedgeMisses(s.Threading([]weave.Strip{{"A", 4}, {"B", 3}}), picks, true)
	assert.Equal(t, 8, left.Ends)
	assert.Equal(t, 6, right.Ends)
	left, _ = weave.SelvedgeMisses(s.Threading([]weave.Strip{{"A", 4}}), picks, true)
	assert.Equal(t, 8, left.Ends)
}

// Tabby a and b are complements, so the ground weft turns round the edge end
// every time.
func TestGroundWeftCatchesEveryEdge(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, body []weave.Strip) {
		picks := s.Picks(4, body)
		left, right := weave.SelvedgeMisses(s.Threading(warp), picks, false)
		assert.Zero(t, left.Ends+right.Ends+left.Turns+right.Turns)
		ground := 0
		for _, p := range picks {
			if !p.Pattern {
				ground++
			}
		}
		assert.Equal(t, ground-1, left.Of+right.Of, "a turn after each pass but the last")
	})
}

// treadling is the number of the treadle of each pick, from 0, in the order
// of treadles; -1 for a pick whose shed none of them opens.
func treadling(treadles []weave.Treadle, picks []weave.Woven) []int {
	number := map[weave.Shed]int{}
	for i, t := range treadles {
		number[t.Shed] = i
	}
	steps := make([]int, len(picks))
	for i, p := range picks {
		steps[i] = -1
		if n, ok := number[p.Shed]; ok {
			steps[i] = n
		}
	}
	return steps
}
