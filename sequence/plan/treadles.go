package plan

import (
	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
)

// tieUp counts the treadles of the whole set.
func (m *maker) tieUp() {
	loom := &m.plan.Loom
	if m.b.Loom.TieUp == brief.DirectTieUp {
		loom.TieUp, loom.TreadlesUsed = m.b.Loom.TieUp, m.s.Shafts
		return
	}
	loom.TreadlesUsed = len(m.sheds())
}

// treadleNotes holds the sheds against the treadles of the loom and the weaver's feet.
func (m *maker) treadleNotes() {
	has, used := m.b.Loom.Treadles, m.plan.Loom.TreadlesUsed
	if has > 0 && used > has {
		m.note(Warning, "treadles", "%s needs %d treadles here and the loom has %d", m.s.Name, used,
			has)
	}
	if m.plan.Loom.Direct() {
		m.feetNote()
	}
}

// mostFeet is how many treadles a weaver presses at once (common practice, no source).
const mostFeet = 2

// feetNote tells of sheds that take more treadles at once than she has feet.
func (m *maker) feetNote() {
	most := 0
	for _, t := range m.sheds() {
		moved := len(t.Shed.Shafts())
		if m.b.Loom.Shed != "sinking" {
			moved = m.s.Shafts - moved
		}
		most = max(most, moved)
	}
	if most > mostFeet {
		m.note(Warning, "treadles-at-once", "a shed takes %d treadles at once, each tied to one "+
			"shaft: two feet press %d", most, mostFeet)
	}
}

// sheds are the different ones of the whole set.
func (m *maker) sheds() []weave.Treadle {
	var picks []weave.Woven
	known := make(map[WeftRun]bool)
	for i, runs := range m.weftRuns {
		if m.plan.Pieces[i].EndPicks() > 0 {
			picks = append(picks, m.s.Picks(2, nil)...)
		}
		for _, r := range runs {
			letter := m.letter(r.Block)
			if key := (WeftRun{Block: letter, PickOrder: m.in(i).order}); !known[key] {
				known[key] = true
				picks = append(picks, m.in(i).UnitPicks(letter)...)
			}
		}
	}
	if m.sampled != nil {
		for _, r := range m.sampled.runs {
			picks = append(picks, m.s.UnitPicks(m.letter(r.Block))...)
		}
	}
	return m.s.Treadles(picks)
}
