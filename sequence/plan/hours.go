package plan

import "stripesong/sequence/exact"

// hours is how long the pieces take at the brief's pace, if it has one; a separator
// belongs to the piece before it.
func (m *maker) hours() {
	pace := m.b.Loom.Pace
	if pace == 0 {
		return
	}
	all := 0
	for i := m.woven(); i < len(m.plan.Pieces); i++ {
		p := &m.plan.Pieces[i]
		picks := p.Picks + p.SeparatorPick
		p.Hours = exact.Rounded(exact.Over(exact.Whole(picks), exact.Whole(pace)))
		all += picks
	}
	m.plan.Set.Hours = exact.Rounded(exact.Over(exact.Whole(all), exact.Whole(pace)))
}
