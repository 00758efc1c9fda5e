package plan

import (
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/weave"
)

// woven is the structure in one order of picks.
type woven struct {
	*weave.Structure
	unitMM *big.Rat // length of one weft unit on the loom
	order  string   // "" for the structure's own
}

// weavesOf are the weaves of a brief, the structure itself first, and which of them each
// piece has.
func weavesOf(b *brief.Brief) (all []woven, of []int) {
	weaves := b.Weaves()
	for i, s := range weaves {
		unit := exact.Over(exact.Whole(s.GroundPicks()), b.Cloth.Ground.PerMM)
		order := ""
		if i > 0 {
			order = weave.OrderText(s.Order)
		}
		all = append(all, woven{s, unit, order})
	}
	for i := range b.Pieces {
		of = append(of, b.WeaveOf(i, weaves))
	}
	return all, of
}

// in is the weave of a piece; the structure itself for -1.
func (m *maker) in(piece int) woven {
	if piece < 0 {
		return m.weaves[0]
	}
	return m.weaves[m.weaveOf[piece]]
}

// groundIn is what the weft runs of a body have in common: their ground and their weave.
type groundIn struct{ ground, weave int }

func (m *maker) groundIn(piece int) groundIn {
	return groundIn{m.b.Pieces[piece].Weft.Ground, m.weaveOf[piece]}
}

// longer is how long a weft unit of a piece is beside one of the structure's own order.
func (m *maker) longer(piece int) float64 {
	return float64(m.in(piece).GroundPicks()) / float64(m.s.GroundPicks())
}

// InOrder is the plan's structure in an order of picks, as a [WeftRun] has it; "" is the
// structure's own.
func (p *Plan) InOrder(order string) *weave.Structure {
	picks, err := weave.ParseOrder(order)
	if order == "" || err != nil {
		return p.Weave
	}
	return p.Weave.InOrder(picks)
}

// UnitMM is the woven length of one weft unit of a piece.
func (p *Plan) UnitMM(piece *Piece) float64 {
	if piece.WeftUnitMM > 0 {
		return piece.WeftUnitMM
	}
	return p.Cloth.WeftUnitMM
}
