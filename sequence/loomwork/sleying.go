package loomwork

import (
	"stripesong/sequence/plan"
)

// Sleying is where the warp goes in the reed.
type Sleying struct {
	Repeat     []int // ends in each dent, over and over
	PerCM      float64
	Dents      int     // that hold the warp, not counting floating selvedges
	Last       int     // ends in the last of them, where the repeat breaks off
	WidthMM    float64 // those dents side by side
	FromMiddle int     // dents from the middle of the reed to the left edge of the warp
	// the first dent of the warp in a reed as wide as the loom, from 1; 0 where the loom's width is
	// not given or too small
	First     int
	Final     int  // and the last
	InReed    int  // dents of such a reed
	Selvedges bool // one floating selvedge in the next dent at each side
}

// SleyingOf tells how the warp is sleyed; nil where the plan has no reed.
func SleyingOf(p *plan.Plan) *Sleying {
	if len(p.Loom.Sleying) == 0 {
		return nil
	}
	s := &Sleying{Repeat: p.Loom.Sleying, PerCM: p.Loom.SleyedPerCM,
		Selvedges: p.Warp.FloatingSelvedgeEnds > 0}
	s.Dents, s.Last = dentsFor(p.Warp.Ends, s.Repeat)
	s.WidthMM = float64(s.Dents) * 10 / p.Loom.ReedPerCM
	s.FromMiddle = (s.Dents + 1) / 2
	s.InReed = p.Loom.DentsAcross
	if beside := s.beside(); s.Dents+2*beside <= s.InReed {
		s.First = (s.InReed-s.Dents)/2 + 1
		s.Final = s.First + s.Dents - 1
	}
	return s
}

func (s *Sleying) beside() int {
	if s.Selvedges {
		return 1
	}
	return 0
}

// dentsFor fills dents with ends, over and over, and tells how many it takes
// and what is in the last.
func dentsFor(ends int, repeat []int) (dents, last int) {
	sum := 0
	for _, n := range repeat {
		sum += n
	}
	dents = ends / sum * len(repeat)
	left := ends % sum
	if left == 0 {
		return dents, repeat[len(repeat)-1]
	}
	for _, n := range repeat {
		if left <= n {
			return dents + 1, left
		}
		left -= n
		dents++
	}
	return dents, last
}

// Irregular tells whether the last dent holds fewer ends than its turn.
func (s *Sleying) Irregular() bool {
	return s.Last != s.Repeat[(s.Dents-1)%len(s.Repeat)]
}
