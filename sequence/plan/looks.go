package plan

import (
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
	"stripesong/sequence/weave"
)

// looks is the cloth's mixed colours, asked for by runs.
type looks struct {
	*look.Cloth
	weave *weave.Structure
	phi   [2][][]float64 // face and back, by the block woven, by the block that lies there
}

func newLooks(b *brief.Brief) *looks {
	l := &looks{Cloth: look.Of(b), weave: b.Structure}
	for side, back := range []bool{false, true} {
		for _, woven := range b.Structure.Blocks {
			row := make([]float64, len(b.Structure.Blocks))
			for i, lies := range b.Structure.Blocks {
				row[i] = look.Phi(b.Structure, woven.Letter, lies.Letter, back)
			}
			l.phi[side] = append(l.phi[side], row)
		}
	}
	return l
}

// lab is what one side of a weft run shows over one warp run.
func (l *looks) lab(warp, weft brief.Run, ground int, back bool) palette.Lab {
	return l.shadeIn(l.Cloth, warp, weft, ground, back).Lab
}

// shadeIn is [looks.lab] in a cloth of another spread and scatter.
func (l *looks) shadeIn(cloth *look.Cloth, warp, weft brief.Run, ground int, back bool) look.Shade {
	t := look.Trio{Warp: warp.Colour, Ground: ground, Pattern: weft.Colour}
	if weft.Block < 0 {
		return cloth.Shade(t, 0)
	}
	side := 0
	if back {
		side = 1
	}
	return cloth.Shade(t, l.phi[side][weft.Block][warp.Block])
}
