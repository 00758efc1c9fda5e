package choose

import "slices"

// mostDropped is how many members are let go one way and another before the
// best is taken with what happens to be left of them.
const mostDropped = 3

// keep finds a set near the best that lets go of few members of before: one on
// the way from them to the best, one that was looked at closely, or the best
// with as many of them as can be had. Places are kept.
func (h *search) keep(before []int, way []set, best set) set {
	s := h.pull(before, best, best)
	for _, w := range way {
		if w.near(best) && kept(w, before) >= kept(s, before) {
			s = w
			break
		}
	}
	if best.over == 0 && len(best.at) <= word {
		s = h.hold(before, s, best)
	}
	s.at = inPlace(s.at, before)
	return s
}

func kept(s set, before []int) int {
	n := 0
	for _, a := range s.at {
		if slices.Contains(before, a) {
			n++
		}
	}
	return n
}

// hold looks for a set near the best that keeps more of before than s does.
func (h *search) hold(before []int, s, best set) set {
	among := h.lately(before)
	g := h.graph(among, best.least-best.least/Worth)
	g.nodes = steps
	for drop := 1; drop <= mostDropped && (drop == 1 || len(before) <= fewMembers) &&
		len(before)-drop > kept(s, before) && !h.stopped(); drop++ {
		for _, rest := range leaving(len(before), drop) {
			if found := g.with(rest, len(best.at)); found != nil {
				at := make([]int, len(found))
				for i, v := range found {
					at[i] = among[v]
				}
				return h.weigh(at)
			}
		}
		if drop == 1 {
			if held := h.refill(before, best); held.at != nil {
				return held
			}
		}
	}
	return s
}

// refill takes each member out in turn and fills up farthest first.
func (h *search) refill(before []int, best set) set {
	for slot := range before {
		if h.stopped() {
			break
		}
		at := without(before, slot)
		for len(at) < len(best.at) {
			at = append(at, h.farthest(at))
		}
		if s := h.weigh(at); s.near(best) {
			return s
		}
	}
	return set{}
}

// leaving lists the ways to leave out so many of n.
func leaving(n, drop int) [][]int {
	if drop > n {
		return nil
	}
	if drop == 0 {
		all := make([]int, n)
		for i := range all {
			all[i] = i
		}
		return [][]int{all}
	}
	var ways [][]int
	for _, w := range leaving(n-1, drop) {
		ways = append(ways, append(slices.Clone(w), n-1))
	}
	return append(ways, leaving(n-1, drop-1)...)
}

// pull exchanges members of s for those wanted while it stays near the best.
func (h *search) pull(wanted []int, s, best set) set {
	for _, a := range wanted {
		if slices.Contains(s.at, a) {
			continue
		}
		for slot, b := range s.at {
			if slices.Contains(wanted, b) || h.stopped() {
				continue
			}
			at := slices.Clone(s.at)
			at[slot] = a
			if changed := h.weigh(at); changed.near(best) {
				s = changed
				break
			}
		}
	}
	return s
}
