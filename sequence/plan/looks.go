package plan

import (
	"stripesong/palette"
	"stripesong/sequence/brief"
	"stripesong/sequence/weave"
	"stripesong/sequence/yarn"
)

// trio is a warp, a ground and a pattern colour that meet; pattern is -1 where
// there is only ground.
type trio struct{ warp, ground, pattern int }

// mixed is what the eye sees of a trio: where the pattern weft covers the
// block on the face, and where it lies behind. Plain ground is both.
type mixed struct {
	on, off       palette.Linear
	onLab, offLab palette.Lab
}

// looks works out mixed colours once each.
type looks struct {
	b     *brief.Brief
	light []palette.Linear // of every colour
	cover []float64        // cp, of every colour as pattern weft; -1 where not yet known
	phi   [2]float64       // share of ends covered: own block, another
	mixed map[trio]mixed
}

func newLooks(b *brief.Brief) *looks {
	l := &looks{b: b, mixed: make(map[trio]mixed)}
	for _, c := range b.Colours {
		rgb, _ := palette.ParseHex(c.Hex) // checked when the brief was read
		l.light = append(l.light, rgb.Linear())
		l.cover = append(l.cover, -1)
	}
	l.phi = phis(b.Structure)
	return l
}

func phis(s *weave.Structure) [2]float64 {
	n, d := s.Phi(true)
	k, e := s.Phi(false)
	return [2]float64{float64(n) / float64(d), float64(k) / float64(e)}
}

// coverOf is the share of the cloth a colour covers as pattern weft where
// every end is passed over.
func (l *looks) coverOf(c int) float64 {
	if l.cover[c] < 0 {
		l.cover[c] = palette.Cover(value(l.b.Cloth.Spread), l.diameterMM(c), l.picksPerMM())
	}
	return l.cover[c]
}

func (l *looks) diameterMM(c int) float64 {
	y := l.b.Yarns[l.b.Colours[c].Yarn]
	if y.Wraps != nil {
		return yarn.DiameterOfWrapsMM(value(y.Wraps.PerMM), l.b.Cloth.Strands)
	}
	return yarn.DiameterMM(value(y.Tex), l.b.Cloth.Strands)
}

// picksPerMM is pattern picks to a millimetre of finished cloth.
func (l *looks) picksPerMM() float64 {
	s, c := l.b.Structure, l.b.Cloth
	perUnit := over(whole(s.PatternPicks()), whole(s.GroundPicks()))
	return value(over(times(perUnit, c.Ground.PerMM), remains(c.ShrinkLength.Part)))
}

func (l *looks) of(t trio) mixed {
	if m, ok := l.mixed[t]; ok {
		return m
	}
	m := l.mix(t)
	m.onLab, m.offLab = m.on.Lab(), m.off.Lab()
	l.mixed[t] = m
	return m
}

func (l *looks) mix(t trio) mixed {
	warp, ground := l.light[t.warp], l.light[t.ground]
	if t.pattern < 0 {
		plain := palette.Mix(palette.Part{Colour: warp, Area: 0.5}, palette.Part{Colour: ground, Area: 0.5})
		return mixed{on: plain, off: plain}
	}
	pattern, cp := l.light[t.pattern], l.coverOf(t.pattern)
	return mixed{
		on:  palette.PatternAreas(cp, l.phi[0]).Mix(pattern, warp, ground),
		off: palette.PatternAreas(cp, l.phi[1]).Mix(pattern, warp, ground),
	}
}

// lab is what one side of a weft run shows over one warp run.
func (l *looks) lab(warp, weft brief.Run, ground int, back bool) palette.Lab {
	m := l.of(trio{warp.Colour, ground, weft.Colour})
	if (warp.Block == weft.Block) != back {
		return m.onLab
	}
	return m.offLab
}
