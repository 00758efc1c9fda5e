package loomwork

import "stripesong/sequence/plan"

// Kind is what a step of weaving is.
type Kind string

// The kinds of steps.
const (
	Hem       Kind = "hem"  // what is turned under
	Show      Kind = "show" // plain beside it that stays in sight
	Body      Kind = "body" // a run with pattern, or plain
	Separator Kind = "separator"
	Fringe    Kind = "fringe" // warp left unwoven
)

// Step is one run of weaving: a hem, what stays in sight beside it, a run of the
// body, the separator.
type Step struct {
	Kind  Kind
	Block string // "" for plain ground, hems and separators
	Order string // of picks; "" for the structure's own
	// 0 where there are no units: hems, what shows of them, separators
	Units                     int
	PatternPicks, GroundPicks int
	Pattern, Ground           string // colours of the two shuttles; Pattern "" where there is none
	Picks                     int    // woven so far of this piece, this step included
	PatternSoFar, GroundSoFar int    // what these are of
	Woven                     float64
	BareMM                    float64 // warp left unwoven, of a fringe
	// units (picks where there are none) after which to tick inside a long step
	Counts                []int
	Shuttles              []Shuttle
	FoldBefore, FoldAfter bool // what stays in sight begins, or ends, at the fold of a hem
}

// counted is after how many units, or picks of a hem, a long step gets a tick
// of its own; shorter steps have only the one at their end.
const counted = 10

// StepsOf is what is woven of piece i, from the first pick up: hem, plain that
// stays in sight, body, the same two the other way round, and the separator after
// them, whose picks count to no piece. A fringe is left unwoven before and after the
// piece.
func StepsOf(p *plan.Plan, i int) []Step {
	piece := p.Pieces[i]
	s := &stepper{piece: piece}
	s.fringe(p.Cloth.FringeMM)
	s.plain(Hem, piece.HemPicks, piece.HemWovenMM)
	s.plain(Show, piece.ShowPicks, piece.ShowWovenMM)
	for _, run := range piece.Runs {
		s.run(run)
	}
	s.plain(Show, piece.ShowPicks, piece.ShowWovenMM)
	s.plain(Hem, piece.HemPicks, piece.HemWovenMM)
	s.fringe(p.Cloth.FringeMM)
	if n := piece.SeparatorPick; n > 0 {
		s.steps = append(s.steps,
			Step{Kind: Separator, GroundPicks: n, Ground: piece.Separator, Picks: s.picks,
				Woven: s.woven()})
	}
	steps := s.finished()
	if p.Cloth.FringeMM > 0 {
		hemstitched(steps)
	}
	return steps
}

// finished counts the picks of both shuttles and follows the yarns.
func (s *stepper) finished() []Step {
	pattern, ground := 0, 0
	for i := range s.steps {
		step := &s.steps[i]
		if step.Kind != Separator {
			pattern, ground = pattern+step.PatternPicks, ground+step.GroundPicks
		}
		step.PatternSoFar, step.GroundSoFar = pattern, ground
	}
	shuttles(s.steps)
	return s.steps
}

// SampleStepsOf is what is woven of the sample, from the first pick up: a stretch of
// hem, then its runs. There are none without a sample.
func SampleStepsOf(p *plan.Plan) []Step {
	if p.Sample == nil {
		return nil
	}
	picks, units := p.Sample.HemPicks, 0
	for _, run := range p.Sample.Runs {
		picks, units = picks+run.PatternPicks+run.GroundPicks, units+run.Units
	}
	hemMM := float64(p.Sample.HemPicks) * 10 / p.Cloth.HemGroundPerCM
	s := &stepper{piece: plan.Piece{Hem: p.Sample.Hem, Picks: picks, WovenMM: p.Sample.WovenMM,
		BodyUnits: units, BodyWovenMM: p.Sample.WovenMM - hemMM}}
	s.plain(Hem, p.Sample.HemPicks, hemMM)
	for _, run := range p.Sample.Runs {
		s.run(run)
	}
	return s.finished()
}

type stepper struct {
	piece        plan.Piece
	steps        []Step
	picks, units int
	plainMM      float64 // hems and what shows of them, so far
}

// woven is the length so far; whole pieces and bodies give the plan's own
// figures, to the last decimal.
func (s *stepper) woven() float64 {
	p := s.piece
	if s.picks == p.Picks {
		return p.WovenMM
	}
	if s.units == p.BodyUnits {
		all := float64(2*p.HemWovenMM) + float64(2*p.ShowWovenMM)
		return p.WovenMM - (all - s.plainMM)
	}
	body := float64(p.BodyWovenMM*float64(s.units)) / float64(p.BodyUnits)
	return s.plainMM + body
}

// fringe leaves warp unwoven, if there are fringes.
func (s *stepper) fringe(mm float64) {
	if mm > 0 {
		s.steps = append(s.steps, Step{Kind: Fringe, BareMM: mm, Picks: s.picks, Woven: s.woven()})
	}
}

// plain adds some picks of the hem's yarn.
func (s *stepper) plain(kind Kind, n int, mm float64) {
	if n == 0 {
		return
	}
	folded := kind == Show && s.piece.HemPicks > 0
	s.plainMM += mm
	s.picks += n
	s.steps = append(s.steps,
		Step{Kind: kind, GroundPicks: n, Ground: s.piece.Hem, Picks: s.picks, Woven: s.woven(),
			Counts:     counts(n),
			FoldBefore: folded && s.units == 0, FoldAfter: folded && s.units > 0})
}

func (s *stepper) run(run plan.WeftRun) {
	s.units += run.Units
	s.picks += run.PatternPicks + run.GroundPicks
	s.steps = append(s.steps,
		Step{Kind: Body, Block: run.Block, Order: run.PickOrder, Units: run.Units,
			PatternPicks: run.PatternPicks, GroundPicks: run.GroundPicks,
			Pattern: run.Pattern, Ground: run.Ground, Picks: s.picks, Woven: s.woven(),
			Counts: counts(run.Units)})
}

// counts are the tens inside a step, its own end apart.
func counts(n int) (at []int) {
	for k := counted; k < n; k += counted {
		at = append(at, k)
	}
	return at
}
