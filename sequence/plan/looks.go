package plan

import (
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/weave"
)

// looks is the cloth's mixed colours, asked for by runs.
type looks struct {
	*look.Mixer
	phi []phiSides // by weave
}

// phiSides are shares of ends covered, on the face and the back, by the block woven,
// by the block that lies there.
type phiSides [2][][]float64

func newLooks(b *brief.Brief) *looks {
	l := &looks{Mixer: look.Of(b)}
	for _, s := range b.Weaves() {
		l.phi = append(l.phi, phiSidesOf(s))
	}
	return l
}

func phiSidesOf(s *weave.Structure) (phi phiSides) {
	for side, back := range []bool{false, true} {
		for _, woven := range s.Blocks {
			row := make([]float64, len(s.Blocks))
			for i, lies := range s.Blocks {
				row[i] = look.Phi(s, woven.Letter, lies.Letter, back)
			}
			phi[side] = append(phi[side], row)
		}
	}
	return phi
}

// lab is what one side of a weft run shows over one warp run.
func (l *looks) lab(warp, weft brief.Run, in groundIn, back bool) palette.Lab {
	return l.shadeIn(l.Mixer, warp, weft, in, back).Lab
}

// shadeIn is [looks.lab] in a cloth of another spread and scatter.
func (l *looks) shadeIn(cloth *look.Mixer, warp, weft brief.Run, in groundIn,
	back bool) look.Shade {
	t := look.Trio{Warp: warp.Colour, Ground: in.ground, Pattern: weft.Colour, Weave: in.weave}
	if weft.Block < 0 {
		return cloth.Shade(t, 0)
	}
	side := 0
	if back {
		side = 1
	}
	return cloth.Shade(t, l.phi[in.weave][side][weft.Block][warp.Block])
}
