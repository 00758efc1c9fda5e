package weave_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/weave"
)

func closed(t *testing.T, name string) *weave.Structure {
	t.Helper()
	s, ok := builtin(t, name).Closed()
	require.True(t, ok)
	require.NoError(t, s.Validate())
	return s
}

// By hand: halvdräll over one unit of A, one of B, one of A with the closing end in the
// middle: 3 4 1 4 is closed by 3, and the last unit turned round. The pattern weft of A
// covers shafts 1 and 2, that of B 3 and 4, tabby a 1 and 3, tabby b 2 and 4.
func TestClosedHalvdrall(t *testing.T) {
	s := closed(t, "halvdrall")
	threading := s.Threading(units("ABA"))
	assert.Equal(t, []int{1, 2, 3, 2, 3, 4, 1, 4, 3, 2, 3, 2, 1}, threading)
	assert.Equal(t, []string{"WW|W||W||W|WW", "W|W|W|W|W|W|W", "WW|W||W||W|WW", "|W|W|W|W|W|W|"},
		draw(threading, s.UnitPicks("A")))
	assert.Equal(t, []string{"||W|WW|WW|W||", "W|W|W|W|W|W|W", "||W|WW|WW|W||", "|W|W|W|W|W|W|"},
		draw(threading, s.UnitPicks("B")))
	assert.Equal(t, builtin(t, "halvdrall").LongestFloats(), s.LongestFloats())
}

// Where it stands: after the middle strip, or the last of the middle block, and where
// nothing is mirrored after the last of all; what lies beyond is turned round.
func TestThread(t *testing.T) {
	s := closed(t, "halvdrall")
	a, b := []int{1, 2, 3, 2}, []int{3, 4, 1, 4}
	turnedA, turnedB := []int{2, 3, 2, 1}, []int{4, 1, 4, 3}
	one := func(unit []int) weave.Threaded { return weave.Threaded{Unit: unit} }
	over := func(unit []int) weave.Threaded { return weave.Threaded{Unit: unit, Turned: true} }
	for name, c := range map[string]struct {
		warp []weave.Strip
		want []weave.Threaded
	}{
		"mirrored": {[]weave.Strip{{"A", 3}, {"B", 1}, {"A", 3}},
			[]weave.Threaded{one(a), {Unit: b, Closing: 3}, over(turnedA)}},
		"mirrored, of an even number": {[]weave.Strip{{"B", 3}, {"A", 2}, {"A", 2}, {"B", 3}},
			[]weave.Threaded{one(b), {Unit: a, Closing: 1}, over(turnedA), over(turnedB)}},
		"mirrored in its blocks": {[]weave.Strip{{"B", 2}, {"A", 4}, {"A", 1}, {"B", 1}, {"B", 1}},
			[]weave.Threaded{one(b), one(a), {Unit: a, Closing: 1}, over(turnedB), over(turnedB)}},
		"not mirrored": {[]weave.Strip{{"A", 3}, {"B", 1}, {"A", 2}},
			[]weave.Threaded{one(a), one(b), {Unit: a, Closing: 1}}},
		"one strip": {[]weave.Strip{{"A", 3}}, []weave.Threaded{{Unit: a, Closing: 1}}},
		"none":      {nil, []weave.Threaded{}},
	} {
		assert.Equal(t, c.want, s.Thread(c.warp), name)
	}
	assert.Equal(t, []weave.Threaded{one(b), one(a), one(b)},
		builtin(t, "halvdrall").Thread([]weave.Strip{{"B", 1}, {"A", 1}, {"B", 1}}))
}

// One end and one heddle more: a units of A and b of B take a+b, 2a, a+b and 2b heddles,
// and one more on the first shaft of the block in the middle, 3 of B.
func TestClosingTakesOneHeddle(t *testing.T) {
	warp := []weave.Strip{{"A", 7}, {"B", 5}, {"A", 7}}
	const a, b = 14, 5
	s := closed(t, "halvdrall")
	assert.Equal(t, []int{a + b, 2 * a, a + b + 1, 2 * b}, s.Heddles(warp))
	assert.Len(t, s.Threading(warp), 4*(a+b)+1)
	assert.Equal(t, 1, s.ClosingEnds())
	assert.Zero(t, builtin(t, "halvdrall").ClosingEnds())
	assert.Empty(t, s.Threading(nil))
	assert.Equal(t, []int{0, 0, 0, 0}, s.Heddles(nil))
}

// A warp that is mirrored in whole units is its own mirror image with a closing end, pick
// by pick and on both sides; without one halvdräll is not.
func TestClosedWarpsMirror(t *testing.T) {
	mirrored := func(s *weave.Structure, warp []weave.Strip) bool {
		for _, line := range draw(s.Threading(warp), s.Picks(2, units("AB."))) {
			behind := []byte(line)
			slices.Reverse(behind)
			if string(behind) != line {
				return false
			}
		}
		return true
	}
	for _, warp := range [][]weave.Strip{
		{{"A", 3}, {"B", 2}, {"A", 1}, {"B", 2}, {"A", 3}},
		{{"B", 3}, {"A", 2}, {"B", 4}, {"A", 2}, {"B", 3}},
		{{"B", 3}, {"A", 2}, {"A", 2}, {"B", 3}},
		{{"A", 2}, {"B", 4}, {"B", 1}, {"A", 1}, {"A", 1}},
	} {
		assert.True(t, mirrored(closed(t, "halvdrall"), warp))
		assert.True(t, mirrored(closed(t, "summer-and-winter"), warp))
		assert.False(t, mirrored(builtin(t, "halvdrall"), warp))
	}
}

// TestNoClosing: units that read otherwise from behind, and floats over whole blocks.
func TestNoClosing(t *testing.T) {
	_, ok := builtin(t, "monks-belt").Closed()
	assert.False(t, ok)
	skewed := builtin(t, "summer-and-winter")
	skewed.Blocks[1].Unit = []int{1, 4, 2, 3}
	_, ok = skewed.Closed()
	assert.False(t, ok)
	before := builtin(t, "halvdrall")
	_, _ = before.Closed()
	assert.Equal(t, builtin(t, "halvdrall"), before, "it makes a copy")
}

// TestClosedFloats: the longest floats of any join hold for closed warps too.
func TestClosedFloats(t *testing.T) {
	each(t, func(t *testing.T, s *weave.Structure, warp, body []weave.Strip) {
		c, ok := s.Closed()
		if !ok {
			return
		}
		most := s.LongestFloats()
		got := c.FloatsIn(warp, 2, body)
		assert.LessOrEqual(t, got.Weft(), most.Weft())
		assert.LessOrEqual(t, got.Warp(), most.Warp())
	})
}
