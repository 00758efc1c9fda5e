package plan

import (
	"cmp"
	"slices"

	"stripesong/sequence/brief"
)

// Steering narrows down what is tried. The zero value lets all be tried, in the colours
// of the piece or the warp, all of them.
type Steering struct {
	Kinds        []string // of rhythm; none for all
	Fewest, Most int      // blocks of the piece, or stripes of the warp; 0 for no bound
	// only so many per cent of what could be tried: the boldest, the calmest; 0 for all
	Bold, Calm   int
	LetColoursGo bool // others of the same yarn may take the place of its own, and fewer
}

// steered leaves out the candidates that are not wanted, and those without all of the
// colours that are kept. What is bold differs most, on
// average, from stripe to stripe; what is calm changes least from edge to edge in all.
func (s Steering) steered(tried []candidate, kept []int, d *differ) []candidate {
	tried = slices.DeleteFunc(tried, func(c candidate) bool {
		n := len(c.runs)
		return n < s.Fewest || s.Most > 0 && n > s.Most || !hasAll(c.runs, kept)
	})
	bold, calm := tried, tried
	if s.Bold > 0 {
		bold = foremost(tried, s.Bold, func(c candidate) int64 { return -c.body.meanStep(d) })
	}
	if s.Calm > 0 {
		calm = foremost(tried, s.Calm, func(c candidate) int64 { return c.body.steps(d) })
	}
	in := make(map[string]bool)
	for _, c := range calm {
		in[c.body.key()] = true
	}
	return slices.DeleteFunc(slices.Clone(bold), func(c candidate) bool {
		return !in[c.body.key()]
	})
}

// hasAll tells whether runs have all of some colours.
func hasAll(runs []brief.Run, colours []int) bool {
	used := patternColours(runs)
	return !slices.ContainsFunc(colours, func(c int) bool { return !slices.Contains(used, c) })
}

// foremost is so many per cent of candidates, one at least, those with the least measure;
// they keep their order.
func foremost(tried []candidate, percent int, of func(candidate) int64) []candidate {
	type measured struct {
		at int
		by int64
	}
	all := make([]measured, len(tried))
	for i, c := range tried {
		all[i] = measured{i, of(c)}
	}
	slices.SortStableFunc(all, func(a, b measured) int { return cmp.Compare(a.by, b.by) })
	all = all[:(len(all)*percent+99)/100]
	slices.SortFunc(all, func(a, b measured) int { return cmp.Compare(a.at, b.at) })
	left := make([]candidate, len(all))
	for i, m := range all {
		left[i] = tried[m.at]
	}
	return left
}

// steps is the differences from run to run, added up, in millionths of dE00.
func (b body) steps(d *differ) (sum int64) {
	for i := 1; i < len(b.looks); i++ {
		sum += d.mean(b.looks[i-1], b.looks[i])
	}
	return sum
}

// meanStep is the difference from run to run on average; 0 for a single run.
func (b body) meanStep(d *differ) int64 {
	if len(b.looks) < 2 {
		return 0
	}
	return b.steps(d) / int64(len(b.looks)-1)
}
