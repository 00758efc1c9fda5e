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
	Left    bool // it starts from the left edge, not from the right
	Then    Then // after the step
	Back    int  // the step it comes back in, from 0; -1 where it does not

	// where it starts, or where it is cut, a tail is left to hemstitch the piece's end with
	FirstTail, LastTail bool
}

// which tells shuttles apart.
type which struct {
	colour  string
	pattern bool
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
// carried and cut. The ground always starts from the right: where it lies then tells
// which tabby comes next.
func shuttles(steps []Step) {
	running, left := map[which]bool{}, false
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
			// from both edges by turns, so that tails don't pile up in one
			if w.pattern && use.Starts {
				use.Left, left = left, !left
			}
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

// Handling is what a piece asks of the hands.
type Handling struct {
	Shuttles int // different ones
	Changes  int // from one pattern colour to another
	Tails    int // to turn in: one where a yarn starts, one where it is cut
	Stitched int // besides: tails to hemstitch with
}

// HandlingOf counts what the steps of a piece ask. Its separator is no part of it: that is
// cut away, tails and all.
func HandlingOf(steps []Step) (h Handling) {
	known, last := map[which]bool{}, ""
	for _, s := range steps {
		if s.Kind == Separator {
			continue
		}
		for _, use := range s.Shuttles {
			known[which{use.Colour, use.Pattern}] = true
			h.tail(use.Starts, use.FirstTail)
			h.tail(use.Then == Cut, use.LastTail)
		}
		if s.Pattern == "" {
			continue
		}
		if last != "" && last != s.Pattern {
			h.Changes++
		}
		last = s.Pattern
	}
	h.Shuttles = len(known)
	return h
}

// tail counts an end of a yarn, if there is one: to turn in, or to hemstitch with.
func (h *Handling) tail(is, stitched bool) {
	switch {
	case is && stitched:
		h.Stitched++
	case is:
		h.Tails++
	}
}

// hemstitched leaves tails of the first and the last ground yarn of a fringed piece.
func hemstitched(steps []Step) {
	first, last := -1, -1
	for i, s := range steps {
		if s.GroundPicks > 0 && s.Kind != Separator {
			last = i
			if first < 0 {
				first = i
			}
		}
	}
	for i := range steps {
		for k := range steps[i].Shuttles {
			use := &steps[i].Shuttles[k]
			use.FirstTail = i == first && !use.Pattern
			use.LastTail = i == last && !use.Pattern
		}
	}
}
