package plan

import (
	"math/big"

	"stripesong/sequence/yarn"
)

// use is what one colour takes, exact, in metres.
type use struct{ warp, ground, pattern, hem, separator, sample *big.Rat }

func newUse() *use {
	zero := func() *big.Rat { return new(big.Rat) }
	return &use{zero(), zero(), zero(), zero(), zero(), zero()}
}

func (u *use) total() *big.Rat { return plus(plus(u.warp, u.ground), u.pattern) }

// needed is what the shelf must hold: the total and the sample.
func (u *use) needed() *big.Rat { return plus(u.total(), u.sample) }

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
			y.ByPiece = append(y.ByPiece, rounded(or(byPiece[i][c])))
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
	return uses, byPiece
}

func or(r *big.Rat) *big.Rat {
	if r == nil {
		return new(big.Rat)
	}
	return r
}

func (m *maker) warpMetres(of func(int) *use) {
	wound := over(m.woundMM, whole(1000))
	add := func(c, ends int) { u := of(c); u.warp = plus(u.warp, times(whole(ends), wound)) }
	for _, r := range m.warpRuns {
		add(r.Colour, r.Units*m.s.UnitEnds())
	}
	if m.b.Cloth.FloatingSelvedge {
		add(m.warpRuns[0].Colour, 1)
		add(m.warpRuns[len(m.warpRuns)-1].Colour, 1)
	}
}

// pieceMetres adds one piece, its hems and the separator after it, and gives
// what they take by colour.
func (m *maker) pieceMetres(i int, of func(int) *use) map[int]*big.Rat {
	pick, weft, p := m.pickM(), m.b.Pieces[i].Weft, m.plan.Pieces[i]
	mine := make(map[int]*big.Rat)
	count := func(c int, to **big.Rat, metres *big.Rat) {
		*to = plus(*to, metres)
		mine[c] = plus(or(mine[c]), metres)
	}
	if p.EndPicks() > 0 {
		u, hems := of(weft.Hem), times(whole(2*p.EndPicks()), pick)
		u.hem = plus(u.hem, hems)
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
		count(weft.Ground, &of(weft.Ground).ground, times(whole(ground), pick))
	}
	for c, threads := range pattern {
		if threads > 0 {
			count(c, &of(c).pattern, times(whole(threads), pick))
		}
	}
	if p.SeparatorPick > 0 {
		u, metres := of(weft.Separator), times(whole(p.SeparatorPick), pick)
		u.separator = plus(u.separator, metres)
		count(weft.Separator, &u.ground, metres)
	}
	return mine
}

func (m *maker) yarnLine(c int, u *use) Yarn {
	colour := m.b.Colours[c]
	y := m.b.Yarns[colour.Yarn]
	total := u.total()
	line := Yarn{Colour: colour.Name, Yarn: y.Name, WarpM: rounded(u.warp), GroundM: rounded(u.ground), PatternM: rounded(u.pattern),
		SampleM: rounded(u.sample), TotalM: rounded(total), TotalG: rounded(yarn.Grams(total, y.Tex)), Tex: rounded(y.Tex), HemM: rounded(u.hem), SepM: rounded(u.separator)}
	held := new(big.Rat)
	if colour.OnHandM != nil {
		held = colour.OnHandM
		line.OnHandM = pointer(rounded(held))
	}
	if y.PackageM != nil {
		line.PackageM = pointer(rounded(y.PackageM))
	}
	short := new(big.Rat).Sub(times(u.needed(), plus(big.NewRat(1, 1), m.b.Set.Spare.Part)), held)
	if short.Sign() <= 0 {
		line.Packages = pointer(0)
		return line
	}
	line.ShortM, line.ShortG = rounded(short), rounded(yarn.Grams(short, y.Tex))
	if y.PackageM != nil {
		line.Packages = pointer(yarn.Packages(short, y.PackageM))
	}
	return line
}

func pointer[T any](v T) *T { return &v }
