package loomwork

import "stripesong/sequence/plan"

// Kind is what a step of weaving is.
type Kind string

// The kinds of steps.
const (
	Hem       Kind = "hem"
	Body      Kind = "body" // a run with pattern, or plain
	Separator Kind = "separator"
)

// Step is one run of weaving: a hem, a run of the body, the separator.
type Step struct {
	Kind                      Kind
	Block                     string // "" for plain ground, hems and separators
	Units                     int    // 0 for hems and separators
	PatternPicks, GroundPicks int
	Pattern, Ground           string // colours of the two shuttles; Pattern "" where there is none
	Picks                     int    // woven so far of this piece, this step included
	Woven                     float64
	Counts                    []int // units (picks of a hem) after which to tick inside a long step
	Shuttles                  []Shuttle
}

// counted is after how many units, or picks of a hem, a long step gets a tick
// of its own; shorter steps have only the one at their end.
const counted = 10

// StepsOf is what is woven of piece i, from the first pick up: hem, body, hem,
// and the separator after it, whose picks count to no piece.
func StepsOf(p *plan.Plan, i int) []Step {
	piece := p.Pieces[i]
	s := &stepper{piece: piece}
	s.hem()
	for _, run := range piece.Runs {
		s.run(run)
	}
	s.hem()
	if n := piece.SeparatorPick; n > 0 {
		s.steps = append(s.steps, Step{Kind: Separator, GroundPicks: n, Ground: piece.Separator, Picks: s.picks, Woven: s.woven()})
	}
	shuttles(s.steps)
	return s.steps
}

type stepper struct {
	piece              plan.Piece
	steps              []Step
	picks, units, hems int
}

// woven is the length so far; whole pieces and bodies give the plan's own
// figures, to the last decimal.
func (s *stepper) woven() float64 {
	p := s.piece
	if s.units == p.BodyUnits {
		if s.hems == 2 || p.HemPicks == 0 {
			return p.WovenMM
		}
		return p.WovenMM - float64(float64(2-s.hems)*p.HemWovenMM)
	}
	body := float64(p.BodyWovenMM*float64(s.units)) / float64(p.BodyUnits)
	return float64(float64(s.hems)*p.HemWovenMM) + body
}

func (s *stepper) hem() {
	n := s.piece.HemPicks
	if n == 0 {
		return
	}
	s.hems++
	s.picks += n
	s.steps = append(s.steps, Step{Kind: Hem, GroundPicks: n, Ground: s.piece.Hem, Picks: s.picks, Woven: s.woven(), Counts: counts(n)})
}

func (s *stepper) run(run plan.WeftRun) {
	s.units += run.Units
	s.picks += run.PatternPicks + run.GroundPicks
	s.steps = append(s.steps, Step{Kind: Body, Block: run.Block, Units: run.Units, PatternPicks: run.PatternPicks, GroundPicks: run.GroundPicks,
		Pattern: run.Pattern, Ground: run.Ground, Picks: s.picks, Woven: s.woven(), Counts: counts(run.Units)})
}

// counts are the tens inside a step, its own end apart.
func counts(n int) (at []int) {
	for k := counted; k < n; k += counted {
		at = append(at, k)
	}
	return at
}
