package plan

import (
	"strings"

	"stripesong/sequence/measure"
)

// unitNotes ask whether a unit is the one that was meant.
func (m *maker) unitNotes() {
	if odd := m.b.OddUnits; len(odd) > 0 {
		m.note(Remark, "unit-odd", "%s in a brief of %s: is that the unit you meant?",
			strings.Join(odd, " and "), unitNames[m.b.Units])
		return
	}
	units, wide := m.sizeUnits(), m.plan.Warp.FinishedWidthMM
	for _, p := range m.plan.Pieces {
		if size := unlikely(wide, p.FinishedMM); size != "" {
			m.note(Remark, "size-unlikely",
				"a piece %s wide and %s long is %s for a towel: are %s the unit you meant?",
				measure.FormatLength(wide, units), measure.FormatLength(p.FinishedMM, units), size,
				unitNames[units])
			return
		}
	}
}

// sizeUnits are those that the size of a piece was given in.
func (m *maker) sizeUnits() string {
	set := m.b.Set
	for _, l := range []*measure.Length{set.Length, set.Woven, set.Width, set.InReed} {
		if l != nil {
			return l.Units()
		}
	}
	return m.b.Units
}

var unitNames = map[string]string{"cm": "centimetres", "in": "inches"}

// Towels are 33 to 66 cm wide and 50 to 100 cm long (common practice, no source). What
// that is with inches taken for centimetres, or the other way round, is unlikely.
const (
	narrowMM, wideMM = 660 / 2.54, 330 * 2.54
	shortMM, leastMM = 1000 / 2.54, 330 / 2.54
)

// unlikely tells of a finished piece that its size is that of a towel in other units:
// "large" or "small"; "" for all others, which may be bands, runners or mats.
func unlikely(widthMM, lengthMM float64) string {
	switch {
	case widthMM >= wideMM && lengthMM > widthMM:
		return "large"
	case widthMM <= narrowMM && widthMM >= leastMM && lengthMM <= shortMM:
		return "small"
	}
	return ""
}
