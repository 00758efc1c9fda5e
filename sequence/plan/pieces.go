package plan

import (
	"context"
	"fmt"
	"math/big"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// pieces decides the runs of every piece and everything about its length.
func (m *maker) pieces(ctx context.Context) error {
	for i, piece := range m.b.Pieces {
		if err := ctx.Err(); err != nil {
			return err
		}
		runs, err := m.decidePiece(i, piece)
		if err != nil {
			return err
		}
		if err := m.boundPiece(i, m.endPicks(), runs); err != nil {
			return err
		}
		m.weftRuns = append(m.weftRuns, runs)
		m.plan.Pieces = append(m.plan.Pieces, m.piece(i, piece, runs))
	}
	return m.boundSet()
}

// hemPicks is the even number of picks nearest to the hem, a tie going up.
func (m *maker) hemPicks() int { return m.evenPicks(m.b.Set.Hem) }

// showPicks is the even number of picks nearest to the plain cloth that stays in sight
// beside one hem, a tie going up.
func (m *maker) showPicks() int { return m.evenPicks(m.b.Set.HemShow) }

// evenPicks is the even number of picks, as close as those of hems, nearest to a
// finished length, a tie going up.
func (m *maker) evenPicks(finished measure.Length) int {
	c := m.b.Cloth
	woven := exact.Over(finished.MM, exact.Remains(c.ShrinkLength.Part))
	return exact.NearestEven(exact.Times(woven, c.HemGround.PerMM))
}

// endPicks is all plain picks before the body, and as many after it.
func (m *maker) endPicks() int { return m.hemPicks() + m.showPicks() }

func (m *maker) decidePiece(i int, piece brief.Piece) ([]brief.Run, error) {
	runs := piece.Weft.Runs
	if runs != nil && (!piece.Hold || m.b.Set.Length == nil && m.b.Set.Woven == nil) {
		return runs, nil
	}
	n, err := m.checkedBody(i)
	if err != nil {
		return nil, err
	}
	if runs != nil {
		return m.scaled(i, runs, n)
	}
	return m.bands(piece.Weft.Rule, n, 0, i)
}

// checkedBody is the units of a body that follows rules, within bounds.
func (m *maker) checkedBody(i int) (int, error) { return m.checked(i, m.bodyUnits(i)) }

func (m *maker) checked(i, n int) (int, error) {
	if n < 1 {
		return 0, m.b.Wrong(-1, "leaves no room for a body between the hems",
			"write a longer piece or a shorter hem", "set.woven", "set.length", "set")
	}
	if n > brief.MaxUnits {
		return 0, m.tooMany(i, "the body of "+m.called(i), n)
	}
	return n, nil
}

// bodyUnits is the weft units in the body of a piece that follows rules; -1 is one in
// the structure's own order of picks.
func (m *maker) bodyUnits(piece int) int {
	set, plain := m.b.Set, m.endPicks()
	woven := new(big.Rat)
	if set.Woven != nil {
		woven = set.Woven.MM
	} else {
		plain = m.showPicks()
		woven = exact.Over(set.Length.MM, exact.Remains(m.b.Cloth.ShrinkLength.Part))
	}
	ends := exact.Times(exact.Whole(2*plain), m.hemPickMM)
	return exact.HalfUp(exact.Over(exact.Minus(woven, ends), m.in(piece).unitMM))
}

func (m *maker) piece(i int, from brief.Piece, runs []brief.Run) Piece {
	n, hem, show := units(runs), m.hemPicks(), m.showPicks()
	in := m.in(i)
	body := exact.Times(exact.Whole(n), in.unitMM)
	hemMM := exact.Times(exact.Whole(hem), m.hemPickMM)
	showMM := exact.Times(exact.Whole(show), m.hemPickMM)
	seen := exact.Plus(body, exact.Times(exact.Whole(2), showMM))
	woven := exact.Plus(seen, exact.Times(exact.Whole(2), hemMM))
	m.pieceWovenMM = append(m.pieceWovenMM, woven)
	p := Piece{Name: from.Name, HemPicks: hem, BodyUnits: n, WovenMM: exact.Rounded(woven),
		BodyWovenMM: exact.Rounded(body), HemWovenMM: exact.Rounded(hemMM),
		ShowPicks: show, ShowWovenMM: exact.Rounded(showMM),
		FinishedMM: exact.Rounded(exact.Times(seen, exact.Remains(m.b.Cloth.ShrinkLength.Part))),
		WantedMM:   m.wantedLength(), Contrast: []Contrast{},
		Hem: m.colour(from.Weft.Hem), Separator: m.colour(from.Weft.Separator),
		Picks: 2 * (hem + show)}
	if p.PickOrder = in.order; in.order != "" {
		p.WeftUnitMM = exact.Rounded(in.unitMM)
	}
	m.origin(i, &p)
	p.Blocks = m.divided(runs)
	if i < m.woven() {
		p.MeasuredMM = exact.Rounded(m.b.Midway.Woven[i].MM)
	}
	if i < m.b.Set.Pieces-1 {
		p.SeparatorPick = m.b.Set.Separator
	}
	for _, r := range runs {
		run := m.weftRun(in, r, from.Weft.Ground)
		p.Picks += run.PatternPicks + run.GroundPicks
		p.Runs = append(p.Runs, run)
	}
	return p
}

func (m *maker) weftRun(in woven, r brief.Run, ground int) WeftRun {
	run := WeftRun{Block: m.letter(r.Block), Units: r.Units,
		GroundPicks: r.Units * in.GroundPicks(),
		Pattern:     m.colour(r.Colour), Ground: m.colour(ground), PickOrder: in.order}
	if r.Block >= 0 {
		run.PatternPicks = r.Units * in.PatternPicks()
	}
	return run
}

func (m *maker) wantedLength() float64 {
	if m.b.Set.Length == nil {
		return 0
	}
	return exact.Rounded(m.b.Set.Length.MM)
}

// inWords is a rule as a weaver would say it, and the seeds it has.
func (m *maker) inWords(rule brief.Rule) string {
	words := m.ruleInWords(rule)
	for _, seed := range []*int64{rule.Rhythm.Seed, rule.Seed} {
		if seed != nil {
			words += fmt.Sprintf(", seed %d", *seed)
		}
	}
	return words
}

// ordersInWords are the orders of colours as rules are told.
var ordersInWords = map[string]string{
	"graded": "colours from light to dark", "hue": "colours round the colour circle",
	"shuffle": "colours shuffled", "shares": "colours by their shares",
}

func (m *maker) ruleInWords(rule brief.Rule) string {
	words := []string{rule.Rhythm.String()}
	if rule.Order != "" && rule.Order != "cycle" {
		words = append(words, ordersInWords[rule.Order])
	}
	if first := rule.Blocks.First; first > 0 && !rule.Blocks.Apart {
		words = append(words, "from block "+m.letter(first))
	}
	if rule.Middle != nil {
		words = append(words, m.middleInWords(rule.Middle))
	}
	return strings.Join(words, ", ")
}
