package plan

import (
	"strings"

	"stripesong/palette"
	"stripesong/sequence/look"
)

// poor is one combination that does not show well, wherever it occurs.
type poor struct {
	worst  Contrast
	pieces []string
}

// contrastNotes tells, once for each trio of yarns and grade, what is unseen,
// faint or soft across the table, at its worst.
func (m *maker) contrastNotes() {
	var order []string
	found := make(map[string]*poor)
	for i := m.woven(); i < len(m.plan.Pieces); i++ {
		for _, c := range m.plan.Pieces[i].Contrast {
			at := c.At(look.DecisiveM)
			if at.Grade >= palette.Clear {
				continue
			}
			key := strings.Join([]string{c.Warp, c.Ground, c.Pattern, at.Grade.String()}, "\x00")
			if found[key] == nil {
				found[key] = &poor{worst: c}
				order = append(order, key)
			}
			f := found[key]
			f.pieces = append(f.pieces, m.called(i))
			if at.DeltaL < f.worst.At(look.DecisiveM).DeltaL {
				f.worst = c
			}
		}
	}
	for _, key := range order {
		m.contrastNote(found[key])
	}
}

// contrastNote tells of one combination: soft is a remark, less a warning.
func (m *maker) contrastNote(f *poor) {
	c := f.worst
	at := c.At(look.DecisiveM)
	hue := ""
	if c.HueOnly {
		hue = "; they differ in hue, not in light and dark"
	}
	level := Warning
	if at.Grade == palette.Soft {
		level = Remark
	}
	m.note(level, "contrast-"+at.Grade.String(),
		"%q pattern on %q ground over %q warp is %s from %s for %s: the difference in lightness "+
			"is %.1f (dE00 %.1f)%s; in %s",
		c.Pattern, c.Ground, c.Warp, at.Words(), m.plan.Distance(at.DistanceM), c.Vision.Eyes(),
		at.DeltaL, at.DeltaE, hue, some(f.pieces))
}
