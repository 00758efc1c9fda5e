package svg

import (
	"fmt"
	"slices"

	"stripesong/palette"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// cloth is one piece as threads: what lies on top at every crossing follows
// from the shaft of the end, the shed of the pick and the side looked at.
type cloth struct {
	inks  []palette.RGB // by the numbers used below
	ends  []warpEnd
	picks []weftPick // first woven first
	spans []span     // neighbouring picks of one kind, first woven first
	unit  int        // ends in a threading unit
}

// warpEnd is one warp end.
type warpEnd struct {
	shaft  int
	colour uint8
}

// weftPick is one pick.
type weftPick struct {
	shed   weave.Shed
	colour uint8
}

// span is neighbouring picks that repeat one unit: a hem, what stays in sight
// beside it, or a run of the body.
type span struct {
	from, count int // picks
	unit        int // picks after which the span repeats
	block       string
	pattern     uint8
	ground      uint8
	hem         bool // of the hem's yarn, as close as hems
	show        bool // and in sight
	upper       bool // after the body
	run         int  // index of the piece's run; -1 for a hem
}

// clothOf reads piece i of a plan as threads.
func clothOf(p *plan.Plan, i int) (*cloth, error) {
	if i < 0 || i >= len(p.Pieces) {
		return nil, fmt.Errorf("no piece %d: the plan has %d", i+1, len(p.Pieces))
	}
	if p.Weave == nil {
		return nil, fmt.Errorf("the plan of %q carries no structure", p.Title)
	}
	numbers, inks, err := numberColours(p)
	if err != nil {
		return nil, err
	}
	c := &cloth{inks: inks, unit: p.Weave.UnitEnds()}
	if c.ends, err = endsOf(p, numbers); err != nil {
		return nil, err
	}
	if err = c.weave(p.InOrder(p.Pieces[i].PickOrder), &p.Pieces[i], numbers); err != nil {
		return nil, err
	}
	return c, nil
}

// colourNumbers gives each colour name its place in the plan's list.
type colourNumbers map[string]uint8

// of is the number of a colour that the plan must know.
func (n colourNumbers) of(name string) (uint8, error) {
	if i, ok := n[name]; ok {
		return i, nil
	}
	return 0, fmt.Errorf("the plan has no colour %q", name)
}

func numberColours(p *plan.Plan) (colourNumbers, []palette.RGB, error) {
	if len(p.Colours) > 256 {
		return nil, nil, fmt.Errorf("%d colours are more than a picture can hold: 256",
			len(p.Colours))
	}
	numbers, inks := colourNumbers{}, make([]palette.RGB, len(p.Colours))
	for i, c := range p.Colours {
		numbers[c.Name], inks[i] = uint8(i), c.RGB
	}
	return numbers, inks, nil
}

// endsOf threads the warp; floating selvedges are left out.
func endsOf(p *plan.Plan, numbers colourNumbers) ([]warpEnd, error) {
	ends := make([]warpEnd, 0, p.Warp.Ends)
	strips := make([]weave.Strip, len(p.Warp.Runs))
	for i, run := range p.Warp.Runs {
		strips[i] = weave.Strip{Block: run.Block, Units: run.Units}
		colour, err := numbers.of(run.Colour)
		if err != nil {
			return nil, err
		}
		for range run.Ends {
			ends = append(ends, warpEnd{colour: colour})
		}
	}
	shafts := p.Weave.Threading(strips)
	if len(shafts) != len(ends) || len(ends) == 0 {
		return nil, fmt.Errorf("the warp has %d ends and the threading %d", len(ends), len(shafts))
	}
	for i, shaft := range shafts {
		ends[i].shaft = shaft
	}
	return ends, nil
}

// weave lays the picks of a piece and divides them into spans.
func (c *cloth) weave(s *weave.Structure, piece *plan.Piece, numbers colourNumbers) error {
	if err := c.findSpans(s, piece, numbers); err != nil {
		return err
	}
	last := c.spans[len(c.spans)-1]
	if n := last.from + last.count; n != piece.Picks {
		return fmt.Errorf("piece %q has %d picks and its runs %d", piece.Name, piece.Picks, n)
	}
	c.picks = make([]weftPick, 0, piece.Picks)
	for _, span := range c.spans {
		unit := span.picks(s)
		for j := range span.count {
			pick := weftPick{unit[j%len(unit)].Shed, span.ground}
			if unit[j%len(unit)].Pattern {
				pick.colour = span.pattern
			}
			c.picks = append(c.picks, pick)
		}
	}
	return nil
}

// picks is the picks that a span repeats.
func (s span) picks(structure *weave.Structure) []weave.Woven {
	if s.hem {
		return structure.Picks(2, nil)[:2]
	}
	return structure.UnitPicks(s.block)
}

// findSpans finds the spans of a piece: hem, what shows of it, runs, and the same the
// other way round.
func (c *cloth) findSpans(s *weave.Structure, piece *plan.Piece, numbers colourNumbers) error {
	hem, err := numbers.of(piece.Hem)
	if err != nil && piece.EndPicks() > 0 {
		return err
	}
	end := span{unit: 2, ground: hem, hem: true, run: -1}
	at := c.plain(0, end, piece.HemPicks, piece.ShowPicks)
	for i, run := range piece.Runs {
		next := span{from: at, count: run.PatternPicks + run.GroundPicks, block: run.Block, run: i}
		next.unit = max(1, len(s.UnitPicks(run.Block)))
		if next.ground, err = numbers.of(run.Ground); err != nil {
			return err
		}
		if run.Block != "" {
			if next.pattern, err = numbers.of(run.Pattern); err != nil {
				return err
			}
		}
		c.span(next)
		at += next.count
	}
	end.upper = true
	if c.plain(at, end, piece.HemPicks, piece.ShowPicks) == 0 {
		return fmt.Errorf("piece %q has no picks", piece.Name)
	}
	return nil
}

// plain adds a hem and what stays in sight beside it, from a pick on, and gives
// the pick after them.
func (c *cloth) plain(at int, end span, hem, show int) int {
	parts := []span{end, end}
	parts[0].count = hem
	parts[1].count, parts[1].show = show, true
	if end.upper {
		slices.Reverse(parts)
	}
	for _, part := range parts {
		part.from = at
		c.span(part)
		at += part.count
	}
	return at
}

// span adds a span that has any picks.
func (c *cloth) span(s span) {
	if s.count > 0 {
		c.spans = append(c.spans, s)
	}
}

// weftOnTop tells whether the weft lies on top where a pick crosses an end.
func (c *cloth) weftOnTop(pick, end int, back bool) bool {
	return c.picks[pick].shed.Covers(c.ends[end].shaft) != back
}

// column is the end seen at a place counted from the left: the back is the
// cloth turned over sideways.
func (c *cloth) column(x int, back bool) int {
	if back {
		return len(c.ends) - 1 - x
	}
	return x
}

// top is the colour of the thread on top at column x of a pick.
func (c *cloth) top(pick, x int, back bool) uint8 {
	e := c.column(x, back)
	if c.weftOnTop(pick, e, back) {
		return c.picks[pick].colour
	}
	return c.ends[e].colour
}
