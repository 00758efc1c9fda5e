package palette

import (
	"math"
	"sync"
)

// Panes is a picture made of rectangles, as cloth of stripes in both
// directions is: Colours[row][column] fills HeightsMM[row] by WidthsMM[column].
// What lies beyond the edges is taken to be more of the outermost panes.
type Panes struct {
	WidthsMM, HeightsMM []float64
	Colours             [][]XYZ
}

// Screen is the picture as it looks from a distance in metres, at the middles of a
// grid of down rows by across columns that covers it, row by row: four bytes a place,
// red, green, blue and full opacity; colours that no screen shows are clamped. It is
// the model of [Blur.Stripes] for a whole picture instead of the middle of an endless
// row of stripes: every pane is spread by the eye's filters, exactly, as the Gaussians
// of which they are made divide into one across and one down. A distance of zero or
// less gives the colours themselves.
func (p Panes) Screen(distanceM float64, across, down int) []byte {
	levels, m := fastLevels(), opponentToLinear
	out := make([]byte, 0, 4*across*down)
	p.lines(distanceM, across, down, func(o [3][]float64) {
		for i := range across {
			y, r, b := o[0][i], o[1][i], o[2][i]
			for c := range 3 {
				v := float64(m[c][0]*y) + float64(m[c][1]*r) + float64(m[c][2]*b)
				out = append(out, levels[max(0, min(int(v*finestLevel), finestLevel))])
			}
			out = append(out, 255)
		}
	})
	return out
}

// opponentToLinear takes the opponent space straight to linear light.
var opponentToLinear = func() (m matrix) {
	for i := range m {
		unit := [3]float64{}
		unit[i] = 1
		for j, v := range fromOpponent(unit).Linear() {
			m[j][i] = v
		}
	}
	return m
}()

// finestLevel is how finely linear light is told apart for a screen: where the
// curve is steepest a level is 20 steps wide.
const finestLevel = 1 << 16

// fastLevels is [level] of every step of light.
var fastLevels = sync.OnceValue(func() []byte {
	levels := make([]byte, finestLevel+1)
	for i := range levels {
		levels[i] = level((float64(i) + 0.5) / finestLevel)
	}
	return levels
})

// blur is one lobe of one channel, spread across already, and what each row of
// panes gives to each line.
type blur struct {
	channel int
	weight  float64
	rows    [][]float64
	down    [][]shareOf
}

// lines gives the picture line by line in the opponent space, channel by
// channel; the slices are used again for the next.
func (p Panes) lines(distanceM float64, across, down int, give func([3][]float64)) {
	var blurs []blur
	for channel := range filters {
		plane := p.plane(channel)
		for _, l := range filters[channel] {
			scaleMM := l.degrees / (2 * math.Sqrt(math.Ln2)) * (math.Pi / 180) * 1000 * max(distanceM, 0)
			rows := spread(plane, shares(p.WidthsMM, across, scaleMM))
			blurs = append(blurs, blur{channel, l.weight, rows, shares(p.HeightsMM, down, scaleMM)})
		}
	}
	line := [3][]float64{make([]float64, across), make([]float64, across), make([]float64, across)}
	for j := range down {
		for channel := range line {
			clear(line[channel])
		}
		for _, b := range blurs {
			b.add(line[b.channel], j)
		}
		give(line)
	}
}

// add adds what a blur gives to line j.
func (b blur) add(line []float64, j int) {
	for _, s := range b.down[j] {
		part, row := float64(b.weight*s.share), b.rows[s.pane][:len(line)]
		for k, v := range row {
			line[k] += float64(part * v)
		}
	}
}

// plane is one opponent channel of the panes.
func (p Panes) plane(channel int) [][]float64 {
	plane := make([][]float64, len(p.Colours))
	for i, row := range p.Colours {
		plane[i] = make([]float64, len(row))
		for j, c := range row {
			plane[i][j] = c.opponent()[channel]
		}
	}
	return plane
}

// shareOf is how much of a pane reaches a place.
type shareOf struct {
	pane  int
	share float64
}

// shares gives, for the middles of n equal parts of a row of panes, what each
// pane contributes under a Gaussian exp(-(x/scale)^2); they sum to 1, but for
// shares below a millionth, which are left out.
func shares(sizes []float64, n int, scale float64) [][]shareOf {
	ends := make([]float64, len(sizes))
	total := 0.0
	for i, size := range sizes {
		total += size
		ends[i] = total
	}
	all := make([][]shareOf, n)
	for k := range all {
		at := (float64(k) + 0.5) / float64(n) * total
		all[k] = sharesAt(ends, at, scale)
	}
	return all
}

func sharesAt(ends []float64, at, scale float64) []shareOf {
	var found []shareOf
	before := 0.0
	for i, end := range ends {
		upTo := 1.0
		if i < len(ends)-1 {
			upTo = below(end-at, scale)
		}
		if s := upTo - before; s > 1e-6 {
			found = append(found, shareOf{i, s})
		}
		before = upTo
	}
	return found
}

// farOff is how many scales away all but 1e-8 of a Gaussian is on one side.
const farOff = 4

// below is the part of a Gaussian to the left of x.
func below(x, scale float64) float64 {
	switch {
	case x > farOff*scale:
		return 1
	case x <= -farOff*scale:
		return 0
	}
	return float64((1 + math.Erf(x/scale)) / 2)
}

// spread is each row of panes, spread across.
func spread(plane [][]float64, across [][]shareOf) [][]float64 {
	rows := make([][]float64, len(plane))
	for i, row := range plane {
		rows[i] = make([]float64, len(across))
		for k, all := range across {
			for _, s := range all {
				rows[i][k] += float64(s.share * row[s.pane])
			}
		}
	}
	return rows
}
