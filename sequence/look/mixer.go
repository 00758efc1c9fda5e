package look

import (
	"math/big"

	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/weave"
	"stripesong/sequence/yarn"
)

// What stands for the pattern colour of a [Trio] that has none.
const (
	Plain = -1 // ground alone, in the body of a piece
	Hem   = -2 // ground alone, in a hem
)

// Trio is a warp, a ground and a pattern colour that meet, as numbers of
// Brief.Colours; Pattern is [Plain] or [Hem] where there is only ground. Weave is
// which of [brief.Brief.Weaves] they meet in, 0 for the structure itself.
type Trio struct{ Warp, Ground, Pattern, Weave int }

// Patch is what a trio mixes into: On where the pattern weft covers the block
// on the face, Off where it lies behind. Plain ground is both.
type Patch struct {
	On, Off       palette.Linear
	OnLab, OffLab palette.Lab
}

// Shade is the colour of a patch.
type Shade struct {
	Light palette.Linear
	Lab   palette.Lab
}

// Mixer works out the colours of patches of one brief's cloth, each once. It is not for use by
// several goroutines at a time.
type Mixer struct {
	scatter palette.Scatter
	light   []palette.Linear // of every colour
	widths  []YarnWidths     // of every colour
	ordered []ordered        // by weave
	shades  map[patchKey]Shade
	corners []*Mixer // see [Mixer.Range]
}

// YarnWidths are the [Widths] of one colour of yarn in each part it may have in
// the cloth.
type YarnWidths struct{ Pattern, Warp, Ground, Hem float64 }

// ordered is what follows from the order of picks.
type ordered struct {
	pattern []float64  // widths of pattern weft, of every colour
	phi     [2]float64 // share of ends covered: own block, another
}

type patchKey struct {
	Trio
	phi float64
}

// Of prepares the cloth of a brief with its own strands and beat.
func Of(b *brief.Brief) *Mixer {
	spread, scatter := exact.Float(b.Cloth.Spread), exact.Float(b.Cloth.Scatter)
	c := At(b, spread, scatter)
	for _, s := range ends(spread, b.Cloth.SpreadKnown, spreads) {
		for _, l := range ends(scatter, b.Cloth.ScatterKnown, scatters) {
			if !b.Cloth.SpreadKnown || !b.Cloth.ScatterKnown {
				c.corners = append(c.corners, At(b, s, l))
			}
		}
	}
	return c
}

// At is the cloth of a brief for one spread, of which 1 is as round yarn lies, and one
// scatter, 0..1, whatever the brief says of them; nothing of it has a range.
func At(b *brief.Brief, spread, scatter float64) *Mixer {
	c := &Mixer{
		scatter: palette.Scatter(scatter),
		shades:  make(map[patchKey]Shade),
	}
	per := perMM(b)
	for _, colour := range b.Colours {
		c.light = append(c.light, colour.RGB.Linear())
		one := widthMM(b.Yarns[colour.Yarn], spread, 1)
		c.widths = append(c.widths, YarnWidths{
			Pattern: covers(widthMM(b.Yarns[colour.Yarn], spread, b.Cloth.Strands), per.Pattern),
			Warp:    covers(one, per.Warp),
			Ground:  covers(one, per.Ground),
			Hem:     covers(one, per.Hem),
		})
	}
	for _, s := range b.Weaves() {
		c.ordered = append(c.ordered, orderedIn(b, s, spread))
	}
	return c
}

// orderedIn works out what follows from the order of picks of one weave.
func orderedIn(b *brief.Brief, s *weave.Structure, spread float64) ordered {
	o := ordered{phi: phis(s)}
	per := patternPerMM(b, s)
	for _, colour := range b.Colours {
		width := widthMM(b.Yarns[colour.Yarn], spread, b.Cloth.Strands)
		o.pattern = append(o.pattern, covers(width, per))
	}
	return o
}

// patternPerMM is pattern picks to a millimetre of finished cloth.
func patternPerMM(b *brief.Brief, s *weave.Structure) float64 {
	length := exact.Remains(b.Cloth.ShrinkLength.Part)
	picks := big.NewRat(int64(s.PatternPicks()), int64(s.GroundPicks()))
	picks.Mul(picks, b.Cloth.Ground.PerMM)
	return exact.Float(picks.Quo(picks, length))
}

func phis(s *weave.Structure) [2]float64 {
	n, d := s.Phi(true)
	k, e := s.Phi(false)
	return [2]float64{float64(n) / float64(d), float64(k) / float64(e)}
}

