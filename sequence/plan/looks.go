package plan

import (
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/look"
)

// looks is the cloth's mixed colours, asked for by runs.
type looks struct{ *look.Cloth }

func newLooks(b *brief.Brief) *looks { return &looks{look.Of(b)} }

// lab is what one side of a weft run shows over one warp run.
func (l *looks) lab(warp, weft brief.Run, ground int, back bool) palette.Lab {
	p := l.Patch(look.Trio{Warp: warp.Colour, Ground: ground, Pattern: weft.Colour})
	if (warp.Block == weft.Block) != back {
		return p.OnLab
	}
	return p.OffLab
}
