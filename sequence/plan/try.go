package plan

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/choose"
	"stripesong/sequence/look"
)

// MostTrials is the most a sheet of trials can hold.
const MostTrials = 60

// Trials is a sheet of rhythms to choose from, for the warp or for one piece.
type Trials struct {
	Title string
	Seed  int64
	Warp  bool
	Piece string // the piece that is shown
	Rows  int
	Cells []Trial // row by row, by their numbers
}

// Trial is one rhythm and what it would look like.
type Trial struct {
	Number int     // from 1; the same however many are on the sheet
	Plan   *Plan   // of the piece alone, as it would be
	Rhythm string  // in words
	Seeds  []int64 // of the rule: of its rhythm, its order; none where chance has no part in it
	Worst  Seen    // the contrast that shows least at 2 m
	Right  float64 // mean dE00 to the next in the row; -1 for the last
	Below  float64 // and to the one below

	candidate candidate
}

// Trying is what to try.
type Trying struct {
	Count int
	Warp  bool
	Piece int // the piece to try, or to show with a warp
	Steering
}

// Try draws up trials. Each takes its place in one order in which every
// beginning covers what the rules can do: the first dozen of two dozen are the
// dozen. A piece that [vary] leaves open is tried as that table allows, any other in its
// own colours and a warp in the warp's, all of them, unless they are let go. The error, if
// not the context's, is of type [brief.Problems].
func Try(ctx context.Context, b *brief.Brief, t Trying) (*Trials, error) {
	m := newMaker(b)
	if err := m.warp(); err != nil {
		return nil, err
	}
	l, d, err := m.trialSource(ctx, t)
	if err != nil {
		return nil, err
	}
	all, err := m.candidates(ctx, l, d)
	if err != nil {
		return nil, err
	}
	var kept []int
	if !t.drawnAsAllowed(b) {
		kept = l.vary.Colours
	}
	all = t.steered(all, kept, d)
	measured, err := d.distances(ctx, all)
	if err != nil {
		return nil, err
	}
	order, err := (&choose.Candidates{Size: len(all), Between: measured.difference,
		Families: byKind(all)}).Spread(ctx, t.Count+spareTrials)
	if err != nil {
		return nil, err
	}
	sheet := &Trials{Title: b.Title, Seed: b.Seed, Warp: t.Warp, Piece: b.Pieces[t.Piece].Name}
	var at []int
	for _, c := range order {
		if len(at) == t.Count {
			break
		}
		trial, err := m.trial(ctx, t, all[c])
		if problems := (brief.Problems)(nil); errors.As(err, &problems) {
			continue // it would float too far; another is as good
		} else if err != nil {
			return nil, err
		}
		trial.Number = len(at) + 1
		sheet.Cells, at = append(sheet.Cells, trial), append(at, c)
	}
	if len(at) == 0 {
		return nil, b.Wrong(-1, "no rhythm can be tried on this", t.wanting(), "weft", "warp")
	}
	sheet.arrange(func(a, b int) int64 { return measured.difference(at[a], at[b]) })
	return sheet, nil
}

// byKind divides candidates by the kind of their rhythm.
func byKind(all []candidate) [][]int {
	names := sequence.KindNames()
	kinds := make([][]int, len(names))
	for i, c := range all {
		k := slices.Index(names, c.rule.Rhythm.Spec().Name)
		kinds[k] = append(kinds[k], i)
	}
	return kinds
}

// spareTrials are tried in place of those that can't be woven.
const spareTrials = 12

// triedCandidates is how many are drawn where the brief does not say.
const triedCandidates = 2000

// trialSource is what trials are drawn from, and what tells them apart.
func (m *maker) trialSource(ctx context.Context, t Trying) (source, *differ, error) {
	if !t.Warp {
		return m.pieceSource(t.Piece, t.Steering)
	}
	weft, err := m.weftToShow(ctx, t.Piece)
	if err != nil {
		return source{}, nil, err
	}
	rule := m.b.Warp.Rule
	colours := rule.Colours
	if len(colours) == 0 {
		colours = patternColours(m.warpRuns)
	}
	v := m.triedVary(colours, t.Steering)
	if t.LetColoursGo {
		v.PerPiece[0] = min(2, len(v.Colours))
	}
	d := newDiffer(m.look, weft)
	d.across = true
	return source{base: rule, vary: v, in: m.groundIn(t.Piece), units: units(m.warpRuns),
		most:  m.widest(),
		piece: -1, stream: candidateStream}, d, nil
}

func (m *maker) pieceSource(i int, s Steering) (source, *differ, error) {
	n, err := m.pieceUnits(i)
	if err != nil {
		return source{}, nil, err
	}
	weft := m.b.Pieces[i].Weft
	v := m.triedVary(ownColours(weft), s)
	if given := m.b.Vary; given != nil && (m.b.Pieces[i].Open || s.LetColoursGo) {
		allowed := *given
		if v = &allowed; len(s.Kinds) > 0 {
			v.Rhythms = s.Kinds
		}
	}
	l := m.sourceOf(v, n)
	l.in, l.base.Blocks, l.base.Middle, l.piece = m.groundIn(i), weft.Rule.Blocks,
		weft.Rule.Middle, i
	return l, newDiffer(m.look, m.warpRuns), nil
}

// ownColours are the pattern colours of a piece: those its runs are written in,
// or those its rule names or takes over from [weft].
func ownColours(weft brief.Weft) []int {
	if colours := patternColours(weft.Runs); len(colours) > 0 {
		return colours
	}
	return weft.Rule.Colours
}

