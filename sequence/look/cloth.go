package look

import (
	"math/big"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
	"stripesong/sequence/yarn"
)

// Plain stands for the pattern colour where there is only ground.
const Plain = -1

// Trio is a warp, a ground and a pattern colour that meet, as numbers of
// Brief.Colours; Pattern is [Plain] where there is only ground.
type Trio struct{ Warp, Ground, Pattern int }

// Patch is what a trio mixes into: On where the pattern weft covers the block
// on the face, Off where it lies behind. The back of the cloth has the two
// exchanged. Plain ground is both.
type Patch struct {
	On, Off       palette.Linear
	OnLab, OffLab palette.Lab
}

// Cloth works out patches of one brief's cloth, each once. It is not for use by
// several goroutines at a time.
type Cloth struct {
	light   []palette.Linear // of every colour
	cover   []float64        // cp, of every colour as pattern weft
	phi     [2]float64       // share of ends covered: own block, another
	patches map[Trio]Patch
}

// Of prepares the cloth of a brief with its own strands and beat.
func Of(b *brief.Brief) *Cloth {
	c := &Cloth{patches: make(map[Trio]Patch), phi: phis(b.Structure)}
	picks := picksPerMM(b)
	for _, colour := range b.Colours {
		rgb, _ := palette.ParseHex(colour.Hex) // checked when the brief was read
		c.light = append(c.light, rgb.Linear())
		c.cover = append(c.cover, palette.Cover(value(b.Cloth.Spread), diameterMM(b, colour), picks))
	}
	return c
}

func phis(s *weave.Structure) [2]float64 {
	n, d := s.Phi(true)
	k, e := s.Phi(false)
	return [2]float64{float64(n) / float64(d), float64(k) / float64(e)}
}

// diameterMM is that of all strands of a pattern weft together.
func diameterMM(b *brief.Brief, colour brief.Colour) float64 {
	y := b.Yarns[colour.Yarn]
	if y.Wraps != nil {
		return yarn.DiameterOfWrapsMM(value(y.Wraps.PerMM), b.Cloth.Strands)
	}
	return yarn.DiameterMM(value(y.Tex), b.Cloth.Strands)
}

// picksPerMM is pattern picks to a millimetre of finished cloth.
func picksPerMM(b *brief.Brief) float64 {
	picks := big.NewRat(int64(b.Structure.PatternPicks()), int64(b.Structure.GroundPicks()))
	picks.Mul(picks, b.Cloth.Ground.PerMM)
	left := new(big.Rat).Sub(big.NewRat(1, 1), b.Cloth.ShrinkLength.Part)
	return value(picks.Quo(picks, left))
}

func value(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}

// Light is the light of a colour by itself.
func (c *Cloth) Light(colour int) palette.Linear { return c.light[colour] }

// Patch is what a trio mixes into.
func (c *Cloth) Patch(t Trio) Patch {
	if p, ok := c.patches[t]; ok {
		return p
	}
	p := c.mix(t)
	p.OnLab, p.OffLab = p.On.Lab(), p.Off.Lab()
	c.patches[t] = p
	return p
}

func (c *Cloth) mix(t Trio) Patch {
	warp, ground := c.light[t.Warp], c.light[t.Ground]
	if t.Pattern == Plain {
		plain := palette.Mix(palette.Part{Colour: warp, Area: 0.5}, palette.Part{Colour: ground, Area: 0.5})
		return Patch{On: plain, Off: plain}
	}
	pattern, cp := c.light[t.Pattern], c.cover[t.Pattern]
	return Patch{
		On:  palette.PatternAreas(cp, c.phi[0]).Mix(pattern, warp, ground),
		Off: palette.PatternAreas(cp, c.phi[1]).Mix(pattern, warp, ground),
	}
}
