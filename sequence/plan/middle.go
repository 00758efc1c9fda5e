package plan

import (
	"fmt"
	"math/big"
	"slices"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// framed follows a rule that has a middle: its rhythm through the units before that, the
// middle, and the same runs as a mirror image.
func (m *maker) framed(
	rule brief.Rule, n, most, piece int,
) (runs []brief.Run, refuse func() error) {
	middle := m.middleUnits(rule.Middle, n, piece)
	if n-middle < 2 {
		return nil, func() error {
			return m.b.Wrong(piece, "leaves no room for the rhythm on both sides of it",
				"write less for it, or a larger cloth", "middle")
		}
	}
	ends := rule
	ends.Middle = nil
	runs, refuse = m.follow(ends, (n-middle)/2, most, piece)
	if refuse != nil {
		return nil, refuse
	}
	beside := runs[len(runs)-1].Block
	within, refuse := m.middleRuns(rule, middle, most, piece, (beside+1)%len(m.s.Blocks))
	if refuse != nil {
		return nil, refuse
	}
	turned := slices.Clone(runs)
	slices.Reverse(turned)
	return joinRuns(runs, within, turned), nil
}

// middleUnits is the whole units nearest to what a middle is to take, of those that
// leave as many on either side; of two as near, the fewer.
func (m *maker) middleUnits(middle *brief.Middle, n, piece int) int {
	wanted := new(big.Rat)
	if middle.Share != nil {
		wanted = exact.Times(middle.Share, exact.Whole(n))
	} else {
		wanted = exact.Over(middle.Length.MM, m.unitFinishedMM(piece))
	}
	if wanted.Cmp(exact.Whole(n)) >= 0 {
		return n
	}
	first := n % 2 // units of the same parity are this one, and so on by twos
	steps := -exact.HalfUp(exact.Over(exact.Minus(exact.Whole(first), wanted), exact.Whole(2)))
	return max(first+2*steps, 2-first)
}

// unitFinishedMM is the finished width of a threading unit, where piece is -1, or the
// finished length of a weft unit.
func (m *maker) unitFinishedMM(piece int) *big.Rat {
	if piece < 0 {
		reed := exact.Over(exact.Whole(m.s.UnitEnds()), m.b.Cloth.Sett.PerMM)
		return exact.Times(reed, m.widthLeft())
	}
	return exact.Times(m.in(piece).unitMM, exact.Remains(m.b.Cloth.ShrinkLength.Part))
}

// middleRuns is what a middle is, in n units; even stripes begin with block first.
func (m *maker) middleRuns(rule brief.Rule, n, most, piece, first int) ([]brief.Run, func() error) {
	of := rule.Middle
	if of.Even > 0 {
		even := rule
		even.Middle, even.Order, even.Shares = nil, "cycle", nil
		even.Blocks = brief.Blocks{First: first}
		half := &sequence.Even{Stripes: (of.Even + 1) / 2}
		even.Rhythm = &sequence.Rhythm{Kind: half, Mirror: true}
		if of.Even%2 == 0 {
			even.Rhythm = &sequence.Rhythm{Kind: &sequence.Even{Stripes: of.Even}}
		}
		return m.follow(even, n, most, piece)
	}
	if most > 0 && n > most && of.Run.Block >= 0 {
		return nil, func() error {
			return m.misfit(&sequence.TooWideError{Units: n, Room: most}, piece, "middle", false)
		}
	}
	run := of.Run
	run.Units = n
	return []brief.Run{run}, nil
}

// joinRuns puts runs one after the other; neighbours alike in block and colour are one.
func joinRuns(parts ...[]brief.Run) (all []brief.Run) {
	for _, r := range slices.Concat(parts...) {
		if last := len(all) - 1; last >= 0 && alikeRuns(all[last], r) {
			all[last].Units += r.Units
			continue
		}
		all = append(all, r)
	}
	return all
}

func alikeRuns(a, b brief.Run) bool { return a.Block == b.Block && a.Colour == b.Colour }

// patternUnits is how many of n units a rule's rhythm goes through at a time.
func (m *maker) patternUnits(rule brief.Rule, n, piece int) int {
	if rule.Middle == nil {
		return n
	}
	return max((n-m.middleUnits(rule.Middle, n, piece))/2, 1)
}

// middleInWords is a middle as a weaver would say it.
func (m *maker) middleInWords(of *brief.Middle) string {
	percent := exact.Times(or(of.Share), exact.Whole(100))
	size := sequence.Decimal(percent, 1) + " %"
	if of.Length != nil {
		size = of.Length.String()
	}
	return fmt.Sprintf("on both sides of a middle of %s, %s", size, m.b.MiddleWhat(of))
}
