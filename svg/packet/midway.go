package packet

import (
	"fmt"
	"html/template"

	"stripesong/sequence/measure"
	"stripesong/svg"
)

// onLoom is where the weaver sits: a warp on the loom, of which some is woven.
type onLoom struct {
	Keep              string
	Woven, Of, Next   int
	NextName          string
	Left, Takes, Over string // of the warp; Over is "" where it does not reach
	Short             string // by how much it does not
	Pieces            []size // the woven ones
	Bar               template.HTML
	MakeUp            []makeUpRow
	Separator         template.HTML // that may still follow the last woven piece; "" for none
	Picks             int           // of it
	Levers, Hems      bool
	Sheds             int // the part with the sheds
}

// onLoom is nil where nothing is woven yet.
func (m *maker) onLoom() *onLoom {
	on := m.Midway
	if on == nil {
		return nil
	}
	o := &onLoom{
		Keep:  keep("on-loom", fmt.Sprint(*on), fmt.Sprint(m.Warp.MakeUp)),
		Woven: on.Woven, Of: len(m.Pieces), Next: on.Woven + 1,
		NextName: seen(m.Pieces[on.Woven].Name),
		Left:     m.mm(on.WarpMM), Takes: measure.FormatWarp(m.Warp.WoundMM, m.Units),
		Bar: m.plan(svg.MakeUp), MakeUp: m.makeUp(), Levers: m.levers(),
		Hems: m.Pieces[0].HemPicks > 0, Sheds: m.parts().Loom,
	}
	if o.Over = m.mm(on.LeftMM); on.LeftMM < 0 {
		o.Over, o.Short = "", m.mm(-on.LeftMM)
	}
	for i := range on.Woven {
		o.Pieces = append(o.Pieces, m.sizeOf(i))
	}
	if on.Woven > 0 {
		last := m.Pieces[on.Woven-1]
		if o.Picks = last.SeparatorPick; o.Picks > 0 {
			o.Separator = m.chips[last.Separator]
		}
	}
	return o
}

// parts are the numbers of the page's parts; 0 for one it does not have. On a warp that is
// on the loom weaving comes first.
type parts struct{ Shopping, Winding, Loom, Weaving, Finishing, Measuring int }

func (m *maker) parts() parts {
	if m.Midway != nil {
		return parts{Weaving: 1, Shopping: 2, Loom: 3, Finishing: 4, Measuring: 5}
	}
	return parts{1, 2, 3, 4, 5, 6}
}
