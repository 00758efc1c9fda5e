package plan

import (
	"context"
	"fmt"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/weave"
)

// Make works out the plan of a brief. The context may stop it early, with the
// context's error; any other error is of type [brief.Problems].
func Make(ctx context.Context, b *brief.Brief) (*Plan, error) {
	m := newMaker(b)
	if err := m.warp(); err != nil {
		return nil, err
	}
	if err := m.vary(ctx); err != nil {
		return nil, err
	}
	if err := m.pieces(ctx); err != nil {
		return nil, err
	}
	m.warpLength()
	m.onLoom()
	m.sample()
	if err := m.yarn(); err != nil {
		return nil, err
	}
	m.costs()
	m.plan.GramsPerM2 = m.gramsPerM2()
	if err := m.floats(); err != nil {
		return nil, err
	}
	if err := m.contrasts(ctx); err != nil {
		return nil, err
	}
	if err := m.differences(ctx); err != nil {
		return nil, err
	}
	m.setSides()
	m.hours()
	m.notes()
	return m.plan, nil
}

// maker holds what one reckoning needs: the exact values behind the plan's
// rounded ones, and what has been worked out once.
type maker struct {
	b    *brief.Brief
	s    *weave.Structure
	plan *Plan

	reedWidthMM  *big.Rat // exact
	weftUnitMM   *big.Rat // woven length of one weft unit in the structure's own order
	weaves       []woven  // the structure, then that in other orders of picks
	weaveOf      []int    // by piece
	hemPickMM    *big.Rat // woven length of one hem or separator pick
	woundMM      *big.Rat
	wovenMM      *big.Rat // pieces and separators
	pieceWovenMM []*big.Rat
	warpRuns     []brief.Run
	weftRuns     [][]brief.Run
	threading    []int
	look         *looks
	varied       *varied          // nil without [vary]
	sampled      *sampled         // nil where no sample is woven
	used         []int            // colours in the order of first use
	needs        map[int]*big.Rat // metres of each, sample included
}

func newMaker(b *brief.Brief) *maker {
	m := &maker{b: b, s: b.Structure,
		plan: &Plan{Schema: Schema, Title: b.Title, Units: b.Units, Seed: b.Seed,
			Structure: b.Structure.Name, Weave: b.Structure, Notes: []Note{}}}
	m.look = newLooks(b)
	m.weaves, m.weaveOf = weavesOf(b)
	m.weftUnitMM = m.weaves[0].unitMM
	m.hemPickMM = new(big.Rat).Inv(b.Cloth.HemGround.PerMM)
	m.plan.Cloth = m.cloth()
	return m
}

// cloth repeats what the brief says of the cloth, as numbers.
func (m *maker) cloth() Cloth {
	c, set := m.b.Cloth, m.b.Set
	return Cloth{
		SettPerCM: perCM(c.Sett.PerMM), GroundPerCM: perCM(c.Ground.PerMM),
		HemGroundPerCM: perCM(c.HemGround.PerMM),
		DrawIn:         exact.Rounded(c.DrawIn.Part), TakeUp: exact.Rounded(c.TakeUp.Part),
		ShrinkWidth:  exact.Rounded(c.ShrinkWidth.Part),
		ShrinkLength: exact.Rounded(c.ShrinkLength.Part), WeftExtra: exact.Rounded(c.Extra.Part),
		Strands: c.Strands, Spread: exact.Rounded(c.Spread), Scatter: exact.Rounded(c.Scatter),
		WeftUnitMM: exact.Rounded(m.weftUnitMM),
		HemMM:      exact.Rounded(set.Hem.MM), HemShowMM: exact.Rounded(set.HemShow.MM),
		FringeMM: exact.Rounded(set.Fringe.MM), SampleMM: exact.Rounded(m.b.Loom.Sample.MM),
		WasteMM: exact.Rounded(m.b.Loom.Waste.MM), RetieMM: exact.Rounded(m.b.Loom.RetieMM()),
		Spare: exact.Rounded(set.Spare.Part),
	}
}

// strips tells a weave what the runs are, without their colours.
func (m *maker) strips(runs []brief.Run) []weave.Strip {
	strips := make([]weave.Strip, len(runs))
	for i, r := range runs {
		strips[i] = weave.Strip{Block: m.letter(r.Block), Units: r.Units}
	}
	return strips
}

func (m *maker) letter(block int) string {
	if block < 0 {
		return ""
	}
	return m.s.Blocks[block].Letter
}

// colour is a colour's name; "" for none.
func (m *maker) colour(c int) string {
	if c < 0 {
		return ""
	}
	return m.b.Colours[c].Name
}

func units(runs []brief.Run) int {
	n := 0
	for _, r := range runs {
		n += r.Units
	}
	return n
}

// tooMany is the refusal of a size beyond what is worked on.
func (m *maker) tooMany(piece int, what string, n int) error {
	return m.b.Wrong(piece,
		fmt.Sprintf("%s comes to %d units, more than the %d that are worked on", what, n,
			brief.MaxUnits),
		"check the sizes and densities: is a unit mistaken?", "width", "length", "set.width",
		"set.length", "set")
}
