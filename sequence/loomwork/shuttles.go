package loomwork

import "slices"

// CarryMM is the longest way, woven, that a resting weft is carried up the
// edge; beyond it is cut (common practice, no source).
const CarryMM = 25

// Shuttle is a shuttle in use during a step and what becomes of its yarn.
type Shuttle struct {
	Colour  string
	Pattern bool
	Starts  bool // its yarn begins here, with a tail tucked in
	Then    Then // after the step
	Back    int  // the step it comes back in, from 0; -1 where it does not
}

// Then is what is done with a shuttle's yarn after a step.
type Then string

// What may be done: weave on without a stop, lay it aside and carry it up the
// edge, or cut it.
const (
	On    Then = "on"
	Carry Then = "carry"
	Cut   Then = "cut"
)

// shuttles fills in which shuttles each step uses, and where each is started,
// carried and cut.
func shuttles(steps []Step) {
	type which struct {
		colour  string
		pattern bool
	}
	running := map[which]bool{}
	for i := range steps {
		s := &steps[i]
		for _, w := range []which{{s.Pattern, true}, {s.Ground, false}} {
			if w.colour == "" {
				continue
			}
			use := Shuttle{Colour: w.colour, Pattern: w.pattern, Starts: !running[w]}
			use.Back = next(steps, i, w.colour, w.pattern)
			use.Then = afterwards(steps, i, use.Back)
			running[w] = use.Then != Cut
			s.Shuttles = append(s.Shuttles, use)
		}
	}
}

// next is the step after i that uses a shuttle, or -1.
func next(steps []Step, i int, colour string, pattern bool) int {
	for j := i + 1; j < len(steps); j++ {
		if pattern && steps[j].Pattern == colour || !pattern && steps[j].Ground == colour {
			return j
		}
	}
	return -1
}

func afterwards(steps []Step, i, back int) Then {
	switch {
	case back < 0 || steps[back].Kind == Separator:
		return Cut
	case slices.ContainsFunc(steps[i+1:back], func(s Step) bool { return s.Kind == Fringe }):
		return Cut
	case back == i+1:
		return On
	case steps[back-1].Woven-steps[i].Woven <= CarryMM+1e-6:
		return Carry
	}
	return Cut
}
