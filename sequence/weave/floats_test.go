package weave_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"stripesong/sequence/weave"
)

// walked is the longest floats found by walking the whole drawdown, row by row
// and column by column, and knows nothing of structures.
func walked(lines []string) weave.Floats {
	stretch := func(line, of string) int {
		most := 0
		for _, part := range strings.FieldsFunc(line, func(r rune) bool {
			return string(r) != of
		}) {
			most = max(most, len(part))
		}
		return most
	}
	var f weave.Floats
	for _, line := range lines {
		f.WeftFace = max(f.WeftFace, stretch(line, "W"))
		f.WeftBack = max(f.WeftBack, stretch(line, "|"))
	}
	for j := range lines[0] {
		var up strings.Builder
		for _, line := range lines {
			up.WriteByte(line[j])
		}
		f.WarpFace = max(f.WarpFace, stretch(up.String(), "|"))
		f.WarpBack = max(f.WarpBack, stretch(up.String(), "W"))
	}
	return f
}

func TestFloatsAreThoseOfTheDrawdown(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, body []weave.Strip) {
		got := s.FloatsIn(warp, 4, body)
		assert.Equal(t, walked(draw(s.Threading(warp), s.Picks(4, body))), got)

		most := s.LongestFloats()
		assert.LessOrEqual(t, got.WeftFace, most.WeftFace)
		assert.LessOrEqual(t, got.WeftBack, most.WeftBack)
		assert.LessOrEqual(t, got.WarpFace, most.WarpFace)
		assert.LessOrEqual(t, got.WarpBack, most.WarpBack)
	})
}

// By hand, from the sheds: longest weft float 3 ends, 3 ends, the width of the block.
// Warp floats by hand: with the order P a P b an end that a pattern leaves
// alone lies on one side for P, its tabby and P.
func TestLongestFloatsOfTheTable(t *testing.T) {
	assert.Equal(t, weave.Floats{WeftFace: 3, WeftBack: 3, WarpFace: 3, WarpBack: 3},
		builtin(t, "halvdrall").LongestFloats())
	assert.Equal(t, 3, builtin(t, "summer-and-winter").LongestFloats().Weft())
	belt := builtin(t, "monks-belt").LongestFloats()
	assert.Equal(t, weave.Unbounded, belt.Weft())
	assert.Equal(t, 3, belt.Warp())
}

// A warp and a body that hold every join of two units show the longest floats
// of the structure, so trying all joins finds neither too much nor too little.
func TestLongestFloatsAreReached(t *testing.T) {
	for _, name := range []string{"halvdrall", "summer-and-winter"} {
		s := builtin(t, name)
		warp, body := units("AABBA"), units("AABB..A.BA")
		assert.Equal(t, walked(draw(s.Threading(warp), s.Picks(2, body))), s.LongestFloats(), name)
	}
}

// A stripe of monk's belt floats over its own width and not an end more. By hand, two ends
// to a unit: the weft of A passes over 3 units of A, 6 ends, and under 5 of B, 10 ends.
func TestMonksBeltFloatsTheWidthOfItsBlock(t *testing.T) {
	s := builtin(t, "monks-belt")
	warp := []weave.Strip{{"A", 3}, {"B", 5}, {"A", 2}}
	f := s.FloatsIn(warp, 2, []weave.Strip{{"A", 1}})
	assert.Equal(t, 6, f.WeftFace)
	assert.Equal(t, 10, f.WeftBack)
	assert.Equal(t, 10, f.Weft())
}

// TestMostUnits by hand: in 13 ends there are six whole units of two.
func TestMostUnits(t *testing.T) {
	belt := builtin(t, "monks-belt")
	n, bound := belt.MostUnits("A", 13)
	assert.True(t, bound)
	assert.Equal(t, 6, n)
	for units := 1; units < 20; units++ {
		f := belt.FloatsIn([]weave.Strip{{"B", 1}, {"A", units}, {"B", 1}}, 2,
			[]weave.Strip{{"A", 2}, {"B", 2}})
		assert.Equal(t, units > n, f.Weft() > 13, "%d units", units)
	}
	_, bound = builtin(t, "halvdrall").MostUnits("A", 3)
	assert.False(t, bound)
	_, bound = belt.MostUnits("C", 3)
	assert.False(t, bound)
}

func TestLongerOfTwoSides(t *testing.T) {
	assert.Equal(t, 3, weave.Floats{WeftFace: 3, WeftBack: 2}.Weft())
	assert.Equal(t, 3, weave.Floats{WeftFace: 2, WeftBack: 3}.Weft())
	assert.Equal(t, 3, weave.Floats{WarpFace: 3, WarpBack: 2}.Warp())
	assert.Equal(t, 3, weave.Floats{WarpFace: 2, WarpBack: 3}.Warp())
}

func BenchmarkFloatsIn(b *testing.B) {
	s := builtin(b, "halvdrall")
	for _, n := range []int{1, 10} {
		threading := s.Threading([]weave.Strip{{"A", 25 * n}, {"B", 25 * n}})
		picks := s.Picks(40, []weave.Strip{{"A", 50 * n}, {"B", 50 * n}})
		b.Run(fmt.Sprintf("%d ends", len(threading)), func(b *testing.B) {
			for b.Loop() {
				weave.FloatsIn(threading, picks)
			}
		})
	}
}
