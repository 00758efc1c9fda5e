package plan

import (
	"stripesong/sequence/exact"
	"stripesong/sequence/look"
)

// Shades finds the colour of a patch among [Plan.Mixes].
type Shades struct {
	plan    *Plan
	mixes   map[shadeKey]*Mix
	colours map[string]*Colour
}

type shadeKey struct {
	warp, ground, pattern, order string
	hem                          bool
	cover                        float64
}

// Shades prepares to find colours of patches.
func (p *Plan) Shades() *Shades {
	s := &Shades{p, make(map[shadeKey]*Mix, len(p.Mixes)), make(map[string]*Colour)}
	for i := range p.Colours {
		s.colours[p.Colours[i].Name] = &p.Colours[i]
	}
	for i := range p.Mixes {
		m := &p.Mixes[i]
		s.mixes[shadeKey{m.Warp, m.Ground, m.Pattern, m.PickOrder, m.State == InHem, m.Cover}] = m
	}
	return s
}

// Body is the colour where a weft run crosses a warp run, on the face or the
// back; nil for runs that do not meet in the plan.
func (s *Shades) Body(warp WarpRun, weft WeftRun, back bool) *Mix {
	key := shadeKey{warp: warp.Colour, ground: weft.Ground, pattern: weft.Pattern}
	if weft.Block != "" {
		key.order = weft.PickOrder
		phi := look.Phi(s.plan.InOrder(weft.PickOrder), weft.Block, warp.Block, back)
		key.cover = exact.RoundTo(phi, 4)
	}
	return s.mixes[key]
}

// Hem is the colour where a hem crosses a warp colour, the same on both sides;
// nil for a hem that is not in the plan.
func (s *Shades) Hem(warp, hem string) *Mix {
	return s.mixes[shadeKey{warp: warp, ground: hem, hem: true}]
}
