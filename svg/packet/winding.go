package packet

import (
	"fmt"
	"html/template"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/svg"
)

// winding is the second part.
type winding struct {
	Keep          string
	Length, Woven string
	TakeUp        string // share of the wound warp
	Ends          int
	Bar, Stripes  template.HTML
	MakeUp        []makeUpRow
	Board         string
	Most          int // ends in a bout
	Bouts         []bout
	Divided       string
	Changes       string
	Selvedges     []template.HTML
	Reach         string // from the starting peg to the cross, front to back; else ""
}

// reach is how far from the starting peg the cross lies where the loom is dressed from
// front to back: so much free warp goes from the lease sticks in front of the reed through
// reed and heddles to the back rod (common practice, no source).
func (m *maker) reach() string {
	switch {
	case m.Loom.Dress != "front to back":
		return ""
	case m.Units == "in":
		return "24 in"
	}
	return "60 cm"
}

type makeUpRow struct {
	Number      int
	What, Wound string
}

type bout struct {
	Number int
	Ends   int
	Rows   []stripe
}

type stripe struct {
	Chip     template.HTML
	Block    string
	Ends, To int
	Part     string // where a stripe goes on from the bout before or into the next
	Bout     int
	FirstOf  int // rows of the bout, on its first row; else 0
	BoutEnds int
}

func (m *maker) winding() winding {
	w := winding{Keep: keep("winding", fmt.Sprint(m.Warp, m.Loom.Bout)),
		Length: measure.FormatWarp(m.Warp.WoundMM, m.Units), Woven: m.mm(m.Warp.WovenMM),
		TakeUp: percent(m.Cloth.TakeUp), Ends: m.Warp.Ends,
		Bar: m.plan(svg.MakeUp), Stripes: m.plan(svg.Stripes), Board: m.board(), Most: m.Loom.Bout,
		Divided: m.Warp.Divided(), Changes: m.changes(), MakeUp: m.makeUp(), Reach: m.reach()}
	for i, b := range loomwork.Bouts(m.Plan) {
		w.Bouts = append(w.Bouts, m.bout(i, b))
	}
	if m.Warp.FloatingSelvedgeEnds > 0 {
		runs := m.Warp.Runs
		w.Selvedges = []template.HTML{m.chips[runs[0].Colour], m.chips[runs[len(runs)-1].Colour]}
	}
	return w
}

func (m *maker) makeUp() (all []makeUpRow) {
	words := loomwork.MakeUpWords(m.Plan)
	for i, part := range m.Warp.MakeUp {
		all = append(all, makeUpRow{i + 1, m.partName(part.What, part.Piece), words[i]})
	}
	return all
}

func (m *maker) bout(i int, b loomwork.Bout) bout {
	out := bout{Number: i + 1, Ends: b.Ends()}
	wound := 0
	for k, s := range b.Stripes {
		run := m.Warp.Runs[s.Run]
		wound += s.Ends
		row := stripe{Chip: m.chips[run.Colour], Block: run.Block, Ends: s.Ends, To: s.To,
			Bout: i + 1, BoutEnds: b.Ends()}
		if k == 0 {
			row.FirstOf = len(b.Stripes)
		}
		switch {
		case !s.Begins && !s.Closes:
			row.Part = "a further part of the " + m.stripeWords(s.Run)
		case !s.Begins:
			row.Part = "the rest of the " + m.stripeWords(s.Run)
		case !s.Closes:
			row.Part = "the first part of a " + m.stripeWords(s.Run)
		}
		if s.Closes && run.Closing > 0 {
			row.Part = strings.TrimPrefix(row.Part+", the closing end with it", ", ")
		}
		row.Part = strings.TrimPrefix(row.Part+m.atEndPeg(b, k, wound), "; ")
		out.Rows = append(out.Rows, row)
	}
	return out
}

// stripeWords are how many ends a run has, and its block where the one beside it is of the
// same colour.
func (m *maker) stripeWords(run int) string {
	runs := m.Warp.Runs
	words := fmt.Sprintf("stripe of %d", runs[run].Ends)
	alike := func(i int) bool {
		return i >= 0 && i < len(runs) && runs[i].Colour == runs[run].Colour
	}
	if alike(run-1) || alike(run+1) {
		words += " in block " + runs[run].Block
	}
	return words
}

// atEndPeg says what happens at the end peg after stripe k of a bout, of which so many ends
// are wound by then; "" where the warp is back at the starting peg, or the colour goes on.
func (m *maker) atEndPeg(b loomwork.Bout, k, wound int) string {
	colour := func(k int) string { return m.Warp.Runs[b.Stripes[k].Run].Colour }
	switch {
	case wound%2 == 0:
		return ""
	case k == len(b.Stripes)-1:
		return "; the bout ends at the end peg"
	case colour(k) != colour(k+1):
		return "; change the colour at the end peg"
	}
	return ""
}

func (m *maker) board() string {
	switch spare := m.Loom.BoardMM - m.Warp.WoundMM; {
	case m.Loom.BoardMM == 0:
		return "Lay the guide string round your board first, to see that it holds so much."
	case spare < 0:
		return fmt.Sprintf("The board holds %s, which is %s too short: wind the warp in two "+
			"parts, or plan fewer or shorter pieces.", m.mm(m.Loom.BoardMM), m.mm(-spare))
	default:
		return fmt.Sprintf("The board holds %s: it fits, with %s to spare.", m.mm(m.Loom.BoardMM),
			m.mm(spare))
	}
}

// changes counts where the colour changes.
func (m *maker) changes() string {
	n := 0
	for i, run := range m.Warp.Runs {
		if i > 0 && run.Colour != m.Warp.Runs[i-1].Colour {
			n++
		}
	}
	if n == 0 {
		return "The warp is one colour throughout."
	}
	return fmt.Sprintf("The colour changes %s. Cut and knot at a peg, never on the way: at the "+
		"starting peg, or where an odd number of ends is wound by then at the end peg, as "+
		"the note "+
		"beside it says.",
		times(n))
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return fmt.Sprintf("%d times", n)
}

func (m *maker) partName(what, name string) string {
	switch what {
	case "piece":
		return seen(name)
	case "separators":
		return "separators between pieces"
	case "retie":
		return "tying on again after the sample"
	case "fringe":
		return "fringes"
	case "waste":
		if m.Midway != nil {
			return "loom waste: what can't be woven at the end"
		}
		return "loom waste: tying on, and what can't be woven at the end"
	}
	return what
}
