package packet

import (
	"fmt"
	"html/template"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/plan"
	"stripesong/svg"
)

// sheds is how each shed is opened: by treadles that are tied up, or by levers.
type sheds struct {
	Levers bool   // or treadles that are tied to one shaft each
	Direct bool   // these
	Moves  string // what a square of the tie-up, or a list of shafts, means
	Opener string // what lists call what opens a shed
	Verb   string // what levers do to shafts
	TieUp  template.HTML
	Raises bool // the table of treadles says what each raises
	Lowers bool // and what it lowers
	Ties   []tied
	Lifts  []lift
	Units  []unitRow
	Draft  template.HTML
}

// lift is a shed of a loom with levers.
type lift struct{ Shed, Shafts string }

// tied is a treadle in words.
type tied struct {
	Treadle              int
	Shed, Raises, Lowers string
}

// unitRow is the picks of one weft unit.
type unitRow struct {
	Block string
	Picks []opened
}

// opened is one pick: its shuttle, and the treadle or the shafts of its shed.
type opened struct{ Shuttle, Shed string }

// levers tells whether sheds are opened shaft by shaft, be it by treadles.
func (m *maker) levers() bool { return m.Loom.ByShaft() }

func (m *maker) sheds() sheds {
	s := sheds{Levers: m.levers(), Direct: m.Loom.Direct(), Moves: m.moves(),
		Draft: m.plan(svg.Draft), Opener: m.opener(), Verb: "Raise"}
	if m.Loom.Shed == "sinking" {
		s.Verb = "Lower"
	}
	if s.Levers {
		for _, t := range m.tie.Treadles {
			s.Lifts = append(s.Lifts, lift{shedName(t), spaced(t.Shafts())})
		}
	} else {
		s.TieUp, s.Ties = m.plan(svg.TieUp), m.ties()
		s.Raises, s.Lowers = m.Loom.Shed != "sinking", m.Loom.Shed != "rising"
	}
	for _, b := range m.tie.Blocks {
		s.Units = append(s.Units, m.unitRow(b))
	}
	return s
}

// moves says which way shafts move.
func (m *maker) moves() string {
	switch {
	case m.Loom.Direct() && m.Loom.Shed == "sinking":
		return "Press the treadles of these shafts together: they sink, all others stay up."
	case m.Loom.Direct():
		return "Press the treadles of these shafts together: they rise, all others stay down."
	case m.levers():
		return map[string]string{
			"rising":  "Raise these shafts; all others stay down.",
			"sinking": "Lower these shafts; all others stay up.",
			"both":    "Raise these shafts; all others sink.",
		}[m.Loom.Shed]
	}
	return map[string]string{
		"rising":  "For a rising shed: a black square is a shaft that this treadle raises.",
		"sinking": "For a sinking shed: a black square is a shaft that this treadle lowers.",
		"both": "For a loom on which shafts that are not tied to rise are tied to sink: " +
			"o in a black square is a shaft that this treadle raises, " +
			"x in a white square one that it lowers. Every shaft is tied to every treadle used.",
	}[m.Loom.Shed]
}

func shedName(t loomwork.Treadle) string {
	if t.Tabby {
		return "tabby " + t.Name
	}
	return "block " + t.Name
}

func (m *maker) unitRow(b loomwork.BlockTread) unitRow {
	row := unitRow{Block: "plain"}
	if b.Block != "" {
		row.Block = "block " + b.Block
	}
	if b.Order != "" {
		row.Block += ", in " + m.piecesIn(b.Order)
	}
	for _, p := range b.Picks {
		shuttle := "ground"
		if p.Pattern {
			shuttle = "pattern"
		}
		shed := fmt.Sprintf("%d (%s)", p.Treadle, p.Name)
		if m.levers() {
			shed = m.opens(p.Treadle)
		}
		row.Picks = append(row.Picks, opened{shuttle, shed})
	}
	return row
}

// opens is what opens a shed: its treadle, or the shafts its levers move.
func (m *maker) opens(treadle int) string {
	if m.levers() {
		return spaced(m.tie.Treadle(treadle).Shafts())
	}
	return fmt.Sprint(treadle)
}

// openers are the treadles of some picks, or their shafts pick by pick.
func (m *maker) openers(treadles []int) string {
	between := " "
	if m.levers() {
		between = ", "
	}
	var words []string
	for _, t := range treadles {
		words = append(words, m.opens(t))
	}
	return strings.Join(words, between)
}

// piecesIn names the pieces of an order of picks by their numbers.
func (m *maker) piecesIn(order string) string {
	var numbers []string
	for i, p := range m.Pieces {
		if p.PickOrder == order {
			numbers = append(numbers, fmt.Sprint(i+1))
		}
	}
	if len(numbers) == 1 {
		return "piece " + numbers[0]
	}
	return "pieces " + plan.List(numbers)
}

// treads is what opens the sheds of one unit, in a word.
func (m *maker) treads(block, order string) string {
	var treadles []int
	for _, b := range m.tie.Blocks {
		if b.Block == block && b.Order == order {
			for _, p := range b.Picks {
				treadles = append(treadles, p.Treadle)
			}
		}
	}
	return m.openers(treadles)
}

// tabbies is what opens the two tabby sheds, in a word.
func (m *maker) tabbies() string {
	var treadles []int
	for _, t := range m.tie.Treadles {
		if t.Tabby {
			treadles = append(treadles, t.Number)
		}
	}
	return m.openers(treadles)
}

// opener is what the lists of a piece call it.
func (m *maker) opener() string {
	switch {
	case !m.levers():
		return "treadles"
	case m.Loom.Direct():
		return "treadles to press together"
	case m.Loom.Shed == "sinking":
		return "shafts to lower"
	}
	return "shafts to raise"
}

// ties says of each treadle, from the left, which shafts it moves.
func (m *maker) ties() (all []tied) {
	for _, t := range m.tie.Treadles {
		one := tied{Treadle: t.Number, Shed: shedName(t)}
		var rest []int
		for i, moved := range t.Ties {
			if !moved {
				rest = append(rest, i+1)
			}
		}
		one.Raises, one.Lowers = spaced(t.Shafts()), spaced(rest)
		if m.Loom.Shed == "sinking" {
			one.Lowers = one.Raises
		}
		all = append(all, one)
	}
	return all
}
