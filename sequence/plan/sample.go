package plan

import (
	"math/big"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// sampleHem is the part of a sample that is woven as hem, a fifth (common
// practice, no source).
var sampleHem = big.NewRat(1, 5)

// sampled is the weft of the sample: its runs, with the ground of each, and the
// picks of hem woven before them.
type sampled struct {
	hem, hemPicks int
	runs          []brief.Run
	grounds       []int
}

// sample lays out the sample: a stretch of hem, then every pattern colour of the
// set over every block, each on the ground it is first woven with, all as long as
// one another. What is left over goes to the hem.
func (m *maker) sample() {
	length := m.b.Loom.Sample.MM
	if length.Sign() == 0 {
		return
	}
	s := &sampled{hem: m.b.Pieces[0].Weft.Ground}
	body := new(big.Rat).Set(length)
	if m.b.Set.Hem.MM.Sign() > 0 || m.b.Set.HemShow.MM.Sign() > 0 {
		s.hem = m.b.Pieces[0].Weft.Hem
		body = exact.Times(length, exact.Remains(sampleHem))
	}
	n := exact.Floor(exact.Over(body, m.weftUnitMM))
	m.sampleRuns(s, n)
	rest := exact.Minus(length, exact.Times(exact.Whole(units(s.runs)), m.weftUnitMM))
	s.hemPicks = 2 * exact.Floor(exact.Over(exact.Over(rest, m.hemPickMM), exact.Whole(2)))
	m.sampled = s
	m.plan.Sample = m.sampleOf(s)
}

// sampleRuns shares n weft units among the colours and blocks; where there are
// too few, the last of them get none.
func (m *maker) sampleRuns(s *sampled, n int) {
	type pair struct{ colour, ground int }
	var pairs []pair
	for i, runs := range m.weftRuns {
		for _, c := range patternColours(runs) {
			same := func(p pair) bool { return p.colour == c }
			if !slices.ContainsFunc(pairs, same) {
				pairs = append(pairs, pair{c, m.b.Pieces[i].Weft.Ground})
			}
		}
	}
	parts := len(pairs) * len(m.s.Blocks)
	for i := range min(parts, n) {
		p := pairs[i/len(m.s.Blocks)]
		size := n / parts
		if i < n%parts {
			size++
		}
		s.runs = append(s.runs,
			brief.Run{Block: i % len(m.s.Blocks), Units: size, Colour: p.colour})
		s.grounds = append(s.grounds, p.ground)
	}
}

func (m *maker) sampleOf(s *sampled) *Sample {
	made := &Sample{HemPicks: s.hemPicks, Hem: m.colour(s.hem)}
	for i, r := range s.runs {
		made.Runs = append(made.Runs, m.weftRun(m.weaves[0], r, s.grounds[i]))
	}
	made.WovenMM = exact.Rounded(exact.Plus(exact.Times(exact.Whole(units(s.runs)), m.weftUnitMM),
		exact.Times(exact.Whole(s.hemPicks), m.hemPickMM)))
	return made
}

// sampleMetres adds the sample's weft to what each colour takes besides.
func (m *maker) sampleMetres(of func(int) *use) {
	if m.sampled == nil {
		return
	}
	add := func(colour, picks int) {
		if picks > 0 {
			u := of(colour)
			u.sample = exact.Plus(u.sample, exact.Times(exact.Whole(picks), m.pickM()))
		}
	}
	add(m.sampled.hem, m.sampled.hemPicks)
	for i, r := range m.sampled.runs {
		add(m.sampled.grounds[i], r.Units*m.s.GroundPicks())
		add(r.Colour, r.Units*m.s.PatternPicks()*m.b.Cloth.Strands)
	}
}
