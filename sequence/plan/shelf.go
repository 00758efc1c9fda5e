package plan

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// shelf is what the yarn on hand leaves for the patterns of pieces that are yet
// to be chosen, in weft units.
type shelf struct {
	colours []int // that a pattern may have
	room    []int64
	unitM   *big.Rat // metres of pattern weft in one weft unit
}

// shelfFor reckons the whole set with nothing but ground where pieces are to be
// chosen, and takes that from what is on hand. Open are those pieces. It fails
// where that alone is more than there is.
func (m *maker) shelfFor(ctx context.Context, v *brief.Vary, open []int, n int) (*shelf, error) {
	bare := *m
	b := *m.b
	b.Pieces = append([]brief.Piece{}, b.Pieces...)
	for _, i := range open {
		b.Pieces[i].Weft.Runs = []brief.Run{{Block: -1, Units: n, Colour: -1}}
	}
	bare.b, bare.plan, bare.weftRuns, bare.pieceWovenMM, bare.used = &b, &Plan{Warp: m.plan.Warp},
		nil, nil, nil
	if err := bare.pieces(ctx); err != nil {
		return nil, err
	}
	bare.warpLength()
	uses, _ := bare.uses()
	unit := exact.Times(exact.Whole(m.s.PatternPicks()*m.b.Cloth.Strands), m.pickM())
	s := &shelf{colours: v.Colours, unitM: exact.Times(unit, m.withSpare())}
	if err := m.shortAlready(uses); err != nil {
		return nil, err
	}
	m.reserveSample(v, uses)
	for _, c := range v.Colours {
		left := exact.Minus(m.held(c), m.spared(uses[c]))
		s.room = append(s.room, int64(max(0, exact.Floor(exact.Over(left, s.unitM)))))
	}
	return s, nil
}

// withSpare is one and the spare that is kept back.
func (m *maker) withSpare() *big.Rat { return exact.Plus(exact.Whole(1), m.b.Set.Spare.Part) }

// spared is what a use takes from the shelf with its spare; nothing for nil.
func (m *maker) spared(u *use) *big.Rat {
	if u == nil {
		return new(big.Rat)
	}
	return exact.Times(u.needed(), m.withSpare())
}

// reserveSample puts the most that the sample could take of each colour in
// place of what it takes now, since what is yet to be chosen changes it.
func (m *maker) reserveSample(v *brief.Vary, uses []*use) {
	length := m.b.Loom.Sample.MM
	if length.Sign() == 0 {
		return
	}
	picks := exact.Whole(m.s.GroundPicks() * exact.Ceil(exact.Over(length, m.weftUnitMM)))
	hems := exact.Over(length, m.hemPickMM)
	pattern := m.mostSampled(v)
	for i, piece := range m.b.Pieces {
		for _, c := range []int{piece.Weft.Ground, piece.Weft.Hem} {
			if uses[c] == nil {
				uses[c] = newUse()
			}
			uses[c].sample = exact.Times(picks, m.pickM())
			if i == 0 && c == piece.Weft.Hem {
				uses[c].sample = exact.Times(exact.Plus(picks, hems), m.pickM())
			}
		}
	}
	for _, c := range v.Colours {
		if uses[c] == nil {
			uses[c] = newUse()
		}
		uses[c].sample = exact.Plus(uses[c].sample, pattern)
	}
}

// mostSampled is the most metres of one pattern colour that the sample takes:
// the fewer colours there are, the more of each.
func (m *maker) mostSampled(v *brief.Vary) *big.Rat {
	n := exact.Ceil(exact.Over(m.b.Loom.Sample.MM, m.weftUnitMM))
	parts := max(1, v.PerPiece[0]) * len(m.s.Blocks)
	units := (n + parts - 1) / parts * len(m.s.Blocks)
	return exact.Times(exact.Whole(units*m.s.PatternPicks()*m.b.Cloth.Strands), m.pickM())
}

// held is the metres on hand; what is not known counts as none.
func (m *maker) held(c int) *big.Rat { return or(m.b.Colours[c].OnHandM) }

// stillShort refuses a choice after which the sample takes more than is left;
// only then is it known what the sample holds.
func (m *maker) stillShort(uses []*use) error {
	open := func(p brief.Piece) bool { return p.Open }
	if m.varied == nil || m.varied.shelf == nil || !slices.ContainsFunc(m.b.Pieces, open) {
		return nil
	}
	return m.shortAlready(uses)
}

// shortAlready refuses what no choice of patterns could mend.
func (m *maker) shortAlready(uses []*use) error {
	var short []string
	for c, u := range uses {
		if u == nil || m.spared(u).Cmp(m.held(c)) <= 0 {
			continue
		}
		short = append(short, fmt.Sprintf("%q by %s (%s needed, %s)", m.colour(c),
			m.yarnMetres(exact.Minus(m.spared(u), m.held(c))), m.yarnMetres(m.spared(u)),
			m.onHand(c)))
	}
	if len(short) == 0 {
		return nil
	}
	return m.b.Wrong(-1,
		"the yarn on hand is not enough for warp, ground, hems and the pieces that are written "+
			"out: short of "+strings.Join(short, "; "),
		"make fewer or smaller pieces, change a colour, raise on_hand, or take within out "+
			"of [vary]", "vary.within", "vary")
}

func (m *maker) onHand(c int) string {
	if m.b.Colours[c].OnHandM == nil {
		return "the brief gives no on_hand, so it counts as none"
	}
	return m.b.Colours[c].OnHand + " on hand"
}

func (m *maker) yarnMetres(metres *big.Rat) string {
	return measure.FormatYarn(exact.Rounded(metres), m.b.Units)
}

// unknownStock names the colours whose stock the brief does not give.
func (m *maker) unknownStock(colours []int) (names []string) {
	for _, c := range colours {
		if m.b.Colours[c].OnHandM == nil {
			names = append(names, fmt.Sprintf("%q", m.colour(c)))
		}
	}
	return names
}

// needs is the weft units of each colour that runs take.
func (s *shelf) needs(runs []brief.Run) []int64 {
	needs := make([]int64, len(s.colours))
	for _, r := range runs {
		for i, c := range s.colours {
			if r.Block >= 0 && r.Colour == c {
				needs[i] += int64(r.Units)
			}
		}
	}
	return needs
}

// refuse says how far the yarn goes and what would have to give.
func (m *maker) refuse(s *shelf, want, fit int, lack []int64) error {
	var missing []string
	for i, n := range lack {
		if n > 0 {
			c := s.colours[i]
			missing = append(missing,
				fmt.Sprintf("%s of %q (%s)", m.yarnMetres(exact.Times(big.NewRat(n, 1), s.unitM)),
					m.colour(c), m.onHand(c)))
		}
	}
	if unknown := m.unknownStock(s.colours); len(unknown) > 0 {
		missing = append(missing, "whatever there is of "+strings.Join(unknown, ", ")+
			", which has no on_hand in the brief and so counts as none")
	}
	return m.b.Wrong(-1,
		fmt.Sprintf("the yarn on hand was found to be enough for %d of the %d pieces to choose",
			fit, want),
		fmt.Sprintf("what comes nearest lacks %s: raise on_hand by that, name other colours in "+
			"[vary], make fewer pieces, or take within out", strings.Join(missing, " and ")),
		"vary.within", "vary")
}
