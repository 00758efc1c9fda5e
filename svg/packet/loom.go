package packet

import (
	"fmt"
	"html/template"
	"slices"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/svg"
)

// loom is the third part.
type loom struct {
	Keep         string
	No           int
	OnLoom       bool // the warp is: only its sheds are told
	Sley         []fact
	NoReed       bool
	Sett         string
	ManyInDent   bool // more than one end
	SleyNote     string
	Selvedges    bool
	Heddles      []heddleRow
	HeddlesTotal string
	Units        template.HTML
	Threading    []threadRow
	Sheds        sheds
	WidthMM      string
	Dressing     dressing
	From         string // the edge at which threading begins
	FromRight    bool
	Bundle       string   // how wide one is that is tied on
	Weights      string   // on a floating selvedge
	Closing      *closing // nil without a closing end
}

// closing is where the closing end is.
type closing struct {
	Run, Shaft int
	Turned     bool // the units beyond it are turned round
}

type fact struct{ Name, Value string }

// heddleRow is a shaft: what it needs, and what it has, "" where the brief does
// not say.
type heddleRow struct {
	Shaft, Ends int
	Has         string
}

type threadRow struct {
	Run           int
	Chip          template.HTML
	Block, Shafts string
	Units, Ends   int
	From, To      int
	After         string // the running count, unit by unit
	Heddles       string // it takes, by shaft
	Closing       int    // shaft of the closing end, where the stripe has it; else 0
}

func (m *maker) loom() loom {
	l := loom{No: m.parts().Loom, OnLoom: m.Midway != nil,
		Keep:      keep("loom", fmt.Sprint(m.Warp.Runs, m.Loom)),
		Selvedges: m.Warp.FloatingSelvedgeEnds > 0, WidthMM: m.mm(m.Warp.ReedWidthMM),
		Units: m.plan(svg.Units), Sheds: m.sheds(), HeddlesTotal: m.heddles(),
		Dressing: m.dressing(),
		From:     m.Loom.ThreadFrom, FromRight: m.Loom.ThreadFrom == "right",
		Bundle: m.bundle(), Weights: "50 to 100 g"}
	if m.Units == "in" {
		l.Weights = "2 to 4 oz"
	}
	l.Sley, l.SleyNote = m.sley()
	l.NoReed, l.Sett = l.Sley == nil, measure.FormatDensity(m.Warp.SettPerCM/10, m.Units)
	l.ManyInDent = l.NoReed || slices.Max(m.Loom.Sleying) > 1
	for i, n := range m.Warp.Heddles {
		l.Heddles = append(l.Heddles, heddleRow{i + 1, n, m.shaftHas(i, n)})
	}
	for _, t := range loomwork.ThreadingOf(m.Plan) {
		if t.Closing > 0 {
			l.Closing = &closing{t.Run + 1, t.Closing, m.Warp.Runs[len(m.Warp.Runs)-1].Turned}
		}
		l.Threading = append(l.Threading,
			threadRow{Run: t.Run + 1, Chip: m.chips[t.Colour], Block: t.Block,
				Shafts: spaced(t.Shafts),
				Units:  t.Units, Ends: t.Ends, From: t.From, To: t.To, After: spaced(t.After),
				Heddles: heddlesOf(t), Closing: t.Closing})
	}
	return l
}

func spaced(n []int) string { return strings.Trim(fmt.Sprint(n), "[]") }

// heddlesOf is what a stripe takes of each shaft: "1: 12, 2: 24, 3: 12".
func heddlesOf(t loomwork.Threading) string {
	var words []string
	for i, n := range t.Heddles {
		if n > 0 {
			words = append(words, fmt.Sprintf("%d: %d", i+1, n))
		}
	}
	return strings.Join(words, ", ")
}

// shaftHas holds the heddles of one shaft against what it needs.
func (m *maker) shaftHas(shaft, needs int) string {
	if shaft >= len(m.Loom.HeddlesBy) {
		return ""
	}
	has := m.Loom.HeddlesBy[shaft]
	if has < needs {
		return fmt.Sprintf("%d: add %d", has, needs-has)
	}
	return fmt.Sprintf("%d: %d stay empty", has, has-needs)
}

func (m *maker) heddles() string {
	needed := 0
	for _, n := range m.Warp.Heddles {
		needed += n
	}
	switch have := m.Loom.Heddles; {
	case have == 0:
		return fmt.Sprintf("%d in all. Count what the loom has, shaft by shaft, and add or move "+
			"what is missing before the warp comes on the loom.", needed)
	case have < needed:
		return fmt.Sprintf("%d in all, and the loom has %d: add %d before the warp comes on the "+
			"loom.", needed, have, needed-have)
	default:
		return fmt.Sprintf("%d in all, and the loom has %d: %d stay empty. Move them to the "+
			"shafts that need them before the warp comes on the loom.", needed, have, have-needed)
	}
}

// sley is the sleying as facts, and what is odd about it; nil without a reed.
func (m *maker) sley() ([]fact, string) {
	s := loomwork.SleyingOf(m.Plan)
	if s == nil {
		return nil, ""
	}
	facts := []fact{
		{"Reed", seen(m.Loom.Reed) + " dents"},
		{"Ends in each dent", sleyWords(s)},
		{"That gives", fmt.Sprintf("%s (planned: %s)", measure.FormatDensity(s.PerCM/10, m.Units),
			measure.FormatDensity(m.Warp.SettPerCM/10, m.Units))},
		{"Dents filled", fmt.Sprintf("%d, which is %s", s.Dents, m.mm(s.WidthMM))},
		{"To centre the warp",
			fmt.Sprintf("from the middle of the reed count %d dents to the left; the first end "+
				"goes into the last one counted", s.FromMiddle)},
	}
	later := "through no heddle; they come last"
	if s.First > 0 {
		facts = append(facts,
			fact{"In a reed as wide as the loom",
				fmt.Sprintf("%d dents: the warp begins in dent %d and ends in dent %d", s.InReed,
					s.First, s.Final)})
		if s.Selvedges {
			facts = append(facts,
				fact{"Floating selvedges",
					fmt.Sprintf("one end in dent %d and one in dent %d, %s", s.First-1, s.Final+1,
						later)})
		}
	} else if s.Selvedges {
		facts = append(facts,
			fact{"Floating selvedges", "one end in the next dent at each side, " + later})
	}
	if s.Irregular() {
		return facts, fmt.Sprintf("The last dent holds %s: the count breaks off there.",
			measure.Count(s.Last, "end"))
	}
	return facts, ""
}

func sleyWords(s *loomwork.Sleying) string {
	if len(s.Repeat) == 1 {
		return fmt.Sprintf("%d in every dent", s.Repeat[0])
	}
	return strings.ReplaceAll(spaced(s.Repeat), " ", "-") + ", over and over"
}
