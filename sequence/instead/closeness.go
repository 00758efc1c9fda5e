package instead

import (
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/plan"
	"stripesong/sequence/yarn"
)

// closeness is the part of its room that round yarn fills: warp in the reed, on average
// over its ends; weft of the body and of the hems on the loom, where it is fullest.
type closeness struct{ warp, body, hem float64 }

// closenessOf is that of a plan's threads in a brief's yarns, at the plan's densities.
func closenessOf(b *brief.Brief, p *plan.Plan) (c closeness) {
	var ends int
	var wide float64
	for _, r := range p.Warp.Runs {
		ends += r.Ends
		wide += float64(float64(r.Ends) * diameterMM(b, r.Colour, 1))
	}
	c.warp = wide / float64(ends) * p.Cloth.SettPerCM / 10
	for _, piece := range p.Pieces {
		if piece.EndPicks() > 0 {
			c.hem = max(c.hem, float64(diameterMM(b, piece.Hem, 1)*p.Cloth.HemGroundPerCM)/10)
		}
		for _, r := range piece.Runs {
			high := float64(diameterMM(b, r.Ground, 1) * float64(r.GroundPicks))
			if r.Pattern != "" {
				high += float64(diameterMM(b, r.Pattern, p.Cloth.Strands) * float64(r.PatternPicks))
			}
			c.body = max(c.body, high/float64(r.GroundPicks)*p.Cloth.GroundPerCM/10)
		}
	}
	return c
}

// diameterMM is that of strands of a colour's yarn as one round yarn.
func diameterMM(b *brief.Brief, colour string, strands int) float64 {
	for _, c := range b.Colours {
		if c.Name != colour {
			continue
		}
		y := b.Yarns[c.Yarn]
		if y.Wraps != nil {
			return yarn.DiameterOfWrapsMM(exact.Float(y.Wraps.PerMM), strands)
		}
		return yarn.DiameterMM(exact.Float(y.Tex), strands)
	}
	return 0
}
