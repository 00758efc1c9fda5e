package svg

import (
	"math"

	"stripesong/sequence/plan"
)

const (
	// phasesPerPixel is how finely it is told where in its unit a pixel lies.
	phasesPerPixel = 8
	// wholeRuns is from how many pixels to a unit the runs of the warp begin and end
	// with a whole pixel, their units fitted in between; wholeUnits from how many each
	// unit does.
	wholeRuns, wholeUnits = 4, 24
)

// across is the warp as a line of pixels sees it.
type across struct {
	kinds   []warpKind
	wide    int     // in pixels
	perWarp int     // ends
	inUnit  int     // ends to a threading unit
	perUnit float64 // pixels to a threading unit
	// places in a unit that are told apart; 1 where ends are narrower than a pixel
	phases int
	step   float64   // pixels from one to the next
	met    []stretch // what each pixel meets,
	from   []int     // and where in met it begins; one more at the end
	period int       // pixels after which lines nearly repeat; 0 for none
}

// stretch is the part of a pixel's width that one run fills, with the place
// within its unit.
type stretch struct {
	kind, phase int
	part        float64
}

// runKind is what runs of one kind have in common.
type runKind struct {
	block, colour string
	turned        bool
}

// warpKind is all runs of one kind.
type warpKind struct {
	run    plan.WarpRun
	shafts []int // of a unit, left to right as it is seen
	strips [2]*strips
}

// strips is a unit of warp cut up where ends begin and end, and what of it a
// pixel shows by its phase.
type strips struct {
	all    []strip
	phases [][]weight
}

// strip lies in the pitch of an end: mid is how far its middle is from the middle
// of the pitch, 0 to 1.
type strip struct {
	shaft int
	mid   float64
}

// acrossWarp brings the warp to a width in pixels.
func acrossWarp(p *plan.Plan, width int, back bool) *across {
	a := &across{wide: width, perWarp: p.Warp.Ends, inUnit: p.Weave.UnitEnds()}
	a.perUnit = a.at(a.inUnit)
	a.phases, a.step = phasesOf(a.perUnit, width < p.Warp.Ends)
	a.period = repeats(a.perUnit)
	numbers := make(map[runKind]int)
	a.from = append(make([]int, 0, width+1), 0)
	before := 0
	for i := range p.Warp.Runs {
		run := p.Warp.Runs[i]
		if back {
			run = p.Warp.Runs[len(p.Warp.Runs)-1-i]
		}
		key := runKind{run.Block, run.Colour, run.Turned}
		kind, ok := numbers[key]
		if !ok {
			kind = len(a.kinds)
			numbers[key] = kind
			a.kinds = append(a.kinds, warpKind{run: run, shafts: shaftsOf(p, run, back)})
		}
		if run.Closing > 0 && back {
			a.closing(kind, before, a.inUnit-1)
			before++
		}
		a.run(kind, before, run.Units)
		before += run.Units * a.inUnit
		if run.Closing > 0 && !back {
			a.closing(kind, before, 0)
			before++
		}
	}
	a.from = append(a.from, len(a.met))
	return a
}

// phasesOf is how many places in a unit are told apart and how far they lie
// apart, in pixels.
func phasesOf(perUnit float64, flat bool) (phases int, step float64) {
	switch {
	case flat:
		return 1, perUnit
	case perUnit >= wholeUnits:
		return int(math.Ceil(perUnit)) + 1, 1
	}
	phases = max(1, int(perUnit*phasesPerPixel))
	return phases, perUnit / float64(phases)
}

// at is the pixel at which an end begins that has so many before it.
func (a *across) at(ends int) float64 { return float64(a.wide*ends) / float64(a.perWarp) }

// edge is [across.at] of what begins with a whole pixel where a unit has some.
func (a *across) edge(ends int) float64 {
	if a.perUnit >= wholeRuns {
		return math.Round(a.at(ends))
	}
	return a.at(ends)
}

// run adds what pixels meet of the units of a run that has so many ends before it.
func (a *across) run(kind, before, units int) {
	if a.perUnit >= wholeUnits {
		for range units {
			a.meet(kind, a.edge(before), a.edge(before+a.inUnit), 1, 0)
			before += a.inUnit
		}
		return
	}
	from, to := a.edge(before), a.edge(before+units*a.inUnit)
	a.meet(kind, from, to, float64(units)*a.perUnit/(to-from), 0)
}

// closing adds what pixels meet of a closing end, which is as one of a unit is: the first
// of it or, on the back, the last.
func (a *across) closing(kind, before, as int) {
	a.meet(kind, a.edge(before), a.edge(before+1), 1, a.at(as))
}

// meet adds what pixels meet of units that go from one place to another; scale is
// how much more room they need where they are, into how far in a unit they begin.
func (a *across) meet(kind int, from, to, scale, into float64) {
	for x := int(from); float64(x) < to; x++ {
		if x >= len(a.from) {
			a.from = append(a.from, len(a.met))
		}
		at := into + float64((float64(x)+0.5-from)*scale)
		if a.step < 1 {
			at -= float64(math.Floor(at/a.perUnit) * a.perUnit)
		}
		part := min(to, float64(x+1)) - max(from, float64(x))
		a.met = append(a.met, stretch{kind, min(int(at/a.step), a.phases-1), part})
	}
}

// repeats is the fewest whole pixels that come close to whole units, and those of
// one where units have whole pixels.
func repeats(unit float64) (period int) {
	if unit >= wholeUnits {
		return int(math.Round(unit))
	}
	const close, furthest = 0.2, 12
	best := close
	for k := 1.0; k <= furthest; k++ {
		pixels := math.Round(k * unit)
		if off := math.Abs(float64(k*unit) - pixels); off < best {
			best, period = off, int(pixels)
		}
	}
	return period
}

func shaftsOf(p *plan.Plan, run plan.WarpRun, back bool) []int {
	block, _ := p.Weave.Block(run.Block)
	shafts := make([]int, len(block.Unit))
	for i, shaft := range block.Unit {
		if back != run.Turned {
			i = len(shafts) - 1 - i
		}
		shafts[i] = shaft
	}
	return shafts
}

// stripsOf cuts a unit of warp up for ends of a width, and in plain ground also
// where an end fills half of the gap.
func (a *across) stripsOf(k *warpKind, end float64, plain bool) *strips {
	which, ends := 0, []float64{end}
	if plain {
		which, ends = 1, []float64{(1 + end) / 2, end}
	}
	if k.strips[which] == nil {
		k.strips[which] = a.cut(k.shafts, ends)
	}
	return k.strips[which]
}

// cut cuts a unit of warp up for ends of some widths, the widest first.
func (a *across) cut(shafts []int, ends []float64) *strips {
	cuts := []float64{0}
	for _, w := range ends {
		cuts = append(cuts, (1-w)/2)
	}
	for i := len(cuts) - 1; i >= 0; i-- {
		cuts = append(cuts, 1-cuts[i])
	}
	s := &strips{}
	pitch := a.perUnit / float64(len(shafts))
	edges := []float64{0}
	for e, shaft := range shafts {
		for i, to := range cuts[1:] {
			if to > cuts[i] {
				s.all = append(s.all, strip{shaft, math.Abs(cuts[i] + to - 1)})
				edges = append(edges, (float64(e)+to)*pitch)
			}
		}
	}
	if a.phases == 1 {
		s.phases = [][]weight{evenly(edges)}
		return s
	}
	for phase := range a.phases {
		s.phases = append(s.phases, reduce(edges, (float64(phase)+0.5)*a.step))
	}
	return s
}
