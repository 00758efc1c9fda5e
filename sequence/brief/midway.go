package brief

import (
	"fmt"

	"stripesong/sequence/measure"
)

// Midway is the [midway] table: the warp is on the loom, and some of it is woven.
type Midway struct {
	Woven []measure.Length // the first pieces, on the loom under tension, hems included
	Warp  measure.Length   // what is left of the warp, from the fell to its end
}

// WovenPieces is how many pieces, the first ones, are woven already.
func (b *Brief) WovenPieces() int {
	if b.Midway == nil {
		return 0
	}
	return len(b.Midway.Woven)
}

// midway reads [midway]. On a warp that is on the loom no sample is woven and nothing is
// wound on a board any more; what can't be woven of it may be another length than
// [loom] has for a whole warp.
func (p *parser) midway(s *section) {
	if s.node == nil {
		return
	}
	m := &Midway{Woven: s.lengths("woven")}
	if l := s.length("warp"); l != nil {
		m.Warp = *l
	} else {
		m.Warp = mm(1)
		if !s.has("warp") {
			s.missing("warp", `write what is left of the warp, as in warp = "3.1 m"`)
		}
	}
	loom := &p.brief.Loom
	loom.Sample, loom.Retie, loom.Board = mm(0), mm(0), nil
	loom.Waste = or(s.length("waste"), loom.Waste)
	p.brief.Midway = m
	s.close()
}

// lengths reads a list of lengths, each more than nothing.
func (s *section) lengths(key string) (all []measure.Length) {
	for _, n := range s.names(key) {
		l, err := measure.ParseLength(n.Text)
		switch {
		case err != nil:
			s.r.report(n, n.Value.From, s.name(key), err.Error(), quantityHint(key, n))
			continue
		case l.MM.Sign() == 0 || l.MM.Cmp(mostMM) > 0:
			s.r.report(n, n.Value.From, s.name(key), fmt.Sprintf("%s is no length of a piece", l),
				`write each as it was measured, as in ["81.5 cm", "82 cm"]`)
		}
		all = append(all, l)
	}
	return all
}

// settled refuses what is woven already and could still change with the brief: a warp or
// pieces that are not written out.
func (p *parser) settled(s *section) {
	if s.node == nil || len(p.problems) > 0 {
		return
	}
	const hint = "\"stripesong midway\" writes a brief for the rest in which they are"
	woven := p.brief.WovenPieces()
	if woven >= p.brief.Set.Pieces {
		s.wrong("woven", fmt.Sprintf("has %d pieces, and the set has %d", woven,
			p.brief.Set.Pieces),
			"raise pieces in [set]: the woven ones are counted there too")
		return
	}
	if p.brief.Warp.Runs == nil {
		p.report(s.node, s.node.Key.From, "midway",
			"the warp is on the loom, and its runs are not written out", hint)
	}
	for i, piece := range p.brief.Pieces[:woven] {
		if piece.Weft.Runs == nil || piece.Hold || piece.Open || piece.Chosen {
			p.report(s.node, s.node.Key.From, "midway",
				fmt.Sprintf("piece %d is woven, and its runs are not written out, without hold "+
					"or chosen", i+1), hint)
		}
	}
}
