package choose

import "slices"

// climb exchanges one member at a time as long as that helps, and returns all
// sets on the way, the first as it was given.
func (h *search) climb(s set) []set {
	way := []set{s}
	for !h.stopped() {
		slot, in := h.swap(s)
		if slot < 0 {
			return way
		}
		at := slices.Clone(s.at)
		at[slot] = in
		s = h.weigh(at)
		way = append(way, s)
		h.trim(s.at)
	}
	return way
}

// swap finds the exchange that helps most: the slot, and who comes in; -1
// where none helps.
func (h *search) swap(s set) (slot, in int) {
	h.measure(s.at)
	used := h.used(s.at)
	if s.over > 0 {
		return h.fitter(s, used)
	}
	slot, in = -1, -1
	best := set{least: s.least}
	for i, rest := range h.rests(s) {
		if rest <= best.least {
			continue
		}
		a, found := h.best(best, func(a int, than set) (set, bool) {
			d := min(rest, h.nearby[a].but(s.at[i]))
			return set{least: d}, d > than.least && h.with(used, a, s.at[i]) == 0
		})
		if a >= 0 {
			best, slot, in = found, i, a
		}
	}
	return slot, in
}

// rests are the least differences that are left without each member: no more
// than with it, but for the one or two that are most alike.
func (h *search) rests(s set) []int64 {
	rests := make([]int64, len(s.at))
	for i := range rests {
		rests[i] = s.least
	}
	for _, i := range h.alike(s) {
		rests[i] = h.least(without(s.at, i))
	}
	return rests
}

// alike are the slots of a member and another, or of a member and what stands,
// that differ least.
func (h *search) alike(s set) []int {
	for i, a := range s.at {
		if int64(h.near[a]) == s.least {
			return []int{i}
		}
		column := h.column(a)
		for j, b := range s.at[:i] {
			if int64(column[b]) == s.least {
				return []int{j, i}
			}
		}
	}
	return nil
}

// fitter finds the exchange that leaves least without room, and of such the
// one that keeps the greatest least difference.
func (h *search) fitter(s set, used []int64) (slot, in int) {
	slot, in = -1, -1
	best := set{over: s.over - 1, least: -1}
	for i, rest := range h.rests(s) {
		a, found := h.best(best, func(a int, than set) (set, bool) {
			with := set{over: h.with(used, a, s.at[i]), least: min(rest, h.nearby[a].but(s.at[i]))}
			return with, than.worse(with) && !slices.Contains(s.at, a)
		})
		if a >= 0 {
			best, slot, in = found, i, a
		}
	}
	return slot, in
}
