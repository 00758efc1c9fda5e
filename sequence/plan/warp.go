package plan

import (
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// warp decides the warp's runs and everything about its width.
func (m *maker) warp() error {
	if err := m.decideWarp(); err != nil {
		return err
	}
	n, c := units(m.warpRuns), m.b.Cloth
	ends := n*m.s.UnitEnds() + m.s.ClosingEnds()
	if err := m.boundWarp(ends); err != nil {
		return err
	}
	m.reedWidthMM = exact.Over(exact.Whole(ends), c.Sett.PerMM)
	woven := exact.Times(m.reedWidthMM, exact.Remains(c.DrawIn.Part))
	strips := m.strips(m.warpRuns)
	m.threading = m.s.Threading(strips)
	w := Warp{Units: n, Ends: ends, ClosingEnds: m.s.ClosingEnds(), SettPerCM: perCM(c.Sett.PerMM),
		ReedWidthMM:     exact.Rounded(m.reedWidthMM),
		WovenWidthMM:    exact.Rounded(woven),
		FinishedWidthMM: exact.Rounded(exact.Times(woven, exact.Remains(c.ShrinkWidth.Part))),
		WantedWidthMM:   m.wantedWidth(), Heddles: m.s.Heddles(strips)}
	if c.FloatingSelvedge {
		w.FloatingSelvedgeEnds = 2
	}
	for i, t := range m.s.Thread(strips) {
		r := m.warpRuns[i]
		run := WarpRun{Block: m.letter(r.Block), Units: r.Units, Ends: r.Units * m.s.UnitEnds(),
			Colour: m.colour(r.Colour), Closing: t.Closing, Turned: t.Turned}
		if t.Closing > 0 {
			run.Ends++
		}
		w.Runs = append(w.Runs, run)
	}
	w.Stripes, w.Blocks = m.stripes(), m.divided(m.warpRuns)
	m.plan.Warp = w
	m.plan.Cloth.PickM = exact.Rounded(m.pickM())
	return nil
}

func (m *maker) decideWarp() error {
	if m.warpRuns = m.b.Warp.Runs; m.warpRuns != nil {
		return nil
	}
	n := m.warpUnits()
	if n > brief.MaxUnits {
		return m.tooMany(-1, "the warp", n)
	}
	if n == 0 {
		return m.b.Wrong(-1, "the cloth is narrower than half a threading unit of "+m.s.Name,
			"make it wider: one unit is "+
				m.mm(exact.Float(exact.Over(exact.Whole(m.s.UnitEnds()), m.b.Cloth.Sett.PerMM)))+
				" in the reed",
			"set.width", "set.in_reed", "set")
	}
	runs, err := m.bands(m.b.Warp.Rule, n, m.widest(), -1)
	m.warpRuns = runs
	return err
}

// warpUnits is the units of a warp that follows rules; a closing end is one end more.
func (m *maker) warpUnits() int {
	return exact.HalfUp(exact.Over(exact.Times(m.wantedReed(), m.b.Cloth.Sett.PerMM),
		exact.Whole(m.s.UnitEnds())))
}

// wantedReed is the reed width the brief asks for.
func (m *maker) wantedReed() *big.Rat {
	if m.b.Set.InReed != nil {
		return m.b.Set.InReed.MM
	}
	return exact.Over(m.b.Set.Width.MM, m.widthLeft())
}

// wantedWidth is the finished width the brief asks for; 0 where only runs say.
func (m *maker) wantedWidth() float64 {
	switch {
	case m.b.Set.Width != nil:
		return exact.Rounded(m.b.Set.Width.MM)
	case m.b.Set.InReed != nil:
		return exact.Rounded(exact.Times(m.b.Set.InReed.MM, m.widthLeft()))
	}
	return 0
}

// pickM is the metres of one strand in one pick.
func (m *maker) pickM() *big.Rat {
	return exact.Over(exact.Times(m.reedWidthMM, exact.More(m.b.Cloth.Extra.Part)),
		exact.Whole(1000))
}

// warpLength reckons the warp's length, exactly, in mm: what is wound, or what is yet to be
// woven of a warp that is on the loom; and what that is made of.
func (m *maker) warpLength() {
	set, loom, left := m.b.Set, m.b.Loom, exact.Remains(m.b.Cloth.TakeUp.Part)
	coming := set.Pieces - m.woven()
	separators := exact.Times(exact.Whole((set.Pieces-1-m.separatorsFrom())*set.Separator),
		m.hemPickMM)
	m.wovenMM = new(big.Rat).Set(separators)
	for i, mm := range m.pieceWovenMM {
		if i < m.woven() {
			continue
		}
		m.wovenMM = exact.Plus(m.wovenMM, mm)
		m.part("piece", i+1, exact.Over(mm, left))
	}
	m.part("separators", 0, exact.Over(separators, left))
	m.part("sample", 0, exact.Over(loom.Sample.MM, left))
	fringe := exact.Times(exact.Whole(2*coming), set.Fringe.MM)
	m.part("retie", 0, loom.RetieMM())
	m.part("fringe", 0, fringe)
	m.part("waste", 0, loom.Waste.MM)
	cloth := exact.Over(exact.Plus(m.wovenMM, loom.Sample.MM), left)
	m.woundMM = exact.Plus(exact.Plus(exact.Plus(cloth, loom.RetieMM()), fringe), loom.Waste.MM)
	m.plan.Warp.WoundMM, m.plan.Warp.WovenMM = exact.Rounded(m.woundMM), exact.Rounded(m.wovenMM)
}

// part notes a share of the wound warp that is not nothing; number is that of a
// piece, from 1.
func (m *maker) part(what string, number int, mm *big.Rat) {
	if mm.Sign() == 0 {
		return
	}
	part := Part{What: what, Number: number, WoundMM: exact.Rounded(mm)}
	if number > 0 {
		part.Piece = m.b.Pieces[number-1].Name
	}
	m.plan.Warp.MakeUp = append(m.plan.Warp.MakeUp, part)
}
