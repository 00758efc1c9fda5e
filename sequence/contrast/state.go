package contrast

import (
	"cmp"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
)

// meeting is a trio in a piece, with the narrowest edge it has there.
type meeting struct {
	piece   int
	trio    look.Trio
	widthMM float64
	grade   *palette.Grade // the plan's own, where it answers the same question
	decided bool
	found   verdict // once decided
}

// state is how all that meets in a plan shows.
type state struct {
	meetings []meeting // in the order of the plan
	trios    []look.Trio
	worst    map[look.Trio]verdict
	widthMM  map[look.Trio]float64 // the narrowest of all pieces
	cloth    *look.Mixer
}

func (r *reckoner) stateOf(p *plan.Plan) state {
	var all []meeting
	for i, piece := range p.Pieces {
		if p.IsWoven(i) {
			continue // nothing can be changed there
		}
		for _, c := range piece.Contrast {
			m := meeting{piece: i,
				trio: look.Trio{Warp: r.number[c.Warp], Ground: r.number[c.Ground],
					Pattern: r.number[c.Pattern]}, widthMM: c.NarrowestMM}
			if r.q.usual() {
				m.grade = &c.At(look.DecisiveM).Grade
			}
			all = append(all, m)
		}
	}
	return r.judged(all, r.look)
}

func (r *reckoner) judge(m *meeting, cloth *look.Mixer) {
	if m.decided {
		return
	}
	patch := cloth.Patch(m.trio)
	m.found, m.decided = r.decide(patch.On, patch.Off, m.widthMM), true
	if m.grade != nil {
		m.found.Grade = *m.grade
	}
}

// judged decides about all that meets.
func (r *reckoner) judged(meetings []meeting, cloth *look.Mixer) state {
	s := state{meetings: meetings, worst: make(map[look.Trio]verdict),
		widthMM: make(map[look.Trio]float64), cloth: cloth}
	for i := range s.meetings {
		m := &s.meetings[i]
		r.judge(m, cloth)
		worst, known := s.worst[m.trio]
		if !known {
			s.trios = append(s.trios, m.trio)
		}
		if !known || m.found.Worse(worst.Difference) {
			s.worst[m.trio] = m.found
		}
		if width, ok := s.widthMM[m.trio]; !ok || m.widthMM < width {
			s.widthMM[m.trio] = m.widthMM
		}
	}
	return s
}

// short counts the trios that fall short anywhere.
func (s state) short() (n int) {
	for _, t := range s.trios {
		if s.worst[t].short() {
			n++
		}
	}
	return n
}

// falling lists the trios that fall short, the worst first.
func (s state) falling() (trios []look.Trio) {
	for _, t := range s.trios {
		if s.worst[t].short() {
			trios = append(trios, t)
		}
	}
	slices.SortStableFunc(trios, func(a, b look.Trio) int {
		x, y := s.worst[a], s.worst[b]
		return cmp.Or(cmp.Compare(x.Grade, y.Grade), cmp.Compare(x.MicroL(), y.MicroL()))
	})
	return trios
}

// shortIn lists the pieces in which a trio falls short.
func (s state) shortIn(t look.Trio) (pieces []int) {
	for _, m := range s.meetings {
		if m.trio == t && m.found.short() {
			pieces = append(pieces, m.piece)
		}
	}
	return pieces
}

// in is the worst of a trio in some pieces; false where it is missing in one.
func (s state) in(t look.Trio, pieces []int) (worst verdict, all bool) {
	n := 0
	for _, m := range s.meetings {
		if m.trio != t || !slices.Contains(pieces, m.piece) {
			continue
		}
		if n == 0 || m.found.Worse(worst.Difference) {
			worst = m.found
		}
		n++
	}
	return worst, n == len(pieces)
}

// sortBy sorts by a rising key, equals staying as they are.
func sortBy[T any](list []T, key func(T) int64) {
	slices.SortStableFunc(list, func(a, b T) int { return cmp.Compare(key(a), key(b)) })
}
