package plan

import (
	"fmt"
	"slices"

	"stripesong/sequence"
	"stripesong/sequence/brief"
)

// More is a change to one piece that sets its sides further apart in light and
// dark, reckoned through.
type More struct {
	// "blocks" exchanged, one block "wider", or another "pattern" colour
	Change string `json:"change"`
	From   string `json:"from"` // the pattern colour that is replaced; else ""
	// the colour in its place, or the block that becomes wider; else ""
	To      string   `json:"to"`
	Times   int      `json:"times"`   // how many times as wide, beside the other; else 0
	Lighter *Lighter `json:"lighter"` // as it would be
}

// What a [More] changes.
const (
	blocksExchanged = "blocks"
	blockWider      = "wider"
	patternColour   = "pattern"
)

// Words is what to do and what comes of it, such as "if A and B changed places: face
// lighter, clear 8.1".
func (o More) Words() string {
	switch o.Change {
	case blocksExchanged:
		return "if blocks A and B changed places in its weft: " + o.Lighter.Words
	case blockWider:
		return fmt.Sprintf("if its stripes of block %s were %d times as long and the others "+
			"shorter, in the same length: %s", o.To, o.Times, o.Lighter.Words)
	}
	return "if " + o.To + " took the place of " + o.From + ": " + o.Lighter.Words
}

// mostOthers is how many other colours of the brief are tried in a piece.
const mostOthers = 24

// moreOf are the changes that give a piece's sides a better grade: its blocks
// exchanged, one of them wider, and the one colour of the brief itself that does
// most, in place of one of its pattern colours.
func (m *maker) moreOf(piece int, now *Lighter) []More {
	more := []More{}
	if now == nil {
		return more
	}
	runs := merged(m.weftRuns[piece])
	if len(m.b.Structure.Blocks) == 2 {
		if l := m.lighterWith(piece, exchanged(runs)); l.better(now) {
			more = append(more, More{Change: blocksExchanged, Lighter: l})
		}
		if o := m.wider(piece, now); o != nil {
			more = append(more, *o)
		}
	}
	if o := m.recolour(piece, runs, now); o != nil {
		more = append(more, *o)
	}
	return more
}

// wider is the least widening of one block that gives the sides a better grade;
// nil where none does.
func (m *maker) wider(piece int, now *Lighter) *More {
	for _, times := range []int{2, 3, 4} {
		for block, letter := range m.b.Structure.Letters() {
			runs := widened(m.weftRuns[piece], block, int64(times))
			if runs == nil {
				continue
			}
			if l := m.lighterWith(piece, merged(runs)); l.better(now) {
				return &More{Change: blockWider, To: letter, Times: times, Lighter: l}
			}
		}
	}
	return nil
}

// recolour is the change of one pattern colour that sets the sides furthest apart,
// if it gives them a better grade; nil where none does.
func (m *maker) recolour(piece int, runs []brief.Run, now *Lighter) *More {
	var best *More
	for _, from := range colours(runs) {
		for _, to := range m.others(runs, from) {
			l := m.lighterWith(piece, recoloured(runs, from, to))
			if l.better(now) && (best == nil || l.DeltaL > best.Lighter.DeltaL) {
				best = &More{Change: patternColour, From: m.b.Colours[from].Name,
					To: m.b.Colours[to].Name, Lighter: l}
			}
		}
	}
	return best
}

// lighterWith is [maker.lighter] of a piece with other runs.
func (m *maker) lighterWith(piece int, runs []brief.Run) *Lighter {
	return lighterOf(m.look.Mixer, m.sidesOf(runs, m.groundIn(piece)))
}

// better tells whether sides are graded higher than others, over all that is left
// open.
func (l *Lighter) better(than *Lighter) bool {
	if l == nil || l.Grade <= than.Grade {
		return false
	}
	return l.Range == nil || than.Range == nil || l.Range.DeltaL[0] > than.Range.DeltaL[0]
}

// exchanged gives each run of the one block the other.
func exchanged(runs []brief.Run) []brief.Run {
	turned := slices.Clone(runs)
	for i, r := range runs {
		if r.Block != none {
			turned[i].Block = 1 - r.Block
		}
	}
	return turned
}

// widened gives the runs of one block so many times their width beside the others,
// in the same number of units; nil where there is no room for that.
func widened(runs []brief.Run, block int, times int64) []brief.Run {
	weights := make([]int64, len(runs))
	for i, r := range runs {
		weights[i] = int64(r.Units)
		if r.Block == block {
			weights[i] *= times
		}
	}
	widths, err := sequence.Share(weights, units(runs), sequence.Limits{})
	if err != nil {
		return nil
	}
	wider := slices.Clone(runs)
	for i, n := range widths {
		wider[i].Units = n
	}
	return wider
}

// recoloured puts one pattern colour in place of another.
func recoloured(runs []brief.Run, from, to int) []brief.Run {
	other := slices.Clone(runs)
	for i, r := range runs {
		if r.Colour == from {
			other[i].Colour = to
		}
	}
	return other
}

// others are the first colours of the brief itself, of the same yarn, that a piece
// does not have.
func (m *maker) others(runs []brief.Run, from int) (others []int) {
	if from == none {
		return nil
	}
	has := colours(runs)
	for i, c := range m.b.Colours {
		if !c.Shelf && c.Yarn == m.b.Colours[from].Yarn && !slices.Contains(has, i) {
			others = append(others, i)
		}
	}
	return others[:min(len(others), mostOthers)]
}
