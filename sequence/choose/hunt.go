package choose

import (
	"context"
	"slices"
)

// hunt is the search through one family. Members go by their place in it.
type hunt struct {
	ctx     context.Context
	err     error
	pool    *Pool
	family  int
	of      []int           // candidates
	near    []int32         // of each: the least difference to what stands
	columns map[int][]int32 // differences of one place to all; those worked out
	known   []int           // places that have columns, the latest last
	levels  []set           // the sets of 1, 2, ... members

	first, second []int32 // of each place: the two least differences to members
	whose         []int32 // and the slot of the first, -1 for what stands
}

func newHunt(ctx context.Context, p *Pool, family int, of []int) *hunt {
	n := len(of)
	h := &hunt{ctx: ctx, pool: p, family: family, of: of, columns: make(map[int][]int32),
		near: make([]int32, n), first: make([]int32, n), second: make([]int32, n), whose: make([]int32, n)}
	for a := range of {
		h.near[a] = Apart
	}
	for f := range p.Fixed {
		for a, c := range of {
			h.near[a] = min(h.near[a], int32(p.Between(c, p.Size+f)))
		}
		h.stopped()
	}
	return h
}

// stopped tells whether the context has ended.
func (h *hunt) stopped() bool {
	if h.err == nil {
		h.err = h.ctx.Err()
	}
	return h.err != nil
}

// column is the differences of one place to all.
func (h *hunt) column(a int) []int32 {
	if c := h.columns[a]; c != nil {
		return c
	}
	c := make([]int32, len(h.of))
	if !h.stopped() {
		for b, other := range h.of {
			c[b] = int32(h.pool.Between(h.of[a], other))
		}
	}
	h.columns[a] = c
	h.known = append(h.known, a)
	return c
}

// spareColumns is how many columns are kept besides those of members.
const spareColumns = 64

// trim forgets the oldest columns that no member needs.
func (h *hunt) trim(members []int) {
	for i := 0; len(h.known) > len(members)+spareColumns && i < len(h.known); {
		if a := h.known[i]; slices.Contains(members, a) {
			i++
		} else {
			delete(h.columns, a)
			h.known = slices.Delete(h.known, i, i+1)
		}
	}
}

// grow makes the sets of 1 to k members, each from the one before. Beside them
// go others with different beginnings, which widen the search.
func (h *hunt) grow(k int) {
	others := h.beginnings()
	var now set
	for len(h.levels) < k && !h.stopped() {
		way := h.climb(h.add(now))
		best := way[len(way)-1]
		if len(h.levels) == fewMembers {
			others = nil
		}
		for i, other := range others {
			if len(h.levels) > 0 {
				others[i] = last(h.climb(h.add(other)))
			}
			if best.worse(others[i]) {
				best = others[i]
			}
		}
		now = h.keep(now.at, way, h.recombine(best))
		h.levels = append(h.levels, now)
		h.trim(now.at)
	}
}

// Few beginnings are enough for many candidates, which offer more exchanges;
// for few they cost nothing.
const (
	fewBeginnings  = 4
	mostBeginnings = 16
	beginningWork  = 20_000 // candidates times beginnings
	fewMembers     = 12     // beyond which only one set is grown on
)

// beginnings are sets of one, far from each other.
func (h *hunt) beginnings() []set {
	n := min(max(beginningWork/len(h.of), fewBeginnings), mostBeginnings)
	var sets []set
	for _, a := range h.beginning(n + 1) {
		sets = append(sets, h.weigh([]int{a}))
	}
	return sets[1:]
}

func (h *hunt) add(s set) set { return h.weigh(append(slices.Clone(s.at), h.farthest(s.at))) }

func last(way []set) set { return way[len(way)-1] }

// farthest is the place to add to members: of those that leave least without
// room, the one whose least difference to all is greatest. Where there is
// nothing to differ from it is the one farthest from the first candidate.
func (h *hunt) farthest(at []int) int {
	ends := at
	if len(at) == 0 && h.pool.Fixed == 0 {
		ends = []int{0}
	}
	h.measure(ends)
	used := h.used(at)
	best, over, most := -1, int64(0), int32(0)
	for a := range h.of {
		if slices.Contains(at, a) {
			continue
		}
		o := h.with(used, a, -1)
		if best < 0 || o < over || o == over && h.first[a] > most {
			best, over, most = a, o, h.first[a]
		}
	}
	return best
}

// measure fills in the two least differences of every place to members and to
// what stands.
func (h *hunt) measure(at []int) {
	copy(h.first, h.near)
	for a := range h.of {
		h.second[a], h.whose[a] = h.near[a], -1
	}
	for slot, m := range at {
		column := h.column(m)
		for a, d := range column {
			switch {
			case d < h.first[a]:
				h.second[a], h.first[a], h.whose[a] = h.first[a], d, int32(slot)
			case d < h.second[a]:
				h.second[a] = d
			}
		}
	}
}

func (h *hunt) result(s set) Result {
	r := Result{Family: h.family, Least: s.least, Bound: s.least}
	for _, a := range s.at {
		r.Members = append(r.Members, h.of[a])
	}
	for i, level := range h.levels {
		r.Leasts = append(r.Leasts, level.least)
		if level.over == 0 {
			r.Fit = i + 1
		}
	}
	if s.over > 0 {
		for i, u := range h.used(s.at) {
			r.Lack = append(r.Lack, max(0, u-h.pool.Room[i]))
		}
	}
	return r
}
