package plan

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/choose"
	"stripesong/sequence/parallel"
)

// varied is what came of [vary]: the candidates, and the set chosen from them.
type varied struct {
	candidates []candidate
	families   *families
	shelf      *shelf // nil where yarn is no limit
	differ     *differ
	distances  *distances
	chosen     map[int]int // candidate of each piece that is one
	written    []int       // pieces that are to be as they are
	result     choose.Result
	family     int // of families; -1 where nothing was chosen
}

// vary chooses the open pieces. A written piece that is one of the candidates,
// kept from an earlier plan or from a sheet of trials, is looked on as chosen
// already: as long as the best set holds it, the others are the same with it
// written out as without.
func (m *maker) vary(ctx context.Context) error {
	v := m.b.Vary
	if v == nil || m.settled() {
		return nil
	}
	n, err := m.variedUnits()
	if err != nil {
		return err
	}
	d := newDiffer(m.look, m.warpRuns)
	all, err := m.candidates(ctx, m.sourceOf(v, n), d)
	if err != nil {
		return err
	}
	families, err := m.familiesOf(ctx, v, all)
	if err != nil {
		return err
	}
	distances, err := d.distances(ctx, all)
	if err != nil {
		return err
	}
	m.varied = &varied{candidates: all, families: families, differ: d, distances: distances,
		chosen: make(map[int]int), family: -1}
	open := m.recognise()
	locked := len(m.varied.chosen)
	if len(open)+locked == 0 {
		return nil
	}
	if v.OnHand {
		if err := m.limit(ctx, v, open, n); err != nil {
			return err
		}
	}
	return m.chooseSet(ctx, open)
}

// settled tells whether the brief says that the program chose pieces that are written
// out, and leaves none open: then there is nothing to look for.
func (m *maker) settled() bool {
	open := func(p brief.Piece) bool { return p.Open }
	chosen := func(p brief.Piece) bool { return p.Chosen }
	return !slices.ContainsFunc(m.b.Pieces, open) && slices.ContainsFunc(m.b.Pieces, chosen)
}

// variedUnits is the weft units of a chosen piece.
func (m *maker) variedUnits() (int, error) {
	if m.b.Set.Length == nil && m.b.Set.Woven == nil {
		return units(m.b.Weft.Runs), nil
	}
	return m.checked(len(m.b.Pieces)-1, m.bodyUnits(-1))
}

// recognise finds the candidates among written pieces, and which pieces are
// open.
func (m *maker) recognise() (open []int) {
	v := m.varied
	number := make(map[string]int)
	for i, c := range v.candidates {
		number[c.body.key()] = i
	}
	for i, p := range m.b.Pieces {
		if p.Open {
			open = append(open, i)
			continue
		}
		runs := m.runsOf(i)
		if runs == nil {
			continue // its rule does not fit, which is reported in its turn
		}
		key := v.differ.body(runs, m.groundIn(i)).key()
		if c, ok := number[key]; ok && !m.taken(c) {
			v.chosen[i] = c
		} else {
			v.written = append(v.written, i)
		}
	}
	return open
}

func (m *maker) taken(candidate int) bool {
	for _, c := range m.varied.chosen {
		if c == candidate {
			return true
		}
	}
	return false
}

// runsOf is the runs of a written piece; nil where its rule does not fit.
func (m *maker) runsOf(i int) []brief.Run {
	runs, _ := m.decidePiece(i, m.b.Pieces[i])
	return runs
}

func (m *maker) limit(ctx context.Context, v *brief.Vary, open []int, n int) (err error) {
	free := slices.Clone(open)
	for i := range m.varied.chosen {
		free = append(free, i)
	}
	slices.Sort(free)
	m.varied.shelf, err = m.shelfFor(ctx, v, free, n)
	if err != nil && len(open) == 0 {
		return nil // nothing is proposed
	}
	return err
}

// chooseSet finds the set that the locked pieces are part of. A locked piece
// that the best set does not hold, the first such, is taken as written and the
// search begun again.
func (m *maker) chooseSet(ctx context.Context, open []int) error {
	v := m.varied
	locked := m.lockedPieces()
	for {
		want := len(open) + len(locked)
		if want == 0 {
			return nil
		}
		result, families, err := m.search(ctx, want)
		switch {
		case errors.Is(err, choose.ErrFew) && len(open) > 0:
			return m.tooFew(want)
		case errors.Is(err, choose.ErrFew):
			return nil
		case err != nil:
			return err
		}
		missing := slices.IndexFunc(locked, func(i int) bool {
			return !slices.Contains(result.Members, v.chosen[i])
		})
		if missing >= 0 {
			v.written = append(v.written, locked[missing])
			slices.Sort(v.written)
			locked = slices.Delete(locked, missing, missing+1)
			continue
		}
		if result.Lack != nil {
			if len(open) == 0 {
				return nil // nothing is proposed
			}
			return m.refuse(v.shelf, want, result.Fit, result.Lack)
		}
		v.result, v.family = result, families[result.Family]
		m.fill(open, locked)
		return nil
	}
}

