package choose

import (
	"context"
	"math"
	"slices"
)

// search is the search through one family. Members go by their place in it.
type search struct {
	ctx     context.Context
	err     error
	from    *Candidates
	family  int
	of      []int           // candidates
	near    []int32         // of each: the least difference to what stands
	columns map[int][]int32 // differences of one place to all; those worked out
	known   []int           // places that have columns, the latest last
	levels  []set           // the sets of 1, 2, ... members

	nearby   []nearby // of each place: what is nearest to it among the members measured
	measured []int    // see [search.measure]
}

func newSearch(ctx context.Context, p *Candidates, family int, of []int) *search {
	n := len(of)
	h := &search{ctx: ctx, from: p, family: family, of: of, columns: make(map[int][]int32),
		near: make([]int32, n), nearby: make([]nearby, n)}
	for a := range of {
		h.near[a] = Apart
	}
	for f := range p.Fixed {
		h.each(closely, func(from, to int) {
			for a := from; a < to; a++ {
				h.near[a] = min(h.near[a], int32(p.Between(of[a], p.Size+f)))
			}
		})
	}
	return h
}

// stopped tells whether the context has ended.
func (h *search) stopped() bool {
	if h.err == nil {
		h.err = h.ctx.Err()
	}
	return h.err != nil
}

// column is the differences of one place to all.
func (h *search) column(a int) []int32 {
	if c := h.columns[a]; c != nil {
		return c
	}
	c := make([]int32, len(h.of))
	h.each(closely, func(from, to int) {
		for b := from; b < to; b++ {
			c[b] = int32(h.from.Between(h.of[a], h.of[b]))
		}
	})
	h.columns[a] = c
	h.known = append(h.known, a)
	return c
}

// spareColumns is how many columns are kept besides those of members.
const spareColumns = 64

// trim forgets the oldest columns that no member needs.
func (h *search) trim(members []int) {
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
func (h *search) grow(k int) {
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
		if h.stopped() {
			return
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
func (h *search) beginnings() []set {
	n := min(max(beginningWork/len(h.of), fewBeginnings), mostBeginnings)
	var sets []set
	for _, a := range h.beginning(n + 1) {
		sets = append(sets, h.weigh([]int{a}))
	}
	return sets[min(1, len(sets)):]
}

func (h *search) add(s set) set { return h.weigh(append(slices.Clone(s.at), h.farthest(s.at))) }

func last(way []set) set { return way[len(way)-1] }

// farthest is the place to add to members: of those that leave least without
// room, the one whose least difference to all is greatest. Where there is
// nothing to differ from it is the one farthest from the first candidate.
func (h *search) farthest(at []int) int {
	ends := at
	if len(at) == 0 && h.from.Fixed == 0 {
		ends = []int{0}
	}
	h.measure(ends)
	used := h.used(at)
	place, _ := h.best(set{over: math.MaxInt64}, func(a int, than set) (set, bool) {
		s := set{over: h.with(used, a, -1), least: int64(h.nearby[a].first)}
		return s, than.worse(s) && !slices.Contains(at, a)
	})
	for a := 0; place < 0; a++ { // stopped: any other will do
		if !slices.Contains(at, a) {
			place = a
		}
	}
	return place
}

func (h *search) result(s set) Result {
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
			r.Lack = append(r.Lack, max(0, u-h.from.Room[i]))
		}
	}
	return r
}
