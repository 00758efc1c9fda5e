package choose

import "slices"

// nearby is what is known of one place beside the members and what stands: the
// two least differences, and which members have them; -1 for what stands.
type nearby struct {
	first, second int32
	whose, next   int32
}

// meet takes one more member into account.
func (n *nearby) meet(member int, d int32) {
	switch {
	case d < n.first:
		n.second, n.next = n.first, n.whose
		n.first, n.whose = d, int32(member)
	case d < n.second:
		n.second, n.next = d, int32(member)
	}
}

// has tells whether a member counts in what is known.
func (n *nearby) has(member int) bool { return n.whose == int32(member) || n.next == int32(member) }

// but is the least difference to all but one member.
func (n *nearby) but(member int) int64 {
	if n.whose == int32(member) {
		return int64(n.second)
	}
	return int64(n.first)
}

// alone is what is known of a place beside what stands.
func (h *search) alone(a int) nearby { return nearby{h.near[a], h.near[a], -1, -1} }

// measure finds what is to be known of every place beside members. Where most of
// them are those it found that for last, only what came and went counts.
func (h *search) measure(at []int) {
	came, went := h.changes(at)
	columns, fresh := h.columnsOf(at), h.columnsOf(came)
	if len(at) == 0 || len(came)+len(went) > len(at)/2 {
		h.each(quickly, func(from, to int) { h.measureAll(at, columns, from, to) })
	} else {
		h.each(quickly, func(from, to int) {
			for a := from; a < to; a++ {
				n := &h.nearby[a]
				if slices.ContainsFunc(went, n.has) {
					h.measureAll(at, columns, a, a+1)
					continue
				}
				for i, column := range fresh {
					n.meet(came[i], column[a])
				}
			}
		})
	}
	h.measured = slices.Clone(at)
}

func (h *search) measureAll(at []int, columns [][]int32, from, to int) {
	for a := from; a < to; a++ {
		h.nearby[a] = h.alone(a)
	}
	for i, column := range columns {
		for a := from; a < to; a++ {
			h.nearby[a].meet(at[i], column[a])
		}
	}
}

// changes lists the members that were not there when places were measured last,
// and those that are there no more.
func (h *search) changes(at []int) (came, went []int) {
	for _, m := range at {
		if !slices.Contains(h.measured, m) {
			came = append(came, m)
		}
	}
	for _, m := range h.measured {
		if !slices.Contains(at, m) {
			went = append(went, m)
		}
	}
	return came, went
}

func (h *search) columnsOf(at []int) [][]int32 {
	columns := make([][]int32, len(at))
	for i, m := range at {
		columns[i] = h.column(m)
	}
	return columns
}
