package plan

import (
	"slices"

	"stripesong/sequence/brief"
)

// Where runs are written out and the rules beside them, or inherited, give just
// these runs, the rules still hold: the piece goes by them, and nothing of the
// plan changes when rules are written out as runs. Once a run is changed by
// hand the rules no longer give it, and it stands as written.

// warpByRule tells whether the warp's rules give its runs.
func (m *maker) warpByRule() bool {
	w := m.b.Warp
	if w.Runs == nil {
		return true
	}
	if !complete(w.Rule) || m.b.Set.Width == nil && m.b.Set.InReed == nil {
		return false
	}
	n := m.warpUnits()
	if n != units(w.Runs) {
		return false
	}
	made, err := m.bands(w.Rule, n, m.widest(), -1)
	return err == nil && slices.Equal(made, w.Runs)
}

// pieceByRule tells whether a piece's rules give its runs.
func (m *maker) pieceByRule(i int) bool {
	w := m.b.Pieces[i].Weft
	if w.Runs == nil {
		return true
	}
	if !complete(w.Rule) || m.b.Set.Length == nil && m.b.Set.Woven == nil {
		return false
	}
	n := m.bodyUnits()
	if n != units(w.Runs) {
		return false
	}
	made, err := m.bands(w.Rule, n, 0, i)
	return err == nil && slices.Equal(made, w.Runs)
}

// origin tells where a piece's runs come from, and its rule in words. A piece
// whose runs are one of the candidates of [vary] counts as chosen, by whomever.
func (m *maker) origin(i int) (origin, words string, rule []Setting) {
	rule = []Setting{}
	if m.pieceByRule(i) {
		return "rules", m.inWords(m.b.Pieces[i].Weft.Rule), rule
	}
	if m.varied != nil {
		if c, ok := m.varied.chosen[i]; ok {
			r := m.varied.pool[c].rule
			for _, change := range m.b.RuleKeys(r) {
				if change.Value != "" {
					rule = append(rule, Setting(change))
				}
			}
			return "chosen", m.inWords(r), rule
		}
	}
	return "runs", "", rule
}

// complete tells whether a rule says all that it takes to follow it.
func complete(rule brief.Rule) bool { return rule.Rhythm != nil && len(rule.Colours) > 0 }

// unusedRules are the keys of rules that stand beside runs and do not give
// them, each once.
func (m *maker) unusedRules() []string {
	var unused []string
	add := func(keys []string) {
		for _, key := range keys {
			if !slices.Contains(unused, key) {
				unused = append(unused, key)
			}
		}
	}
	if !m.warpByRule() {
		add(m.b.Warp.Beside)
	}
	for i, p := range m.b.Pieces {
		if m.plan.Pieces[i].Origin == "runs" {
			add(p.Weft.Beside)
		}
	}
	return unused
}
