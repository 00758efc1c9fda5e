package svg

import "stripesong/sequence/plan"

// scale is how long something of cloth is on paper.
type scale struct{ paper, cloth um }

// of brings a length of cloth to paper.
func (s scale) of(cloth um) um { return part(cloth, int(s.paper), int(s.cloth)) }

// sizes is what a piece measures, finished.
type sizes struct{ width, body, hem um }

func sizesOf(p *plan.Plan, piece *plan.Piece) sizes {
	return sizes{
		width: micrometres(p.Warp.FinishedWidthMM),
		body:  micrometres(piece.FinishedMM),
		hem:   micrometres(float64(piece.HemWovenMM * (1 - p.Cloth.ShrinkLength))),
	}
}

// whole is the length of a piece with its hems unfolded.
func (s sizes) whole() um { return s.body + 2*s.hem }

// foot is how far up the body, in a height on paper, its run i begins.
func foot(piece *plan.Piece, i int, height um) um {
	before, all := 0, 0
	for j, run := range piece.Runs {
		if j < i {
			before += run.Units
		}
		all += run.Units
	}
	if all == 0 {
		return 0
	}
	return part(height, before, all)
}

// place is where a span lies above the foot of the drawing, and how high it
// is; hem is 0 where hems are left out.
func (s span) place(piece *plan.Piece, body, hem um) (from, height um) {
	switch {
	case s.hem && s.from == 0:
		return 0, hem
	case s.hem:
		return hem + body, hem
	}
	at := foot(piece, s.run, body)
	return hem + at, foot(piece, s.run+1, body) - at
}

// bands joins neighbouring spans whose picks are equally far apart. The
// drawing stands on y; without hems only the body is drawn.
func (c *cloth) bands(piece *plan.Piece, y, body, hem um) (bands []band) {
	kind := func(s span) [2]bool { return [2]bool{s.hem, s.block == ""} }
	for i, s := range c.spans {
		from, height := s.place(piece, body, hem)
		if height == 0 {
			continue
		}
		if n := len(bands); n > 0 && i > 0 && kind(s) == kind(c.spans[i-1]) {
			b := &bands[n-1]
			b.spans = append(b.spans, s)
			b.y, b.h, b.picks = b.y-height, b.h+height, b.picks+s.count
			continue
		}
		bands = append(bands, band{spans: []span{s}, y: y - from - height, h: height, picks: s.count, lowest: s.from})
	}
	return bands
}