// lockedPieces are the written pieces that are candidates, in their order.
func (m *maker) lockedPieces() []int {
	var locked []int
	for i := range m.b.Pieces {
		if _, ok := m.varied.chosen[i]; ok {
			locked = append(locked, i)
		}
	}
	return locked
}

// fill puts what was chosen into the open pieces.
func (m *maker) fill(open, locked []int) {
	v := m.varied
	var rest []int
	for _, c := range v.result.Members {
		if !slices.ContainsFunc(locked, func(i int) bool { return v.chosen[i] == c }) {
			rest = append(rest, c)
		}
	}
	b := *m.b
	b.Pieces = slices.Clone(b.Pieces)
	for j, i := range open {
		v.chosen[i] = rest[j]
		b.Pieces[i].Weft.Runs = v.candidates[rest[j]].runs
	}
	m.b = &b
}

// search asks for the best set of so many candidates beside what is written.
// It also gives the families it chose among, in the order in which the result counts them.
func (m *maker) search(ctx context.Context, want int) (choose.Result, []int, error) {
	v := m.varied
	allowed := v.families.allowed(m, v.written)
	p, err := v.choosing(ctx, m, v.written)
	if err != nil {
		return choose.Result{}, nil, err
	}
	all := make([][]int, len(allowed))
	for i, f := range allowed {
		all[i] = v.families.members[f]
		p.Families = append(p.Families, fitting(p, all[i]))
	}
	result, err := p.Best(ctx, want)
	if errors.Is(err, choose.ErrFew) && v.shelf != nil {
		p.Families = all // to say what is lacking
		result, err = p.Best(ctx, want)
	}
	return result, allowed, err
}

// choosing is the candidates to choose from beside some pieces.
func (v *varied) choosing(ctx context.Context, m *maker, beside []int) (*choose.Candidates, error) {
	fixed, turned := make([]body, len(beside)), make([]body, len(beside))
	for j, i := range beside {
		fixed[j] = v.differ.body(m.runsOf(i), m.groundIn(i))
		turned[j] = fixed[j].turned()
	}
	if err := v.differ.settle(ctx); err != nil {
		return nil, err
	}
	bend, err := v.differ.bend(ctx)
	if err != nil {
		return nil, err
	}
	p := &choose.Candidates{Size: len(v.candidates), Fixed: len(fixed), Bend: bend,
		Between: func(a, b int) int64 {
			if f := b - len(v.candidates); f >= 0 {
				return min(v.differ.straight(v.candidates[a].body, fixed[f]),
					v.differ.straight(v.candidates[a].body, turned[f]))
			}
			return v.distances.difference(a, b)
		}}
	if v.shelf == nil {
		return p, nil
	}
	if p.Needs, err = v.needs(ctx); err != nil {
		return nil, err
	}
	p.Room = slices.Clone(v.shelf.room)
	for _, i := range beside {
		if c, ok := v.chosen[i]; ok { // the shelf was reckoned without it
			for y, n := range p.Needs[c] {
				p.Room[y] -= n
			}
		}
	}
	return p, nil
}

// needs is what each candidate takes of the shelf.
func (v *varied) needs(ctx context.Context) ([][]int64, error) {
	needs := make([][]int64, len(v.candidates))
	return needs, parallel.Ranges(ctx, len(v.candidates), 512, func(from, to int) {
		for i := from; i < to; i++ {
			needs[i] = v.shelf.needs(v.candidates[i].runs)
		}
	})
}

// fitting leaves out the candidates that there is no room for even alone.
func fitting(p *choose.Candidates, family []int) []int {
	if p.Needs == nil {
		return family
	}
	var left []int
	for _, c := range family {
		if within(p.Needs[c], p.Room) {
			left = append(left, c)
		}
	}
	return left
}

func within(needs, room []int64) bool {
	for i, n := range needs {
		if n > room[i] {
			return false
		}
	}
	return true
}

// tooFew refuses where there are not as many different candidates as pieces.
func (m *maker) tooFew(want int) error {
	most := 0
	for _, f := range m.varied.families.members {
		most = max(most, len(f))
	}
	return m.b.Wrong(-1,
		fmt.Sprintf("%d pieces are to be chosen, and there are no more than %d different ones in "+
			"one family", want, most),
		"allow more colours, rhythms or candidates, or write kinship = \"none\"", "vary.kinship",
		"vary.candidates", "vary")
}
