package packet_test

import (
	"fmt"
	"slices"
	"strings"
)

// looms is how the loom is tied up and trodden.
type looms struct {
	shafts int
	levers bool
	told   string          // of the loom on the first page
	sheds  map[string]shed // by treadle, or by the shafts its levers move
	opens  map[string]string
	tabby  [2]string // what opens a and b
	units  []unit
}

// shed is the shafts that are up: under their ends passes the weft.
type shed map[int]bool

// unit is the picks of one weft unit, as some of the pieces have them: all others where
// none are named.
type unit struct {
	block  string
	pieces []int
	picks  []throw
}

// throw is one pick: from which shuttle, into what.
type throw struct {
	pattern bool
	shed    string
}

func (w *weaver) tieUp() {
	w.loom.sheds, w.loom.opens = map[string]shed{}, map[string]string{}
	lifts := func(b block) bool { return b.level > 0 && b.text == "Lifts" }
	w.loom.levers = slices.ContainsFunc(w.blocks, lifts)
	if w.loom.levers {
		w.lifts()
		return
	}
	t := w.tableWith(w.under("Tie-up"), "Treadle")
	w.treadlesTold(t.rows)
	raises, lowers := t.column("Raises"), t.column("Lowers")
	for _, row := range t.rows {
		up := shed{}
		switch {
		case raises >= 0:
			up = w.moved(row[raises], true)
		case lowers >= 0:
			up = w.moved(row[lowers], false)
		default:
			w.doubt("do treadles raise shafts or lower them?")
		}
		if raises >= 0 && lowers >= 0 {
			w.check(same(up, w.moved(row[lowers], false)),
				"treadle %s raises %s and lowers %s", row[0], row[raises], row[lowers])
		}
		w.opened(row[0], row[1], up)
	}
}

// treadlesTold holds the treadles of the first page against those that are tied up.
func (w *weaver) treadlesTold(rows [][]string) {
	var tied []string
	for _, row := range rows {
		tied = append(tied, row[0])
	}
	m := groups(`(\d+) treadles(?:, of which (\d+) are tied \((.*) from the left\))?, `,
		w.loom.told)
	if m == nil {
		w.doubt("how many treadles does %q say?", w.loom.told)
		return
	}
	if m[1] == "" {
		w.check(fmt.Sprint(len(tied)) == m[0] && tied[len(tied)-1] == m[0],
			"treadles %v are tied, and the first page says %s", tied, m[0])
		return
	}
	numbers := strings.Fields(strings.NewReplacer(",", "", " and", "").Replace(m[2]))
	w.check(slices.Equal(numbers, tied) && m[1] == fmt.Sprint(len(tied)) &&
		w.number(m[0]) >= w.number(tied[len(tied)-1]),
		"treadles %v are tied, and the first page says %q", tied, m)
}

// moved is what is up when some shafts are raised, or lowered.
func (w *weaver) moved(words string, raised bool) shed {
	up := shed{}
	if words == "none" {
		words = ""
	}
	named := w.numbers(words)
	for shaft := range w.loom.shafts {
		if slices.Contains(named, shaft+1) == raised {
			up[shaft+1] = true
		}
	}
	return up
}

func same(a, b shed) bool {
	for shaft := range 100 {
		if a[shaft] != b[shaft] {
			return false
		}
	}
	return true
}

func (w *weaver) opened(by, what string, up shed) {
	_, twice := w.loom.sheds[by]
	w.check(!twice, "%q opens two sheds", by)
	w.loom.sheds[by], w.loom.opens[by] = up, what
	for i, name := range []string{"tabby a", "tabby b"} {
		if strings.HasPrefix(what, name) {
			w.loom.tabby[i] = by
		}
	}
}

func (w *weaver) lifts() {
	page := w.under("Lifts")
	raises := w.raises(page)
	for _, row := range w.tableWith(page, "Shed").rows {
		w.opened(row[1], row[0], w.moved(row[1], raises))
	}
}

// raises tells whether the shafts that are named rise: by levers, or by treadles that are
// tied to one each, of which she presses as many as she has feet.
func (w *weaver) raises(page []block) bool {
	tied := func(b block) bool { return b.level > 0 && b.text == "Tie-up" }
	if !slices.ContainsFunc(w.blocks, tied) {
		m := w.said(page, `^(Raise|Lower) these shafts; all others (stay down|stay up|sink)\.$`)
		w.check((m[0] == "Raise") != (m[1] == "stay up"), "%v", m)
		return m[0] == "Raise"
	}
	w.said(w.under("Tie-up"),
		`^Tie each treadle to one shaft alone, treadle 1 to shaft 1 and so on`)
	m := w.said(page, `^Press the treadles of these shafts together: they (rise|sink), all `+
		`others stay (down|up)\.$`)
	w.check((m[0] == "rise") == (m[1] == "down"), "%v", m)
	for _, row := range w.tableWith(page, "Shed").rows {
		w.check(len(w.numbers(row[1])) <= 2 || w.loom.shafts > 4, "%s: she has two feet", row[1])
	}
	return m[0] == "rise"
}

// treadling reads the picks of each unit.
func (w *weaver) treadling() {
	heading := "Treadling of one unit"
	if w.loom.levers {
		heading = "Lifts of one unit"
	}
	for _, row := range w.tableWith(w.under(heading), "To weave").rows {
		m := groups(`^(block [A-Z]|plain)(?:, in pieces? (.*))?$`, row[0])
		if m == nil {
			w.doubt("what is %q?", row[0])
			continue
		}
		u := unit{block: m[0]}
		u.pieces = w.numbers(strings.NewReplacer(",", "", " and", "").Replace(m[1]))
		for _, words := range strings.Split(row[1], ", ") {
			u.picks = append(u.picks, w.throw(words))
		}
		w.loom.units = append(w.loom.units, u)
	}
}

// throw reads "pattern 1 (A)", or for levers "pattern 3 4".
func (w *weaver) throw(words string) throw {
	shuttle, shed, _ := strings.Cut(words, " ")
	w.check(shuttle == "pattern" || shuttle == "ground", "which shuttle is %q?", words)
	if !w.loom.levers {
		m := groups(`^(\d+) \((.*)\)$`, shed)
		if m == nil {
			w.doubt("which treadle is %q?", words)
			return throw{}
		}
		shed = m[0]
		_, name, _ := strings.Cut(w.loom.opens[shed], " ")
		w.check(name == m[1], "treadle %s opens %s, and not %s", shed, name, m[1])
	}
	_, known := w.loom.sheds[shed]
	w.check(known, "nothing opens %q", words)
	return throw{shuttle == "pattern", shed}
}

// unitOf is how a unit of a block is woven in a piece, 0 being the sample.
func (w *weaver) unitOf(block string, piece int) []throw {
	var general []throw
	for _, u := range w.loom.units {
		switch {
		case u.block != block:
		case slices.Contains(u.pieces, piece):
			return u.picks
		case u.pieces == nil:
			general = u.picks
		}
	}
	w.check(general != nil, "how is %s woven in piece %d?", block, piece)
	return general
}

// treads are what opens the sheds of a step, as its list has it.
func (w *weaver) treads(words string) []string {
	if w.loom.levers {
		return strings.Split(words, ", ")
	}
	return strings.Fields(words)
}
