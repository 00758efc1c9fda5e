package palette

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// stripes are n panes of two colours in turn.
func stripes(a, b XYZ, n int, widthMM float64) Panes {
	p := Panes{HeightsMM: []float64{100}, Colours: [][]XYZ{{}}}
	for i := range n {
		c := a
		if i%2 == 1 {
			c = b
		}
		p.WidthsMM = append(p.WidthsMM, widthMM)
		p.Colours[0] = append(p.Colours[0], c)
	}
	return p
}

// The middle of many stripes is where the closed form of Blur.Stripes holds,
// which is tested against an independent implementation of S-CIELAB.
func TestPanesAgreeWithStripes(t *testing.T) {
	a, b := RGB{0x24, 0x46, 0x3c}.Linear().XYZ(), RGB{0xef, 0xe6, 0xd2}.Linear().XYZ()
	for _, widthMM := range []float64{1, 4, 12, 33} {
		for _, distanceM := range []float64{0.4, 2, 5} {
			n := 2*int(math.Ceil(1500/widthMM)) + 1
			seen := stripes(a, b, n, widthMM).Seen(distanceM, n, 1)
			middle, _ := seenStripes(a, b, widthMM, distanceM)
			if n/2%2 == 1 {
				_, middle = seenStripes(a, b, widthMM, distanceM)
			}
			for i := range middle {
				assert.InDelta(t, middle[i], seen[n/2][i], 2e-4, "%g mm from %g m", widthMM, distanceM)
			}
		}
	}
}

func TestPanesFromNoDistanceAreThemselves(t *testing.T) {
	a, b := XYZ{0.1, 0.2, 0.3}, XYZ{0.5, 0.4, 0.2}
	p := Panes{WidthsMM: []float64{10, 30}, HeightsMM: []float64{5, 5}, Colours: [][]XYZ{{a, b}, {b, a}}}
	for i, want := range []XYZ{a, b, b, b, b, a, a, a} {
		got := p.Seen(0, 4, 2)[i]
		for c := range want {
			assert.InDelta(t, want[c], got[c], 1e-12)
		}
	}
}

// One colour stays itself from anywhere: the shares sum to 1.
func TestPanesOfOneColourStay(t *testing.T) {
	c := XYZ{0.3, 0.25, 0.4}
	p := Panes{WidthsMM: []float64{3, 50, 7}, HeightsMM: []float64{20, 1}, Colours: [][]XYZ{{c, c, c}, {c, c, c}}}
	for _, got := range p.Seen(2, 9, 5) {
		for i := range c {
			assert.InDelta(t, c[i], got[i], 1e-4)
		}
	}
}

// Light is neither made nor lost: the mean over a wide, evenly patterned
// picture stays what it was.
func TestPanesKeepTheMean(t *testing.T) {
	black, white := XYZ{}, XYZ{0.95, 1, 1.09}
	seen := stripes(black, white, 40, 25).Seen(5, 4000, 1)
	var sum float64
	for _, c := range seen {
		sum += c[1]
	}
	assert.InDelta(t, 0.5, sum/float64(len(seen)), 1e-3)
}

// A screen gets the same colours, to the level.
func TestPanesOnScreen(t *testing.T) {
	p := stripes(RGB{0x24, 0x46, 0x3c}.Linear().XYZ(), RGB{0xef, 0xe6, 0xd2}.Linear().XYZ(), 12, 9)
	p.HeightsMM, p.Colours = []float64{20, 30}, append(p.Colours, p.Colours[0][1:], nil)[:2]
	p.Colours[1] = append(p.Colours[1], RGB{0x90, 0x10, 0x20}.Linear().XYZ())
	for _, distanceM := range []float64{0, 0.4, 5} {
		got := p.Screen(distanceM, 60, 25)
		for i, c := range p.Seen(distanceM, 60, 25) {
			want := c.Linear().RGB()
			for k, level := range []uint8{want.R, want.G, want.B} {
				assert.InDelta(t, level, got[4*i+k], 1)
			}
		}
	}
}

// Seen is what [Panes.Screen] shows, before it is made fit for a screen.
func (p Panes) Seen(distanceM float64, across, down int) []XYZ {
	seen := make([]XYZ, 0, across*down)
	p.lines(distanceM, across, down, func(o [3][]float64) {
		for i := range across {
			seen = append(seen, fromOpponent([3]float64{o[0][i], o[1][i], o[2][i]}))
		}
	})
	return seen
}
