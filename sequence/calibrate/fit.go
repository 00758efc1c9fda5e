package calibrate

import (
	"fmt"
	"math"

	"stripesong/palette"
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
)

// Fit is how well the model explains a photo of a sample.
type Fit struct {
	Pattern Match   `json:"pattern_area"`
	Ground  Match   `json:"ground_area"`
	Off     float64 `json:"off"` // root mean square of both distances, in L*a*b*
}

// Match is one area as photographed, in the light of the brief's colours, and as
// the model has it.
type Match struct {
	Seen   palette.RGB `json:"seen"`
	Model  palette.RGB `json:"model"`
	DeltaE float64     `json:"delta_e"` // CIEDE2000
}

// The steps and bounds of the search, and what is told by its end.
const (
	spreadStep  = 0.01
	scatterStep = 0.001
	mostScatter = 0.15

	asWell  = 1.0 // what explains a photo within so much of the best, in L*a*b*, does it as well
	farOff  = 4.0 // what is farther off than this explains nothing
	confuse = 0.5 // areas changed about explain it at less than this part of the distance
)

// credibleSpread and credibleScatter are the widths of what is credible unseen: a value is
// told only if its bounds are narrower.
const credibleSpread, credibleScatter = 0.4, 0.025

// grid is the distance from a photo at every spread and scatter.
type grid struct {
	spreads, scatters []float64
	off               [][]float64 // by spread, then by scatter; L*a*b*
}

// fit searches all spreads and scatters for those that explain the areas.
func (c *calibration) fit(t look.Trio, seen areas, ruled *Value) error {
	straight, about := c.grid(t, seen, ruled), c.grid(t, areas{seen.ground, seen.pattern}, ruled)
	i, k := straight.best()
	least, other := straight.off[i][k], about.least()
	if least > asWell && other < float64(confuse*least) {
		return c.m.Wrong("sample.pattern_area",
			"pattern_area and ground_area look as if they had changed places",
			"pattern_area is where the pattern weft lies on the face; if they are right, check "+
				"which colours the sample has")
	}
	if least > farOff {
		return c.m.Wrong("sample.pattern_area",
			fmt.Sprintf("no spread and scatter explain this photo: the best is %.1f off in L*a*b*",
				least),
			"check warp, ground and pattern, the sett and beat of the brief, and that all was in "+
				"one light")
	}
	if err := c.disagree(t, seen, ruled); err != nil {
		return err
	}
	s := c.answer.Sample
	if v := straight.spread(i, least); ruled == nil && !c.allWrapped(t) {
		c.assumed(&v, c.b.Cloth.Spread)
		s.Values = append(s.Values, v)
	}
	v := straight.scatter(k, least)
	c.assumed(&v, c.b.Cloth.Scatter)
	s.Values = append(s.Values, v)
	cloth := look.At(c.b, straight.spreads[i], straight.scatters[k])
	on, off := cloth.OnOff(t)
	s.Fit = &Fit{Pattern: matched(seen.pattern, on), Ground: matched(seen.ground, off),
		Off: exact.RoundTo(least, 2)}
	return nil
}

// disagree refuses a photo and a float that tell spreads which do not meet.
func (c *calibration) disagree(t look.Trio, seen areas, ruled *Value) error {
	if ruled == nil || c.allWrapped(t) {
		return nil
	}
	free := c.grid(t, seen, nil)
	i, k := free.best()
	v := free.spread(i, free.off[i][k])
	if !v.Solved || v.Least <= ruled.Most && ruled.Least <= v.Most {
		return nil
	}
	return c.m.Wrong("sample.float_width",
		fmt.Sprintf("the float gives a spread of %.2f to %.2f, the photo one of %.2f to %.2f: "+
			"they contradict one another",
			ruled.Least, ruled.Most, v.Least, v.Most),
		"measure the float again, on the washed cloth; or take it, or the photo, out")
}

func matched(seen, model palette.Linear) Match {
	return Match{seen.RGB(), model.RGB(),
		exact.RoundTo(palette.DeltaE00(seen.Lab(), model.Lab()), 2)}
}

