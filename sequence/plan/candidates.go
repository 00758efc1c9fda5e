package plan

import (
	"context"
	"encoding/binary"
	"math/rand/v2"
	"slices"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/parallel"
)

// candidate is one way a piece could be woven.
type candidate struct {
	rule brief.Rule
	runs []brief.Run
	body body
}

// candidateStream is where the chance of candidates begins; each has its own,
// so that no candidate changes when there are more of them.
const candidateStream = 1 << 20

// groupStream is that of the rhythms several candidates share.
const groupStream = 1 << 40

// colourings is how many candidates share their proportions where the pieces
// of a set are to.
const colourings = 24

// tries is how often numbers are drawn anew where they do not fit the units.
const tries = 8

// source is what candidates are drawn from.
type source struct {
	base         brief.Rule // what they do not change
	vary         *brief.Vary
	in           groundIn
	units, most  int // in all, and the most one block may have
	piece        int // one of those they are for; -1 for the warp
	stream       uint64
	proportioned bool // so many together share their proportions
}

// sourceOf are the candidates of [vary].
func (m *maker) sourceOf(v *brief.Vary, units int) source {
	open := max(slices.IndexFunc(m.b.Pieces, func(p brief.Piece) bool { return p.Open }), 0)
	return source{base: m.b.Weft.Rule, vary: v, in: groundIn{ground: m.b.Weft.Ground}, units: units,
		piece: open, stream: candidateStream,
		proportioned: v.Kinship == brief.OneProportions}
}

// candidates are the different ones among those that the brief's rules allow.
// They follow from the rules, the colours and the seed alone: how many pieces
// there are, and what they are, has no part in them.
func (m *maker) candidates(ctx context.Context, l source, d *differ) ([]candidate, error) {
	var all []candidate
	known := make(map[string]bool)
	drawn := make([]candidate, min(l.vary.Candidates, atATime))
	for first := 0; first < l.vary.Candidates; first += atATime {
		drawn = drawn[:min(atATime, l.vary.Candidates-first)]
		if err := m.draw(ctx, l, first, drawn); err != nil {
			return nil, err
		}
		for _, c := range drawn {
			if c.runs == nil {
				continue
			}
			c.body = d.body(c.runs, l.in)
			if key := min(c.body.key(), c.body.turned().key()); !known[key] {
				known[key] = true
				all = append(all, c)
			}
		}
	}
	return all, nil
}

// atATime is how many candidates are drawn before they are compared.
const atATime = 4096

// draw draws candidates from the first on; one without runs could not be drawn.
func (m *maker) draw(ctx context.Context, l source, first int, drawn []candidate) error {
	return parallel.Ranges(ctx, len(drawn), 64, func(from, to int) {
		for i := from; i < to; i++ {
			drawn[i] = m.candidate(l, first+i)
		}
	})
}

// candidate draws the i-th rule and follows it; it has no runs where that was in
// vain.
func (m *maker) candidate(l source, i int) candidate {
	chance := sequence.Chance(m.b.Seed, l.stream+uint64(i))
	rhythms, group := chance, i
	if l.proportioned {
		group = i / colourings
		rhythms = sequence.Chance(m.b.Seed, groupStream+uint64(group))
	}
	for range tries {
		rule := m.drawRule(l, group, rhythms, chance)
		if runs, refuse := m.follow(rule, l.units, l.most, l.piece); refuse == nil {
			return candidate{rule: rule, runs: runs}
		}
	}
	return candidate{}
}

// drawRule draws a rule. One that chance has a part in gets a seed of its own,
// so that it gives the same wherever it stands.
func (m *maker) drawRule(l source, group int, rhythms, chance *rand.Rand) brief.Rule {
	rule, v := l.base, l.vary
	rule.Rhythm = sequence.Draw(v.Rhythms[group%len(v.Rhythms)],
		m.patternUnits(rule, l.units, l.piece), rhythms)
	rule.Seed, rule.Shares = nil, nil
	if rule.Rhythm.Spec().Chance {
		rule.Rhythm.Seed = drawSeed(rhythms)
	}
	rule.Colours = drawColours(v.Colours, v.PerPiece[0], v.PerPiece[1], chance)
	if rule.Order = drawOrder(len(rule.Colours), chance); rule.Order == "shuffle" {
		rule.Seed = drawSeed(chance)
	}
	if !rule.Blocks.Apart {
		rule.Blocks.First = chance.IntN(len(m.s.Blocks))
	}
	return rule
}

func drawSeed(chance *rand.Rand) *int64 {
	seed := chance.Int64N(1000)
	return &seed
}

// drawColours draws some of the colours, in the order they are to be taken.
func drawColours(from []int, fewest, most int, chance *rand.Rand) []int {
	n := fewest + chance.IntN(most-fewest+1)
	taken := make([]int, n)
	for i, c := range chance.Perm(len(from))[:n] {
		taken[i] = from[c]
	}
	return taken
}

// drawOrder draws how colours follow each other. Where there are only two,
// they can only take turns.
func drawOrder(colours int, chance *rand.Rand) string {
	if colours > 2 && chance.IntN(3) == 0 {
		return "shuffle"
	}
	return "cycle"
}

// key tells bodies apart.
func (b body) key() string {
	var text []byte
	for i, look := range b.looks {
		text = binary.AppendUvarint(text, uint64(look))
		text = binary.AppendUvarint(text, uint64(b.ends[i]))
	}
	return string(text)
}

// patternColours are the pattern colours of runs, each once, in rising order.
func patternColours(runs []brief.Run) []int {
	var found []int
	for _, r := range runs {
		if r.Block >= 0 && !slices.Contains(found, r.Colour) {
			found = append(found, r.Colour)
		}
	}
	slices.Sort(found)
	return found
}