// pieceUnits is the units of a piece: those of its runs where nothing else
// sets its length.
func (m *maker) pieceUnits(i int) (int, error) {
	if m.b.Set.Length == nil && m.b.Set.Woven == nil {
		return units(m.b.Pieces[i].Weft.Runs), nil
	}
	return m.checkedBody(i)
}

// triedVary is what trials are drawn from where no [vary] says: all rhythms, in these
// colours, all of them; where they are let go, in any of their yarn.
func (m *maker) triedVary(colours []int, s Steering) *brief.Vary {
	colours = slices.Clone(colours)
	if s.LetColoursGo {
		colours = append(colours, m.sameYarn(colours)...)
	}
	slices.Sort(colours)
	colours = slices.Compact(colours)
	v := &brief.Vary{Candidates: triedCandidates, Colours: colours,
		PerPiece: [2]int{len(colours), len(colours)},
		Rhythms:  sequence.KindNames(), Kinship: brief.NoKinship}
	if s.LetColoursGo {
		v.PerPiece = [2]int{1, min(3, len(colours))}
	}
	if len(s.Kinds) > 0 {
		v.Rhythms = s.Kinds
	}
	return v
}

// sameYarn are all colours of the yarns that some are of.
func (m *maker) sameYarn(colours []int) (all []int) {
	for i, c := range m.b.Colours {
		of := func(other int) bool { return m.b.Colours[other].Yarn == c.Yarn }
		if slices.ContainsFunc(colours, of) {
			all = append(all, i)
		}
	}
	return all
}

// drawnAsAllowed tells whether trials take what colours [vary] allows, or any of the
// yarn, and not all of those there are.
func (t Trying) drawnAsAllowed(b *brief.Brief) bool {
	return t.LetColoursGo || !t.Warp && b.Vary != nil && b.Pieces[t.Piece].Open
}

// wanting is what would let something be tried.
func (t Trying) wanting() string {
	s := t.Steering
	if len(s.Kinds) > 0 || s.Fewest > 0 || s.Most > 0 || s.Bold > 0 || s.Calm > 0 {
		return "ask for less: other kinds, more or fewer stripes, not as bold, not as calm"
	}
	return "name more colours, or make the piece larger"
}

// weftToShow is the runs of the piece that is shown with a warp.
func (m *maker) weftToShow(ctx context.Context, i int) ([]brief.Run, error) {
	piece := m.b.Pieces[i]
	if m.b.Vary != nil && piece.Open {
		if err := m.vary(ctx); err != nil {
			return nil, err
		}
		piece = m.b.Pieces[i]
	}
	return m.decidePiece(i, piece)
}

// trial plans the one piece with a candidate.
func (m *maker) trial(ctx context.Context, t Trying, c candidate) (Trial, error) {
	b := *m.b
	piece := b.Pieces[t.Piece]
	if t.Warp {
		b.Warp.Rule, b.Warp.Runs = c.rule, nil
		if b.Set.Width == nil && b.Set.InReed == nil {
			b.Warp.Runs = c.runs
		}
		piece.Weft.Runs = m.runsOf(t.Piece)
	} else {
		piece.Weft.Rule, piece.Weft.Runs = c.rule, c.runs
	}
	b.Vary, b.Set.Pieces, b.Pieces = nil, 1, []brief.Piece{piece}
	p, err := Make(ctx, &b)
	if err != nil {
		return Trial{}, err
	}
	trial := Trial{Plan: p, Rhythm: m.ruleInWords(c.rule), candidate: c}
	for _, seed := range []*int64{c.rule.Rhythm.Seed, c.rule.Seed} {
		if seed != nil {
			trial.Seeds = append(trial.Seeds, *seed)
		}
	}
	if at := Faintest(p.Pieces[0].Contrast, look.DecisiveM); at != nil {
		trial.Worst = *at
	}
	return trial, nil
}

// arrange puts the trials on the sheet, row by row in the order of their numbers.
func (s *Trials) arrange(between func(a, b int) int64) {
	n := len(s.Cells)
	s.Rows = 1
	for 8*s.Rows*(s.Rows+1) < 3*n { // about three rows of eight
		s.Rows++
	}
	columns := s.Columns()
	for i := range s.Cells {
		c := &s.Cells[i]
		c.Right, c.Below = -1, -1
		if i+1 < n && (i+1)%columns != 0 {
			c.Right = inDeltaE(between(i, i+1))
		}
		if i+columns < n {
			c.Below = inDeltaE(between(i, i+columns))
		}
	}
}

// Columns is how many trials stand in a row.
func (s *Trials) Columns() int { return (len(s.Cells) + s.Rows - 1) / s.Rows }

// ruledOut are the keys of a rule that runs beside them put out of force, but for the
// colours, of which more trials are made.
var ruledOut = []string{"rhythm", "order", "shares", "blocks", "first", "seed"}

// Keep gives the keys of a [[piece]] or [warp] table that make a trial's choice:
// its rule, or its runs written out, the rule they take the place of then being a
// comment. It fails where there is no such number.
func (s *Trials) Keep(b *brief.Brief, number int, asRuns bool) ([]Setting, error) {
	for _, t := range s.Cells {
		if t.Number != number {
			continue
		}
		var keys []Setting
		for _, change := range b.RuleKeys(t.candidate.rule) {
			keys = append(keys, Setting(change))
		}
		if asRuns {
			keys = []Setting{{"chosen", ""}, {"runs", brief.RunList(b.RunTexts(t.candidate.runs))}}
			for _, key := range ruledOut {
				keys = append(keys, Setting(brief.AsComment(key)))
			}
		}
		return keys, nil
	}
	return nil, fmt.Errorf("there is no trial %d: they go from 1 to %d", number, len(s.Cells))
}
