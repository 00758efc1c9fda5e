package plan

import (
	"math/big"

	"stripesong/sequence/exact"
	"stripesong/sequence/yarn"
)

// use is what one colour takes, exact, in metres.
type use struct{ warp, ground, pattern, hem, separator, sample, hemstitch *big.Rat }

func newUse() *use {
	zero := func() *big.Rat { return new(big.Rat) }
	return &use{zero(), zero(), zero(), zero(), zero(), zero(), zero()}
}

func (u *use) total() *big.Rat { return exact.Plus(exact.Plus(u.warp, u.ground), u.pattern) }

// needed is what the shelf must hold: the total and the sample.
func (u *use) needed() *big.Rat { return exact.Plus(u.total(), u.sample) }

// yarn adds up every colour's metres by role and holds them against the shelf.
func (m *maker) yarn() error {
	uses, byPiece := m.uses()
	if err := m.stillShort(uses); err != nil {
		return err
	}
	m.needs = make(map[int]*big.Rat)
	for _, c := range m.used {
		m.needs[c] = uses[c].needed()
		y := m.yarnLine(c, uses[c])
		for i := range byPiece {
			y.ByPiece = append(y.ByPiece, exact.Rounded(or(byPiece[i][c])))
		}
		m.plan.Yarn = append(m.plan.Yarn, y)
	}
	return nil
}

// uses is what every colour takes, nil for one that is not used, and what each
// piece takes by colour.
func (m *maker) uses() ([]*use, []map[int]*big.Rat) {
	uses := make([]*use, len(m.b.Colours))
	of := func(c int) *use {
		if uses[c] == nil {
			uses[c] = newUse()
			m.used = append(m.used, c)
		}
		return uses[c]
	}
	m.warpMetres(of)
	byPiece := make([]map[int]*big.Rat, len(m.b.Pieces))
	for i := range m.b.Pieces {
		byPiece[i] = m.pieceMetres(i, of)
	}
	m.sampleMetres(of)
	m.hemstitchMetres(of)
	return uses, byPiece
}

func or(r *big.Rat) *big.Rat {
	if r == nil {
		return new(big.Rat)
	}
	return r
}

func (m *maker) warpMetres(of func(int) *use) {
	wound := exact.Over(m.woundMM, exact.Whole(1000))
	if m.b.Midway != nil { // it is wound
		wound = new(big.Rat)
	}
	add := func(c, ends int) {
		u := of(c)
		u.warp = exact.Plus(u.warp, exact.Times(exact.Whole(ends), wound))
	}
	for i, r := range m.warpRuns {
		add(r.Colour, m.plan.Warp.Runs[i].Ends)
	}
	if m.b.Cloth.FloatingSelvedge {
		add(m.warpRuns[0].Colour, 1)
		add(m.warpRuns[len(m.warpRuns)-1].Colour, 1)
	}
}

// pieceMetres adds one piece, its hems and the separator after it, and gives
// what they take by colour: nothing where they are woven already.
func (m *maker) pieceMetres(i int, of func(int) *use) map[int]*big.Rat {
	pick, weft, p := m.pickM(), m.b.Pieces[i].Weft, m.plan.Pieces[i]
	if i < m.woven() {
		pick = new(big.Rat)
	}
	mine := make(map[int]*big.Rat)
	count := func(c int, to **big.Rat, metres *big.Rat) {
		*to = exact.Plus(*to, metres)
		mine[c] = exact.Plus(or(mine[c]), metres)
	}
	if p.EndPicks() > 0 {
		u, hems := of(weft.Hem), exact.Times(exact.Whole(2*p.EndPicks()), pick)
		u.hem = exact.Plus(u.hem, hems)
		count(weft.Hem, &u.ground, hems)
	}
	ground, pattern := 0, make([]int, len(m.b.Colours))
	for j, r := range m.weftRuns[i] {
		of(weft.Ground)
		ground += p.Runs[j].GroundPicks
		if r.Block >= 0 {
			of(r.Colour)
			pattern[r.Colour] += p.Runs[j].PatternPicks * m.b.Cloth.Strands
		}
	}
	if len(m.weftRuns[i]) > 0 {
		count(weft.Ground, &of(weft.Ground).ground, exact.Times(exact.Whole(ground), pick))
	}
	for c, threads := range pattern {
		if threads > 0 {
			count(c, &of(c).pattern, exact.Times(exact.Whole(threads), pick))
		}
	}
	if p.SeparatorPick > 0 {
		u, metres := of(weft.Separator), new(big.Rat)
		if i >= m.separatorsFrom() {
			metres = exact.Times(exact.Whole(p.SeparatorPick), m.pickM())
		}
		u.separator = exact.Plus(u.separator, metres)
		count(weft.Separator, &u.ground, metres)
	}
	return mine
}

func (m *maker) yarnLine(c int, u *use) Yarn {
	colour := m.b.Colours[c]
	y := m.b.Yarns[colour.Yarn]
	total := u.total()
	line := Yarn{Colour: colour.Name, Yarn: y.Name, WarpM: exact.Rounded(u.warp),
		GroundM: exact.Rounded(u.ground), PatternM: exact.Rounded(u.pattern),
		SampleM: exact.Rounded(u.sample), TotalM: exact.Rounded(total),
		TotalG: exact.Rounded(yarn.Grams(total, y.Tex)), Tex: exact.Rounded(y.Tex),
		HemM: exact.Rounded(u.hem), SepM: exact.Rounded(u.separator),
		HemstitchM: exact.Rounded(u.hemstitch)}
	held := new(big.Rat)
	if colour.OnHandM != nil {
		held = colour.OnHandM
		line.OnHandM, line.OnHand = pointer(exact.Rounded(held)), colour.OnHand
		line.SafeM, line.Safe = safe(held, u.needed())
	}
	if y.PackageM != nil {
		line.PackageM = pointer(exact.Rounded(y.PackageM))
	}
	short := exact.Minus(exact.Times(u.needed(), exact.More(m.b.Set.Spare.Part)), held)
	if short.Sign() <= 0 {
		line.Packages = pointer(0)
		return line
	}
	line.ShortM, line.ShortG = exact.Rounded(short), exact.Rounded(yarn.Grams(short, y.Tex))
	if y.PackageM != nil {
		line.Packages = pointer(yarn.Packages(short, y.PackageM))
	}
	return line
}

// safe is what is left of what is held, and that as a share of what is needed.
func safe(held, needed *big.Rat) (leftM, share *float64) {
	left := new(big.Rat).Sub(held, needed)
	if needed.Sign() > 0 {
		share = pointer(exact.Rounded(exact.Over(left, needed)))
	}
	return pointer(exact.Rounded(left)), share
}

func pointer[T any](v T) *T { return &v }
