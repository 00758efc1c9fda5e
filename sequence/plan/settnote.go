package plan

import (
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
	"stripesong/sequence/yarn"
)

// narrowedNote tells where a structure's maximum made blocks narrower than
// their rhythm has them.
func (m *maker) narrowedNote() {
	most := m.widest()
	if most == 0 || !m.warpByRule() {
		return
	}
	free, err := m.bands(m.b.Warp.Rule, units(m.warpRuns), 0, -1)
	if err == nil && !slices.Equal(free, m.warpRuns) {
		m.note(Remark, "blocks-narrowed",
			"the widest blocks were narrowed to %d units, since the weft of %s floats over a "+
				"whole block and more than %s is refused",
			most, m.s.Name, m.fine(refusedFloatMM))
	}
}

// settNote tells of warp yarns that lie closer than plain weave can hold, by
// Ashenhurst's rule for firm yarns. It is a rule of thumb: a remark.
func (m *maker) settNote() {
	var close []string
	for _, y := range m.plan.Yarn {
		if y.WarpM == 0 {
			continue
		}
		closest := yarn.ClosestSett(yarn.DiametersPerMM(y.Tex, yarn.FirmYarn), 2, 2)
		if exact.Float(m.b.Cloth.Sett.PerMM) > closest {
			close = append(close,
				fmt.Sprintf("%q, %s at the most", y.Colour,
					measure.FormatDensity(closest, m.b.Units)))
		}
	}
	if len(close) > 0 {
		m.note(Remark, "sett-close",
			"a sett of %s is closer than plain weave of this warp usually takes: %s; sample it, "+
				"or open the sett",
			m.b.Cloth.Sett, strings.Join(close, "; "))
	}
}
