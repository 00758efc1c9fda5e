package svg

import (
	"errors"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNumbers(t *testing.T) {
	for v, want := range map[um]string{0: "0", 1: "0.001", -1: "-0.001", 1000: "1", 12300: "12.3",
		-2050: "-2.05", 279 * mm: "279"} {
		assert.Equal(t, want, num(v))
	}
	assert.Equal(t, "0.302273", factor(133*mm, 440)) // 133/440 = 0.30227272...
	assert.Equal(t, "1", factor(440*mm, 440))
	assert.Equal(t, "0", factor(mm, 0))
}

func TestMicrometres(t *testing.T) {
	assert.Equal(t, um(440895), micrometres(440.895))
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e300} {
		assert.Zero(t, micrometres(bad), bad)
	}
}

func TestDivideRoundsHalvesAway(t *testing.T) {
	for _, c := range [][3]int{{7, 2, 4}, {-7, 2, -4}, {6, 4, 2}, {5, 4, 1}, {0, 3, 0}} {
		assert.Equal(t, c[2], divide(c[0], c[1]), c)
	}
}

// failing is a writer that takes so many bytes and then no more.
type failing int

var errFull = errors.New("disk full")

func (f *failing) Write(b []byte) (int, error) {
	if *f -= failing(len(b)); *f < 0 {
		return 0, errFull
	}
	return len(b), nil
}

func TestWriteErrorsAreReturned(t *testing.T) {
	p := worked(t)
	for _, room := range []failing{0, 10, 20000} {
		a, b, c := room, room, min(room, 10)
		assert.ErrorIs(t, Set(&a, p), errFull)
		assert.ErrorIs(t, Piece(&b, p, 0), errFull)
		assert.ErrorIs(t, Picture(&c, p, 0, false), errFull)
	}
}

func TestVisible(t *testing.T) {
	for in, want := range map[string]string{
		"plain": "plain", "a\x00b": "a\u2400b", "tab\t": "tab\u2409", "esc\x1b": "esc\u241b",
		"del\x7f":  "del\u2421",
		"c1\u0085": `c1\u0085`, "turn\u202eed": `turn\u202eed`, "bad\xff": "bad\ufffd",
		"\ufffe": `\ufffe`, "sep\u2028": `sep\u2028`,
		"שלום": "שלום", "é\u0301": "é\u0301", "👩‍👩‍👧": "👩‍👩‍👧",
	} {
		assert.Equal(t, want, visible(in))
		assert.Equal(t, want, visible(visible(in)), "again")
	}
}

func TestFit(t *testing.T) {
	f := body
	assert.Equal(t, "spruce", f.fit("spruce", 40*mm))
	long := strings.Repeat("é\u0301", 60)
	for room := um(0); room < 60*mm; room += 700 {
		for _, s := range []string{long, strings.Repeat("織", 60), "a b c d e f g h i j k l m n o p",
			strings.Repeat("👩‍👩‍👧", 9)} {
			got := f.fit(s, room)
			assert.LessOrEqual(t, f.width(got), room)
			if got != "" && got != s {
				assert.True(t, strings.HasPrefix(s, strings.TrimSuffix(got, "…")), got)
				assert.False(t, strings.HasSuffix(got, "\u200d…"), "cut inside a character")
			}
		}
	}
}

// A wide character is reckoned twice as wide as a digit, a combining mark not
// at all.
func TestWidths(t *testing.T) {
	assert.Equal(t, body.width("22"), body.width("手"))
	assert.Equal(t, body.width("e"), body.width("e\u0301"))
	assert.Greater(t, body.heavy().width("warp"), body.width("warp"))
}

func TestWrapKeepsUnits(t *testing.T) {
	lines := small.wrap("buoy is short by 120 m: 1 package of 250 g", 20*mm)
	assert.Equal(t, "buoy is short by 120 m: 1 package of 250 g",
		strings.ReplaceAll(strings.Join(lines, " "), "\u00a0", " "))
	for _, l := range lines {
		assert.NotEqual(t, "g", l)
		assert.LessOrEqual(t, small.width(l), 20*mm)
	}
}

// Labels keep their order, their pitch and the edge, and stay where they want
// to be when there is room.
func TestSpread(t *testing.T) {
	assert.Equal(t, []um{10, 50, 90}, spread([]um{10, 50, 90}, 20, 0, 100))
	assert.Equal(t, []um{40, 60}, spread([]um{49, 51}, 20, 0, 100))
	seed := uint32(1)
	random := func(n int) int { seed = seed*1664525 + 1013904223; return int(seed>>16) % n }
	for range 500 {
		n := 1 + random(20)
		var want []um
		for at := 0; len(want) < n; at += random(60) {
			want = append(want, um(at))
		}
		lo, hi := um(random(50)), um(600+random(900))
		every := thin(n, 30, hi-lo)
		if every > 1 {
			continue
		}
		got := spread(want, 30, lo, hi)
		for i, at := range got {
			assert.GreaterOrEqual(t, at, lo)
			assert.LessOrEqual(t, at, hi)
			if i > 0 {
				assert.GreaterOrEqual(t, at-got[i-1], um(30), "%v", got)
			}
		}
	}
}

func TestThin(t *testing.T) {
	assert.Equal(t, 1, thin(10, 10, 100))
	assert.Equal(t, 3, thin(12, 10, 100)) // an even step would name one block only
	assert.Equal(t, 7, thin(60, 10, 90))
}
