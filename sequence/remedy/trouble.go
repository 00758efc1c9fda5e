package remedy

import (
	"slices"

	"stripesong/sequence/plan"
)

// trouble is a kind of note that is to be ended, and of which yarn.
type trouble struct{ code, about string }

// watched are notes below warnings for which ways out are sought too.
var watched = []string{"beat-hard", "pieces-alike"}

// troubles counts the kinds of trouble a plan has.
func troubles(p *plan.Plan) map[trouble]int {
	all := make(map[trouble]int)
	for _, n := range p.Notes {
		if n.Code != yarnShort && (n.Level == plan.Warning || slices.Contains(watched, n.Code)) {
			all[trouble{code: n.Code}] = timesOf(n.Code, p, all[trouble{code: n.Code}])
		}
	}
	for _, y := range p.Yarn {
		if short(y) {
			all[trouble{yarnShort, y.Colour}]++
		}
	}
	return all
}

// timesOf is how often a plan has a kind of trouble after one more note of it. Of pieces
// that look alike, which share notes, it is the pairs; of sizes, which do too, it is one.
func timesOf(code string, p *plan.Plan, before int) int {
	switch code {
	case "pieces-alike":
		n := 0
		for _, pair := range p.Set.Pairs {
			if pair.Difference < plan.AlikeE {
				n++
			}
		}
		return n
	case "size-off":
		return 1
	}
	return before + 1
}

// order is the kinds of trouble a plan has: what it warns of, then the rest, each in
// the order of its notes; of yarns in the order of the brief.
func order(p *plan.Plan) (all []trouble) {
	counted := troubles(p)
	for _, n := range p.Notes {
		if n.Code == yarnShort {
			continue
		}
		if t := (trouble{code: n.Code}); counted[t] > 0 && !slices.Contains(all, t) {
			all = append(all, t)
		}
	}
	var yarns []trouble
	for _, y := range p.Yarn {
		if short(y) {
			yarns = append(yarns, trouble{yarnShort, y.Colour})
		}
	}
	first := slices.IndexFunc(all, trouble.onlyNoted)
	if first < 0 {
		first = len(all)
	}
	return slices.Insert(all, first, yarns...)
}

// in tells whether a plan has a trouble; a plan that was refused for its shelf and is none
// any more must not be short of yarn either.
func (t trouble) in(p *plan.Plan) bool {
	if t.code == shelfRefused {
		return slices.ContainsFunc(p.Yarn, short)
	}
	return troubles(p)[t] > 0
}

// onlyNoted tells whether a trouble is no warning.
func (t trouble) onlyNoted() bool { return slices.Contains(watched, t.code) }

const yarnShort = "yarn-short"

// short tells whether the shelf holds less of a yarn than is needed, the spare
// apart.
func short(y plan.Yarn) bool { return y.OnHandM != nil && *y.OnHandM < y.NeededM() }

// better tells whether a plan has less of some trouble than another, and no more of
// any other kind. What is no warning does not stand in the way of ending one.
func better(t trouble, before, after map[trouble]int) bool {
	if after[t] >= before[t] {
		return false
	}
	return !worse(t, before, after)
}

// worse tells whether a plan has more than another of any trouble but one.
func worse(t trouble, before, after map[trouble]int) bool {
	for kind, n := range after {
		if kind != t && n > before[kind] && (t.onlyNoted() || !kind.onlyNoted()) {
			return true
		}
	}
	return false
}