// Phi is the share of the ends of one block that the pattern weft passes over
// while a block is woven, on the face or on the back.
func Phi(s *weave.Structure, woven, lies string, back bool) float64 {
	n, d := s.PhiOf(woven, lies)
	if back {
		n = d - n
	}
	return float64(n) / float64(d)
}

// widthMM is the width of so many strands of a yarn in washed cloth. Wraps were
// measured as the yarn lies, so that no spread comes on top.
func widthMM(y brief.Yarn, spread float64, strands int) float64 {
	if y.Wraps != nil {
		return WidthMM(1, 1/exact.Float(y.Wraps.PerMM), strands)
	}
	return WidthMM(spread, yarn.DiameterMM(exact.Float(y.Tex), 1), strands)
}

// perMM is threads to a millimetre of finished cloth.
func perMM(b *brief.Brief) (per YarnWidths) {
	c := b.Cloth
	length := exact.Remains(c.ShrinkLength.Part)
	width := exact.Times(exact.Remains(c.DrawIn.Part), exact.Remains(c.ShrinkWidth.Part))
	per.Pattern = patternPerMM(b, b.Structure)
	per.Warp = exact.Float(exact.Over(c.Sett.PerMM, width))
	per.Ground = exact.Float(exact.Over(c.Ground.PerMM, length))
	per.Hem = exact.Float(exact.Over(c.HemGround.PerMM, length))
	return per
}

// Light is the light of a colour by itself.
func (c *Mixer) Light(colour int) palette.Linear { return c.light[colour] }

// YarnWidths are the widths of a colour's yarn.
func (c *Mixer) YarnWidths(colour int) YarnWidths { return c.widths[colour] }

// Widths are the widths of a trio's yarns; the pattern's is 0 where there is none.
func (c *Mixer) Widths(t Trio) Widths {
	w := Widths{Warp: c.widths[t.Warp].Warp, Ground: c.widths[t.Ground].Ground}
	switch {
	case t.Pattern == Hem:
		w.Ground = c.widths[t.Ground].Hem
	case t.Pattern >= 0:
		w.Pattern = c.ordered[t.Weave].pattern[t.Pattern]
	}
	return w
}

// Shares divides a patch of a trio where the pattern weft passes over the share
// phi of the ends; of plain ground phi does not count.
func (c *Mixer) Shares(t Trio, phi float64) Shares {
	if t.Pattern < 0 {
		return c.Widths(t).Plain()
	}
	return c.Widths(t).Patch(phi)
}

// OnShares and OffShares are those of [Mixer.Patch].
func (c *Mixer) OnShares(t Trio) Shares { return c.Shares(t, c.ordered[t.Weave].phi[0]) }

// OffShares are the shares where the pattern weft lies behind.
func (c *Mixer) OffShares(t Trio) Shares { return c.Shares(t, c.ordered[t.Weave].phi[1]) }

// Shade is the colour of a patch where the pattern weft passes over the share
// phi of the ends, 0..1.
func (c *Mixer) Shade(t Trio, phi float64) Shade {
	if t.Pattern < 0 {
		phi, t.Weave = 0, 0
	}
	key := patchKey{t, phi}
	if s, ok := c.shades[key]; ok {
		return s
	}
	light := c.mix(t, c.Shares(t, phi))
	s := Shade{light, light.Lab()}
	c.shades[key] = s
	return s
}

// OnOff is the light of [Mixer.Patch] alone, on and off; unlike that it is not kept,
// and may be asked for by several goroutines at a time.
func (c *Mixer) OnOff(t Trio) (on, off palette.Linear) {
	return c.mix(t, c.OnShares(t)), c.mix(t, c.OffShares(t))
}

// OnOffAt is [Mixer.OnOff] at another scatter.
func (c *Mixer) OnOffAt(t Trio, scatter float64) (on, off palette.Linear) {
	other := *c
	other.scatter = palette.Scatter(scatter)
	return other.OnOff(t)
}

// Patch is what a trio mixes into, over the mean of all blocks.
func (c *Mixer) Patch(t Trio) Patch {
	phi := c.ordered[t.Weave].phi
	on, off := c.Shade(t, phi[0]), c.Shade(t, phi[1])
	return Patch{On: on.Light, Off: off.Light, OnLab: on.Lab, OffLab: off.Lab}
}

func (c *Mixer) mix(t Trio, s Shares) palette.Linear {
	parts := []palette.Part{
		{Colour: c.light[t.Warp], Area: s.Warp},
		{Colour: c.light[t.Ground], Area: s.Ground},
	}
	if t.Pattern >= 0 {
		parts = append(parts, palette.Part{Colour: c.light[t.Pattern], Area: s.Pattern})
	}
	return c.scatter.Mix(parts...)
}
