package plan

import (
	"stripesong/palette"
	"stripesong/sequence/look"
)

// Drawn is what a patch is drawn with thread by thread: how wide its three yarns
// lie, and their light, taken down so that the patch averages to its mixed colour.
type Drawn struct {
	Widths look.Widths
	Light  [3]palette.Linear // by [look.Yarn]
}

// BodyDrawn is how a weft run is drawn over a warp run, on the face or the back;
// false where the two do not meet in the plan.
func (s *Shades) BodyDrawn(warp WarpRun, weft WeftRun, back bool) (Drawn, bool) {
	mix := s.Body(warp, weft, back)
	if mix == nil {
		return Drawn{}, false
	}
	w := look.Widths{Warp: s.widths(mix.Warp).Warp, Ground: s.widths(mix.Ground).Ground}
	if mix.Pattern == "" {
		return s.drawn(mix, w, w.Plain()), true
	}
	w.Pattern = s.widths(mix.Pattern).Pattern
	if mix.PickOrder != "" {
		w.Pattern = mix.PatternWidth
	}
	return s.drawn(mix, w,
		w.Patch(look.Phi(s.plan.InOrder(weft.PickOrder), weft.Block, warp.Block, back))), true
}

// HemDrawn is how a hem of one colour is drawn over warp of another, alike on both sides;
// false where the two do not meet in the plan.
func (s *Shades) HemDrawn(warp, hem string) (Drawn, bool) {
	mix := s.Hem(warp, hem)
	if mix == nil {
		return Drawn{}, false
	}
	w := look.Widths{Warp: s.widths(warp).Warp, Ground: s.widths(hem).Hem}
	return s.drawn(mix, w, w.Plain()), true
}

func (s *Shades) drawn(mix *Mix, w look.Widths, shares look.Shares) Drawn {
	yarns := [3]palette.Linear{
		look.PatternYarn: s.light(mix.Pattern),
		look.WarpYarn:    s.light(mix.Warp),
		look.GroundYarn:  s.light(mix.Ground),
	}
	return Drawn{w, shares.Takedown(yarns, lightOf(mix.Lab))}
}

func (s *Shades) widths(colour string) Widths {
	if c := s.colours[colour]; c != nil {
		return c.Widths
	}
	return Widths{}
}

func (s *Shades) light(colour string) palette.Linear {
	if c := s.colours[colour]; c != nil {
		return lightOf(c.Lab)
	}
	return palette.Linear{}
}

func lightOf(lab [3]float64) palette.Linear {
	return palette.Lab{L: lab[0], A: lab[1], B: lab[2]}.XYZ().Linear()
}
