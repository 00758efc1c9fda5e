package choose

import (
	"context"
	"errors"
	"math"
)

// Candidates is what can be chosen: candidates numbered from 0, and what stands
// already, numbered from Size on.
type Candidates struct {
	Size, Fixed int

	// Between is the difference of two members, the first of them a candidate:
	// symmetric, 0 of a member and itself, and below 2^31. It is called by several
	// goroutines at a time.
	Between func(a, b int) int64

	// Bend is how far differences may break the triangle inequality, in
	// millionths: no difference is more than Bend/1e6 times the way round by a
	// third member. 0 stands for 1e6, where they never break it. It is used for
	// the bound alone.
	Bend int64

	// Needs is what each candidate takes of each thing that is limited, and
	// Room what there is of it for all that are chosen. Nil for no limits.
	Needs [][]int64
	Room  []int64

	// Families are the candidates, in rising order, that may be chosen together.
	// Nil stands for one family of all.
	Families [][]int
}

// Result is a set of candidates.
type Result struct {
	Members []int // in the order of their places
	Family  int   // which of Families they are of
	// the least difference of a member to another or to what stands; [Apart] where there is nothing
	// to differ from
	Least  int64
	Bound  int64 // no choice of as many from one family has a greater Least
	Leasts []int64
	// Leasts holds, for 1, 2, ... members, the least difference of the set this
	// one was grown from.

	Fit  int     // how many of the members there is room for, as far as was found
	Lack []int64 // what Room lacks of each thing for all of them; nil where all fit
}

// Apart is the least difference of a single member where nothing stands.
const Apart = math.MaxInt32

// Worth is what a change must gain: a set that keeps the members of the one
// before is taken where its least difference is no more than one part in so
// many below the best found.
const Worth = 20

// ErrFew says that no family has as many candidates as were asked for.
var ErrFew = errors.New("too few candidates")

// Best chooses k candidates of one family. The error is the context's, or
// [ErrFew].
func (p *Candidates) Best(ctx context.Context, k int) (Result, error) {
	var searches []*search
	for i, of := range p.families() {
		if len(of) >= k {
			searches = append(searches, newSearch(ctx, p, i, of))
		}
	}
	if len(searches) == 0 || k < 1 {
		return Result{}, ErrFew
	}
	for _, h := range searches {
		if h.grow(k); h.err != nil {
			return Result{}, h.err
		}
	}
	h := pick(searches, k)
	r := h.result(h.levels[k-1])
	for _, other := range searches {
		r.Bound = max(r.Bound, other.bound(k, r.Least))
	}
	return r, ctx.Err()
}

// pick goes through the levels and stays with a family until another is worth
// the change.
func pick(searches []*search, k int) *search {
	now := searches[0]
	for level := range k {
		best := now
		for _, h := range searches {
			if best.levels[level].worse(h.levels[level]) {
				best = h
			}
		}
		if !now.levels[level].near(best.levels[level]) {
			now = best
		}
	}
	return now
}

func (p *Candidates) families() [][]int {
	if p.Families != nil {
		return p.Families
	}
	all := make([]int, p.Size)
	for i := range all {
		all[i] = i
	}
	return [][]int{all}
}

// bent is how long a way may be whose two legs measure so much together; both
// may have been rounded.
func (p *Candidates) bent(way int64) int64 {
	if p.Bend == 0 {
		return way
	}
	return (way*p.Bend+999_999)/1_000_000 + 3
}
