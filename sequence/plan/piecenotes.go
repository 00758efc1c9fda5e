package plan

import "fmt"

// setNotes tells of pieces that are alike, cut lines that do not show and names
// used twice.
func (m *maker) setNotes() {
	m.alikeNotes()
	var hidden, twice []string
	seen := make(map[string]int)
	for i, p := range m.plan.Pieces {
		name := m.called(i)
		if i >= m.separatorsFrom() && p.SeparatorPick > 0 && p.EndPicks() > 0 &&
			p.Separator == p.Hem {
			hidden = append(hidden, name)
		}
		if seen[p.Name]++; seen[p.Name] == 2 {
			twice = append(twice, fmt.Sprintf("%q", p.Name))
		}
	}
	m.listNote("separator-hidden",
		"the separator after %s has the colour of the hem, so the cut line will not show: give "+
			"it another colour", hidden)
	m.listNote("name-twice", "more than one piece is called %s", twice)
	if m.b.Set.Pieces > 1 && m.b.Set.Separator == 0 {
		m.note(Remark, "separator-none", "no separator picks mark where to cut the pieces apart")
	}
}

// alikeNotes tells of pieces that look alike, all that do together.
func (m *maker) alikeNotes() {
	group := make([]int, len(m.plan.Pieces)) // of each piece the first that it is alike to
	for i := range group {
		group[i] = i
	}
	most := make(map[int]float64)
	for _, p := range m.plan.Set.Pairs { // in the order of pieces
		if a, b := group[p.NumberA-1], p.NumberB-1; p.Difference < AlikeE && p.NumberB > m.woven() {
			group[b] = min(group[b], a)
			most[group[b]] = max(most[group[b]], p.Difference)
		}
	}
	for first := range group {
		differ, any := most[first]
		if !any {
			continue
		}
		var names []string
		for i, g := range group {
			if g == first {
				names = append(names, m.called(i))
			}
		}
		if how := fmt.Sprintf("%.1f", differ); how == "0.0" {
			m.note(Remark, "pieces-alike", "%s are alike", some(names))
		} else {
			m.note(Remark, "pieces-alike",
				"%s look alike: their faces differ by no more than %s (mean dE00)",
				some(names), how)
		}
	}
}

// listNote is a remark on some names, none where there are none.
func (m *maker) listNote(code, message string, names []string) {
	if len(names) > 0 {
		m.note(Remark, code, message, some(names))
	}
}