// allWrapped tells whether spread changes nothing: every yarn has its measured
// width.
func (c *calibration) allWrapped(t look.Trio) bool {
	for _, colour := range []int{t.Warp, t.Ground, t.Pattern} {
		if c.b.Yarns[c.b.Colours[colour].Yarn].Wraps == nil {
			return false
		}
	}
	return true
}

func steps(from, to, step float64) (values []float64) {
	for n := range int(math.Round((to-from)/step)) + 1 {
		values = append(values, exact.RoundTo(from+float64(float64(n)*step), 3))
	}
	return values
}

func (c *calibration) grid(t look.Trio, seen areas, ruled *Value) *grid {
	g := &grid{spreads: steps(leastSpread, mostSpread, spreadStep),
		scatters: steps(0, mostScatter, scatterStep)}
	if ruled != nil {
		g.spreads = []float64{ruled.Measured}
	}
	on, off := seen.pattern.Lab(), seen.ground.Lab()
	for _, spread := range g.spreads {
		shares := look.At(c.b, spread, 0)
		row := make([]float64, len(g.scatters))
		for k, scatter := range g.scatters {
			a, b := shares.OnOffAt(t, scatter)
			row[k] = math.Sqrt((square(a.Lab(), on) + square(b.Lab(), off)) / 2)
		}
		g.off = append(g.off, row)
	}
	return g
}

// square is the squared distance of two colours in L*a*b*.
func square(a, b palette.Lab) float64 {
	l, x, y := a.L-b.L, a.A-b.A, a.B-b.B
	return float64(l*l) + float64(x*x) + float64(y*y)
}

// best is where the distance is least, to a thousandth; of equal ones the first.
func (g *grid) best() (spread, scatter int) {
	for i, row := range g.off {
		for k, off := range row {
			if exact.RoundTo(off, 3) < exact.RoundTo(g.off[spread][scatter], 3) {
				spread, scatter = i, k
			}
		}
	}
	return spread, scatter
}

func (g *grid) least() float64 {
	i, k := g.best()
	return g.off[i][k]
}

// asGood are the first and the last of the values along one axis that explain the photo
// as well as the best does.
func (g *grid) asGood(best int, least float64, axis func(spread, scatter int) int) (low, high int) {
	low, high = best, best
	for i, row := range g.off {
		for k, off := range row {
			if off <= least+asWell {
				low, high = min(low, axis(i, k)), max(high, axis(i, k))
			}
		}
	}
	return low, high
}

// untold is said of a value that the photo leaves open.
const untold = "can't be told from this photo: anything between these explains it as well; yarns " +
	"farther apart in light and dark tell more"

// spread is the spread of the best place of the grid, with the least and the most that
// explain the photo as well.
func (g *grid) spread(best int, least float64) Value {
	low, high := g.asGood(best, least, func(spread, _ int) int { return spread })
	v := Value{Key: "cloth.spread", decimals: 2, Measured: g.spreads[best], Least: g.spreads[low],
		Most: g.spreads[high]}
	v.Solved = v.Most-v.Least < credibleSpread
	v.From = "how much of each yarn the photo shows"
	switch {
	case high == len(g.spreads)-1:
		v.Solved = false
		v.From = fmt.Sprintf("can't be told from this photo: from %.2f on the yarns touch, and "+
			"wider ones look alike", v.Least)
	case !v.Solved:
		v.From = untold
	}
	return v
}

// scatter is the scatter of the best place of the grid, as [grid.spread].
func (g *grid) scatter(best int, least float64) Value {
	low, high := g.asGood(best, least, func(_, scatter int) int { return scatter })
	v := Value{Key: "cloth.scatter", decimals: 3, Measured: g.scatters[best],
		Least: g.scatters[low], Most: g.scatters[high]}
	v.Solved = v.Most-v.Least < credibleScatter
	v.From = "how much darker the cloth is than the average of its yarns"
	if !v.Solved {
		v.From = untold
	}
	return v
}
