package palette

// Part is a share of what the eye takes in at once. Areas are in any unit, so
// long as it is the same for all parts.
type Part struct {
	Colour Linear
	Area   float64
}

// Mix is the light of all parts together: their average by area, as in a
// spinning disc (Talbot-Plateau). Parts of no or negative area are left out;
// with none left it is black. Parts of one and the same colour give exactly
// that colour. This is how threads mix that are too fine to be told apart; it
// is not how dyes or paints mix.
func Mix(parts ...Part) Linear {
	var sum Linear
	var area float64
	base, found := Linear{}, false
	for _, p := range parts {
		if !(p.Area > 0) {
			continue
		}
		if !found {
			base, found = p.Colour, true
		}
		area += p.Area
		for i := range sum {
			sum[i] += float64(p.Area * (p.Colour[i] - base[i]))
		}
	}
	if !found {
		return Linear{}
	}
	for i := range base {
		base[i] += sum[i] / area
	}
	return base
}

// Areas are the shares of a patch of cloth in which each yarn is on top; they
// sum to 1.
type Areas struct{ Pattern, Warp, Ground float64 }

// Mix is the light of the patch for these three yarns.
func (a Areas) Mix(pattern, warp, ground Linear) Linear {
	return Mix(Part{warp, a.Warp}, Part{ground, a.Ground}, Part{pattern, a.Pattern})
}

// Plain is the patch of ground picks alone: half warp, half ground weft.
var Plain = Areas{Warp: 0.5, Ground: 0.5}

// Cover is cp, the share of the height that pattern floats take up: spread times
// diameter times pattern picks per mm of finished cloth, at most 1. A pattern
// float lies on the ground as a flattened ribbon, spread times as wide as its
// yarn is round. A model of this program's own, not a published one; see
// [PatternAreas] for what it can carry.
func Cover(spread, diameterMM, picksPerMM float64) float64 {
	return min(1, max(0, spread*diameterMM*picksPerMM))
}

// PatternAreas divides a patch among the yarns. cp is the [Cover] of the pattern
// weft, phi the share of ends it passes over on this side: of a halvdräll block
// 3/4 where the pattern is on the face, 1/4 where it lies behind; the other side
// of the cloth has the two exchanged.
//
//	pattern = cp phi
//	warp    = cp (1 - phi) + (1 - cp)/2
//	ground  = (1 - cp)/2
//
// Good for saying which of two combinations contrasts more. Area models of cloth
// err by a few units of CIEDE2000 in absolute terms.
func PatternAreas(cp, phi float64) Areas {
	plain := float64((1 - cp) / 2)
	return Areas{
		Pattern: cp * phi,
		Warp:    float64(cp*(1-phi)) + plain,
		Ground:  plain,
	}
}
