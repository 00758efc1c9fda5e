package plan

import (
	"context"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/choose"
	"stripesong/sequence/exact"
	"stripesong/sequence/parallel"
)

// mostLooks is how many ways to look are tried in threes for how far they bend
// the triangle inequality.
const mostLooks = 200

// bend is how far differences may break the triangle inequality, in millionths,
// rounded up: the worst of any three ways to look. Pieces break it no more than
// these do, stretch by stretch. CIEDE2000 does break it, a little. The differences
// must be settled.
func (d *differ) bend(ctx context.Context) (int64, error) {
	n := len(d.shown)
	if n > mostLooks {
		return 1 << 40, nil // not known: no bound
	}
	worst := make([]int64, n)
	err := parallel.Ranges(ctx, n, 1, func(a, _ int) {
		for b := range n {
			for c := range n {
				if way := d.mean(a, c) + d.mean(c, b); way > 0 {
					worst[a] = max(worst[a], (d.mean(a, b)*1_000_000+way-1)/way)
				}
			}
		}
	})
	return slices.Max(append(worst, 1_000_000)), err
}

// ofChoice tells what was chosen from, and how good any choice could be.
func (m *maker) ofChoice(set *Set) {
	if v := m.b.Vary; v != nil && v.AtLeast != nil {
		set.AtLeast = exact.Rounded(v.AtLeast)
	}
	v := m.varied
	if v == nil || v.family < 0 {
		return
	}
	set.Candidates, set.Kinship, set.Shared = len(v.candidates), v.families.what,
		v.families.names[v.family]
	if len(set.Pairs) > 0 && v.result.Bound < choose.Apart {
		set.Bound = inDeltaE(min(v.result.Bound, m.writtenLeast()))
	}
}

// writtenLeast is the least difference among the written pieces, which no
// choice can mend.
func (m *maker) writtenLeast() int64 {
	v, least := m.varied, int64(choose.Apart)
	for i, a := range v.written {
		one := v.differ.body(m.weftRuns[a], m.groundIn(a))
		for _, b := range v.written[:i] {
			least = min(least, v.differ.difference(one,
				v.differ.body(m.weftRuns[b], m.groundIn(b))))
		}
	}
	return least
}

// alikeNote warns where pieces are more alike than the brief allows, names
// them, and says what would have to give.
func (m *maker) alikeNote() {
	set := m.plan.Set
	v := m.b.Vary
	if v == nil || v.AtLeast == nil || len(set.Pairs) == 0 || set.LeastDifference >= set.AtLeast {
		return
	}
	var pairs []string
	for _, p := range set.Pairs {
		if p.Difference < set.AtLeast && p.NumberB > m.woven() {
			pairs = append(pairs, fmt.Sprintf("%s and %s (%.1f)",
				m.plan.Called(p.NumberA-1), m.plan.Called(p.NumberB-1), p.Difference))
		}
	}
	if pairs == nil { // those that are woven can't be changed
		return
	}
	m.note(Warning, "set-alike", "%s differ by less than the %s asked for (mean dE00); %s",
		some(pairs), sequence.Decimal(v.AtLeast, 3), m.whatGives(v.AtLeast))
}

// whatGives tells what keeps pieces from differing more.
func (m *maker) whatGives(atLeast *big.Rat) string {
	v, set := m.varied, m.plan.Set
	const mend = "colours further apart in light and dark, a thicker pattern weft or more " +
		"rhythms would help"
	switch {
	case v == nil || v.family < 0:
		return "all of them are written out: change one, or leave it to the program"
	case m.writtenLeast() < deltaMicro(atLeast):
		return "pieces that are written out are among them: change one, or leave it to the program"
	}
	reach := fmt.Sprintf("no set of these %d candidates can differ by more than %.1f",
		set.Candidates, set.Bound)
	if set.Bound == 0 || set.Bound >= set.AtLeast {
		reach = fmt.Sprintf("the best found among %d candidates is %.1f", set.Candidates,
			set.LeastDifference)
	}
	fewer := 0
	for i, least := range v.result.Leasts {
		if i+1 <= v.result.Fit && least >= deltaMicro(atLeast) {
			fewer = i + 1
		}
	}
	if fewer+len(v.written) > 1 && fewer > 0 && fewer < len(v.result.Members) {
		reach += fmt.Sprintf("; with %d chosen instead of %d they would differ as much", fewer,
			len(v.result.Members))
	}
	return reach + "; " + mend
}

func deltaMicro(deltaE *big.Rat) int64 {
	micro := exact.Times(deltaE, big.NewRat(1_000_000, 1))
	return new(big.Int).Div(micro.Num(), micro.Denom()).Int64()
}

// familyNote names the written pieces that are not of the family of the chosen ones.
func (m *maker) familyNote() {
	v := m.varied
	if v == nil || v.family < 0 || v.families.what == brief.NoKinship {
		return
	}
	if names := v.families.outside(m, v.written, v.family); len(names) > 0 {
		m.note(Remark, "kinship", "the chosen pieces share %s, which %s do not",
			sharedInWords(v.families.what, v.families.names[v.family]), strings.Join(names, ", "))
	}
}

func sharedInWords(what brief.Kinship, name string) string {
	switch what {
	case brief.OneColour:
		return fmt.Sprintf("the colour %q", name)
	case brief.OneRhythm:
		return fmt.Sprintf("rhythms of kind %q", name)
	}
	return "the stripe widths " + strings.Trim(name, "[]")
}
