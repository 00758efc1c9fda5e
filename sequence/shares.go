package sequence

import (
	"encoding/binary"
	"fmt"
	"math/rand/v2"
	"sort"
)

// maxStates bounds the search for the closest shares. Up to this many ways to
// have come to a stripe are kept; with more, the furthest from the shares are
// dropped, and the result may then miss the best by a little. With many stripes
// of many colours fewer are kept, so that stripes times ways times the square of
// the colours stays within shareWork.
const (
	maxStates = 3000
	shareWork = 20_000_000
)

// byShares lays colours on stripes so that their widths come as close to the
// shares as neighbours unlike allow: the sum of the squared differences, in
// whole numbers, is the least there is, found by going through the stripes and
// keeping every different sum of widths once. Seeds choose among equals.
func (o Order) byShares(widths []int64, chance *rand.Rand) ([]int, error) {
	if len(o.Shares) != o.Count {
		return nil, fmt.Errorf("shares has %d numbers for %d colours", len(o.Shares), o.Count)
	}
	for _, s := range o.Shares {
		if s <= 0 || s > MaxWeight {
			return nil, fmt.Errorf("a share must be from 1 to %d, not %d", MaxWeight, s)
		}
	}
	if o.Count == 1 {
		return make([]int, len(widths)), nil
	}
	search := newShareSearch(o.Shares, widths, chance)
	for i := range widths {
		search.step(i)
	}
	return search.best(), nil
}

// way is one way to have come to a stripe: the colours' widths so far, the
// last colour, and the way before.
type way struct {
	held   []int64
	last   int
	before *way
}

type shareSearch struct {
	shares, widths []int64
	sumShares      int64
	order          []int // in which colours are tried
	ways           []*way
	done           int64 // width laid so far
}

func newShareSearch(shares, widths []int64, chance *rand.Rand) *shareSearch {
	s := &shareSearch{shares: shares, widths: widths, order: chance.Perm(len(shares))}
	for _, v := range shares {
		s.sumShares += v
	}
	s.ways = []*way{{held: make([]int64, len(shares)), last: -1}}
	return s
}

func (s *shareSearch) step(i int) {
	s.done += s.widths[i]
	known := make(map[string]bool)
	var next []*way
	for _, w := range s.ways {
		for _, c := range s.order {
			if c == w.last {
				continue
			}
			n := &way{held: append([]int64(nil), w.held...), last: c, before: w}
			n.held[c] += s.widths[i]
			if key := n.key(); !known[key] {
				known[key] = true
				next = append(next, n)
			}
		}
	}
	if most := s.mostWays(); len(next) > most {
		sort.SliceStable(next, func(a, b int) bool { return s.miss(next[a]) < s.miss(next[b]) })
		next = next[:most]
	}
	s.ways = next
}

// mostWays is how many ways are kept from stripe to stripe.
func (s *shareSearch) mostWays() int {
	colours := len(s.shares)
	return min(maxStates, max(1, shareWork/(len(s.widths)*colours*colours)))
}

func (w *way) key() string {
	b := binary.AppendVarint(nil, int64(w.last))
	for _, h := range w.held {
		b = binary.AppendVarint(b, h)
	}
	return string(b)
}

// miss is how far a way is from the shares of what has been laid.
func (s *shareSearch) miss(w *way) float64 {
	var sum float64
	for c, h := range w.held {
		d := float64(h*s.sumShares - s.shares[c]*s.done)
		sum += float64(d * d)
	}
	return sum
}

func (s *shareSearch) best() []int {
	best := s.ways[0]
	for _, w := range s.ways[1:] {
		if s.miss(w) < s.miss(best) {
			best = w
		}
	}
	colours := make([]int, len(s.widths))
	for i := len(colours) - 1; i >= 0; i-- {
		colours[i], best = best.last, best.before
	}
	return colours
}
