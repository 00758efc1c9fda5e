package choose

import "stripesong/sequence/parallel"

// So many places are worked on at a time, fewer where each of them takes long.
const (
	closely = 512  // a difference is measured
	quickly = 8192 // what is known is compared
)

// each divides the places into ranges and works on them, on several processors
// where there are as many, until the search is stopped. Work may write only what
// belongs to its places.
func (h *search) each(size int, work func(from, to int)) {
	if h.err == nil {
		h.err = parallel.Ranges(h.ctx, len(h.of), size, work)
	}
}

// best is the place that gives the best set, the first of equals, and that set; -1
// where none betters what there is. A place is told what it has to better, and
// whether it does.
func (h *search) best(now set, better func(a int, than set) (set, bool)) (place int, best set) {
	type found struct {
		place int
		set   set
	}
	ranges := make([]found, (len(h.of)+quickly-1)/quickly)
	h.each(quickly, func(from, to int) {
		one := found{-1, now}
		for a := from; a < to; a++ {
			if s, ok := better(a, one.set); ok {
				one = found{a, s}
			}
		}
		ranges[from/quickly] = one
	})
	place, best = -1, now
	for _, r := range ranges {
		if h.err == nil && r.place >= 0 && best.worse(r.set) {
			place, best = r.place, r.set
		}
	}
	return place, best
}
