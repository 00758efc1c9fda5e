package choose

import "slices"

// keep takes, of the sets on the way from the members before to the best, the
// first that is near the best; where none is, the best with as many of those
// members as can be had. Places are kept.
func (h *hunt) keep(before []int, way []set, best set) set {
	for _, s := range way {
		if s.near(best) {
			return h.placed(s, before)
		}
	}
	return h.placed(h.pull(before, best, best), before)
}

func (h *hunt) placed(s set, before []int) set {
	s.at = inPlace(s.at, before)
	return s
}

// pull exchanges members of s for those wanted while it stays near the best.
func (h *hunt) pull(wanted []int, s, best set) set {
	for _, a := range wanted {
		if slices.Contains(s.at, a) {
			continue
		}
		for slot, b := range s.at {
			if slices.Contains(wanted, b) {
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

// towards is a set as large as best and near it that holds as many of some
// candidates as can be had, in their order.
func (h *hunt) towards(like []int, best set) set {
	var wanted []int
	for _, c := range like {
		if a, found := slices.BinarySearch(h.of, c); found && !slices.Contains(wanted, a) {
			wanted = append(wanted, a)
		}
	}
	at := slices.Clone(wanted)
	for len(at) > len(best.at) {
		at = without(at, h.closest(at))
	}
	for len(at) < len(best.at) {
		at = append(at, h.farthest(at))
	}
	return h.keep(wanted, h.climb(h.weigh(at)), best)
}

// closest is the slot of the member without which the rest differ most, the
// latest of equals.
func (h *hunt) closest(at []int) int {
	slot, most := len(at)-1, int64(-1)
	for i := len(at) - 1; i >= 0; i-- {
		if least := h.least(without(at, i)); least > most {
			slot, most = i, least
		}
	}
	return slot
}
