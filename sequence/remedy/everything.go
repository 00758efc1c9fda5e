package remedy

import (
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// mostTogether is how many remedies of each trouble are tried together with others.
const mostTogether = 3

// mending is all that is warned of, and what was found for it.
type mending struct {
	troubles []trouble
	found    [][]Remedy
	beyond   map[trouble]bool // nothing was found for these
}

// add puts down what was found for a trouble, if that is a warning.
func (m *mending) add(t trouble, found []Remedy) {
	switch {
	case t.onlyNoted():
	case len(found) > 0:
		m.troubles, m.found = append(m.troubles, t), append(m.found, found)
	default:
		m.beyond[t] = true
	}
}

// waysOut are the first few ways out of a trouble, and those of others that end it too.
func (m *mending) waysOut(i int) []Remedy {
	all := slices.Clone(m.found[i][:min(len(m.found[i]), mostTogether)])
	for k, found := range m.found {
		for _, r := range found[:min(len(found), mostTogether)] {
			if k != i && r.ends[m.troubles[i]] && !slices.ContainsFunc(all, r.same) {
				all = append(all, r)
			}
		}
	}
	return all
}

// everything is the least invasive remedy, or combination of one for each trouble, after
// which the plan warns of nothing but what nothing was found for; there is none for a
// single trouble.
func (f *finder) everything(m mending) (Remedy, bool) {
	if len(m.found) < 2 {
		return Remedy{}, false
	}
	sets := []way{{}}
	for i := range m.found {
		var next []way
		for _, set := range sets {
			for _, r := range m.waysOut(i) {
				if both, ok := set.and(r.way()); ok {
					next = append(next, both)
				}
			}
		}
		sortByWeight(next)
		sets = next[:min(len(next), mostPlans)]
	}
	for _, ways := range m.found {
		for _, r := range ways {
			sets = append(sets, r.way())
		}
	}
	sortByWeight(sets)
	f.budget()
	for _, set := range sets {
		if p := f.planned(set.changes); p != nil && m.ended(f.before, p) {
			return f.remedy(trouble{}, set, p), true
		}
	}
	return Remedy{}, false
}

// ended tells whether a plan warns of nothing but what there is no way out of, and of that
// no more than before.
func (m *mending) ended(before map[trouble]int, p *plan.Plan) bool {
	for t, n := range troubles(p) {
		if !t.onlyNoted() && (!m.beyond[t] || n > before[t]) {
			return false
		}
	}
	return len(m.beyond) > 0 || len(p.NotesOf(plan.Warning)) == 0
}

// ended are the troubles that a plan does not have any more.
func (f *finder) ended(p *plan.Plan) map[trouble]bool {
	all, now := map[trouble]bool{}, troubles(p)
	for t := range f.before {
		all[t] = now[t] == 0
	}
	return all
}

// way is what a remedy changes.
func (r Remedy) way() way { return way{r.What, r.Changes, r.weight} }

// and is a way with the changes of another besides; there is none where both change the
// same key otherwise.
func (w way) and(other way) (both way, ok bool) {
	if len(w.changes) == 0 {
		return other, true
	}
	both = way{w.what + "; " + other.what, slices.Clone(w.changes), w.weight + other.weight}
	for _, c := range other.changes {
		i := slices.IndexFunc(w.changes, func(o brief.Change) bool { return o.Key == c.Key })
		switch {
		case i < 0:
			both.changes = append(both.changes, c)
		case w.changes[i] != c:
			return way{}, false
		}
	}
	if len(both.changes) == len(w.changes) { // it has them all
		return w, true
	}
	return both, true
}
