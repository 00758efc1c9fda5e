package choose

import "slices"

// set is members, as places in a search's family, and how good they are.
type set struct {
	at    []int
	over  int64 // what there is no room for
	least int64
}

// worse compares what there is no room for first.
func (s set) worse(than set) bool {
	return s.over > than.over || s.over == than.over && s.least < than.least
}

// near tells whether s is so little worse that a change is not worth it.
func (s set) near(best set) bool {
	return s.over == best.over && s.least >= best.least-best.least/Worth
}

// weigh makes a set of places.
func (h *search) weigh(at []int) set {
	return set{at: at, over: h.over(h.used(at)), least: h.least(at)}
}

// least is the least difference of one member to another or to what stands.
func (h *search) least(at []int) int64 {
	least := int64(Apart)
	for i, a := range at {
		least = min(least, int64(h.near[a]))
		column := h.column(a)
		for _, b := range at[:i] {
			least = min(least, int64(column[b]))
		}
	}
	return least
}

// used adds up what members need.
func (h *search) used(at []int) []int64 {
	sum := make([]int64, len(h.from.Room))
	for _, a := range at {
		for i, n := range h.needs(a) {
			sum[i] += n
		}
	}
	return sum
}

func (h *search) needs(a int) []int64 {
	if h.from.Needs == nil {
		return nil
	}
	return h.from.Needs[h.of[a]]
}

// over is how much of all needs finds no room.
func (h *search) over(used []int64) int64 {
	var sum int64
	for i, u := range used {
		sum += max(0, u-h.from.Room[i])
	}
	return sum
}

// with is over, were one member put in and another, or -1, taken out.
func (h *search) with(used []int64, in, out int) int64 {
	var sum int64
	for i, n := range h.needs(in) {
		u := used[i] + n
		if out >= 0 {
			u -= h.needs(out)[i]
		}
		sum += max(0, u-h.from.Room[i])
	}
	return sum
}

// without is a set's places but one.
func without(at []int, slot int) []int { return slices.Delete(slices.Clone(at), slot, slot+1) }

// inPlace gives members that were there before their old places back.
func inPlace(at, before []int) []int {
	placed := make([]int, len(at))
	var fresh []int
	for i := range placed {
		placed[i] = -1
	}
	for _, a := range at {
		if i := slices.Index(before, a); i >= 0 && i < len(placed) {
			placed[i] = a
		} else {
			fresh = append(fresh, a)
		}
	}
	for i := range placed {
		if placed[i] < 0 {
			placed[i], fresh = fresh[0], fresh[1:]
		}
	}
	return placed
}
