package svg

import "stripesong/sequence/plan"

// scale is how long something of cloth is on paper.
type scale struct{ paper, cloth um }

// of brings a length of cloth to paper.
func (s scale) of(cloth um) um { return part(cloth, int(s.paper), int(s.cloth)) }

// sizes is what a piece measures, finished, or that on paper: its body, one hem,
// and the plain between the two that stays in sight.
type sizes struct{ width, body, hem, show um }

func sizesOf(p *plan.Plan, piece *plan.Piece) sizes {
	left := 1 - p.Cloth.ShrinkLength
	show := micrometres(float64(piece.ShowWovenMM * left))
	return sizes{
		width: micrometres(p.Warp.FinishedWidthMM),
		body:  micrometres(piece.FinishedMM) - 2*show,
		hem:   micrometres(float64(piece.HemWovenMM * left)),
		show:  show,
	}
}

// on brings sizes to paper.
func (s sizes) on(scale scale) sizes {
	return sizes{scale.of(s.width), scale.of(s.body), scale.of(s.hem), scale.of(s.show)}
}

// folded is the sizes of the piece with its hems turned under.
func (s sizes) folded() sizes {
	s.hem = 0
	return s
}

// whole is the length of a piece with its hems unfolded.
func (s sizes) whole() um { return s.body + 2*s.end() }

// end is all plain at one end.
func (s sizes) end() um { return s.hem + s.show }

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
// is, both on paper.
func (s span) place(piece *plan.Piece, of sizes) (from, height um) {
	if s.hem {
		from, height = 0, of.hem
		if s.show {
			from, height = of.hem, of.show
		}
		if s.upper {
			from = of.whole() - from - height
		}
		return from, height
	}
	at := foot(piece, s.run, of.body)
	return of.end() + at, foot(piece, s.run+1, of.body) - at
}
