package plan

// Thrown is how often a strand of one colour lies across the cloth in a piece, by what it
// is there; that of the separator is after it.
type Thrown struct{ Pattern, Ground, Hem, Separator int }

// Thrown counts a colour, whose pattern picks are of so many strands.
func (p *Piece) Thrown(colour string, strands int) (t Thrown) {
	for _, r := range p.Runs {
		if r.Pattern == colour {
			t.Pattern += r.PatternPicks * strands
		}
		if r.Ground == colour {
			t.Ground += r.GroundPicks
		}
	}
	if p.Hem == colour {
		t.Hem = 2 * p.EndPicks()
	}
	if p.Separator == colour {
		t.Separator = p.SeparatorPick
	}
	return t
}
