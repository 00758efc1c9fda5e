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
// that colour. This is how threads mix that are too fine to be told apart and
// let no light through; see [Scatter.Mix] for those that do.
func Mix(parts ...Part) Linear { return Scatter(0).Mix(parts...) }

// Scatter is how far light spreads from yarn to yarn before it comes back out
// of the cloth: 0 is not at all, and less than 1.
type Scatter float64

// dark is the reflectance that [Scatter] takes for the darkest that yarn can be.
const dark = 0.01

// Mix is the light of parts that lie side by side and let light through to one
// another: light that enters a bright yarn leaves through its dark neighbour, so
// that cloth of two yarns is darker than the average of their light. It is taken
// channel by channel:
//
//	f(R) = (1 - R) / (B (R - 0.01) + 0.01)
//	v    = sum of share f(R)
//	R    = (1 - 0.01 v (1 - B)) / (1 + B v)
//
// A scatter of 0 gives the average by area. Parts of no or negative area are left
// out; with none left it is black. Parts alike in a channel give exactly that.
//
// Source: E. I. Stearns and F. Noechel, "Spectrophotometric prediction of color
// of wool blends", American Dyestuff Reporter 33, 177, 1944 (from memory).
func (b Scatter) Mix(parts ...Part) Linear {
	var area float64
	for _, p := range parts {
		if p.Area > 0 {
			area += p.Area
		}
	}
	var mixed Linear
	if !(area > 0) {
		return mixed
	}
	for i := range mixed {
		mixed[i] = b.channel(parts, i, area)
	}
	return mixed
}

// channel is one channel of [Scatter.Mix]. It is reckoned from the first part's
// value, so that parts alike give exactly that.
func (b Scatter) channel(parts []Part, i int, area float64) float64 {
	base, first := 0.0, true
	alike := true
	var more float64
	for _, p := range parts {
		switch r := p.Colour[i]; {
		case !(p.Area > 0):
		case first:
			base, first = r, false
		default:
			alike = alike && r == base
			more += float64(p.Area * b.apart(r, base))
		}
	}
	switch {
	case alike:
		return base
	case b == 0:
		return base + more/area
	}
	v := b.depth(base) + more/area
	return (1 - float64(dark*v*(1-float64(b)))) / (1 + float64(float64(b)*v))
}

// apart is how far two reflectances are apart on the scale that is averaged.
func (b Scatter) apart(r, base float64) float64 {
	if b == 0 {
		return r - base
	}
	return b.depth(r) - b.depth(base)
}

// depth is f of [Scatter.Mix]: how much of the light a reflectance takes away.
func (b Scatter) depth(r float64) float64 {
	return (1 - r) / (float64(float64(b)*(r-dark)) + dark)
}
