package contrast

import (
	"slices"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
)

// swap puts one colour in place of another in one of its roles: as pattern or
// ground in some pieces, or throughout the warp.
type swap struct {
	role     string
	from, to int
	pieces   []int
}

// of is what becomes of a trio in a piece.
func (s swap) of(t look.Trio, piece int) look.Trio {
	here := slices.Contains(s.pieces, piece)
	switch {
	case s.role == AsWarp && t.Warp == s.from:
		t.Warp = s.to
	case s.role == AsGround && here && t.Ground == s.from:
		t.Ground = s.to
	case s.role == AsPattern && here && t.Pattern == s.from:
		t.Pattern = s.to
	}
	return t
}

// apply is the brief with the swap made.
func (s swap) apply(b *brief.Brief) *brief.Brief {
	made := *b
	if s.role == AsWarp {
		made.Warp.Rule = s.rule(b.Warp.Rule)
		made.Warp.Runs = s.recolour(b.Warp.Runs)
		return &made
	}
	made.Pieces = slices.Clone(b.Pieces)
	for _, i := range s.pieces {
		s.weft(&made.Pieces[i].Weft)
	}
	return &made
}

// weft swaps in one piece; a hem of the ground's colour goes with it.
func (s swap) weft(w *brief.Weft) {
	if s.role == AsPattern {
		w.Rule, w.Runs = s.rule(w.Rule), s.recolour(w.Runs)
		return
	}
	if w.Hem == w.Ground {
		w.Hem = s.to
	}
	w.Ground = s.to
}

// rule is a rule with the swap made in its colours and in its middle.
func (s swap) rule(r brief.Rule) brief.Rule {
	r.Colours = s.exchange(r.Colours)
	if of := r.Middle; of != nil && of.Even == 0 && of.Run.Colour == s.from {
		changed := *of
		changed.Run.Colour = s.to
		r.Middle = &changed
	}
	return r
}

func (s swap) exchange(colours []int) []int {
	made := slices.Clone(colours)
	for i, c := range made {
		if c == s.from {
			made[i] = s.to
		}
	}
	return made
}

func (s swap) recolour(runs []brief.Run) []brief.Run {
	made := slices.Clone(runs)
	for i := range made {
		if made[i].Colour == s.from {
			made[i].Colour = s.to
		}
	}
	return made
}

// swaps lists what could stand in for a trio's colour in a role, the least
// change first: any colour not yet there in that role, and for warp and ground
// of the same yarn, since sett and beat go by it.
func (r *reckoner) swaps(role string, t look.Trio, pieces []int, shelf bool) []swap {
	from := map[string]int{AsPattern: t.Pattern, AsGround: t.Ground, AsWarp: t.Warp}[role]
	taken := r.taken(role, t, pieces)
	var all []swap
	for to, c := range r.b.Colours {
		if c.Shelf != shelf || to == from || slices.Contains(taken, to) {
			continue
		}
		if role == AsPattern || c.Yarn == r.b.Colours[from].Yarn {
			all = append(all, swap{role: role, from: from, to: to, pieces: pieces})
		}
	}
	sortBy(all, func(s swap) int64 { return r.apart(s.from, s.to) })
	return all
}

// apart is the difference of two colours by themselves, in millionths.
func (r *reckoner) apart(a, b int) int64 {
	return palette.MicroE(r.look.Light(a).Lab(), r.look.Light(b).Lab())
}

// taken lists colours that would lose the stripes they would be beside.
func (r *reckoner) taken(role string, t look.Trio, pieces []int) []int {
	if role == AsWarp {
		return r.warp
	}
	taken := []int{t.Ground}
	for _, m := range r.state.meetings {
		if slices.Contains(pieces, m.piece) {
			taken = appendOnce(taken, m.trio.Pattern)
		}
	}
	return taken
}
