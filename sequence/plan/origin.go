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
	sized := m.b.Set.Width != nil || m.b.Set.InReed != nil
	return w.Runs == nil || sized && m.gives(w.Rule, w.Runs, m.warpUnits(), m.widest(), -1)
}

// pieceByRule tells whether a piece's rules give its runs; held ones as they are at
// the size asked for.
func (m *maker) pieceByRule(i int) bool {
	w := m.b.Pieces[i].Weft
	if w.Runs == nil {
		return true
	}
	sized := m.b.Set.Length != nil || m.b.Set.Woven != nil
	return sized && m.gives(w.Rule, m.runsOf(i), m.bodyUnits(i), 0, i)
}

// gives tells whether a rule gives just these runs in n units.
func (m *maker) gives(rule brief.Rule, runs []brief.Run, n, most, piece int) bool {
	if !complete(rule) || n != units(runs) {
		return false
	}
	made, err := m.bands(rule, n, most, piece)
	return err == nil && slices.Equal(made, runs)
}

// origin tells where a piece's runs come from, and its rule in words. A piece
// whose runs are one of the candidates of [vary] counts as chosen, by whomever.
func (m *maker) origin(i int, p *Piece) {
	told := func(origin string, rule brief.Rule) {
		p.Origin, p.Kind, p.Rhythm = origin, rule.Rhythm.Spec().Name, m.inWords(rule)
	}
	p.Origin, p.Rule = "runs", []Setting{}
	if m.pieceByRule(i) {
		told("rules", m.b.Pieces[i].Weft.Rule)
		return
	}
	if m.b.Pieces[i].Chosen {
		p.Origin = "chosen"
		return
	}
	if m.varied != nil {
		if c, ok := m.varied.chosen[i]; ok {
			r := m.varied.candidates[c].rule
			for _, change := range m.b.RuleKeys(r) {
				if change.Value != "" {
					p.Rule = append(p.Rule, Setting(change))
				}
			}
			told("chosen", r)
		}
	}
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
