package packet

import (
	"fmt"
	"html/template"
	"io"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/svg"
)

// before is what is woven before the first piece.
type before struct {
	Keep   string
	Sample string
	Kept   bool // the sample stays on the loom

	Selvedges bool   // floating ones
	From      string // the edge at which threading begins
	Carry     string // the longest way up the edge
	Plain     string // what is woven in plain tabby: "hems and separators"; "" for nothing
	Fringe    fringe // none where its Bare is ""
	Time      string // of all pieces; "" where the brief has no pace
	Pace      int
	Proof     template.HTML
	OnLoom    bool // nothing is begun any more
}

func (m *maker) before() before {
	b := before{Keep: keep("before", m.mm(m.Cloth.SampleMM)), Proof: m.proof,
		OnLoom: m.Midway != nil, Carry: fmt.Sprintf("%d mm", loomwork.CarryMM),
		Selvedges: m.Warp.FloatingSelvedgeEnds > 0, From: m.Loom.ThreadFrom}
	if m.Units == "in" {
		b.Carry = "1 in"
	}
	b.Plain, b.Fringe = sentence(m.plainParts(true)), m.fringe()
	if m.Set.Hours > 0 {
		b.Time, b.Pace = measure.FormatTime(m.Set.Hours), m.Loom.Pace
	}
	if m.Cloth.SampleMM > 0 {
		b.Sample, b.Kept = m.mm(m.Plan.Sample.WovenMM), m.sampleStays()
	}
	return b
}

// piece is the sheet of one piece.
type piece struct {
	Keep, ID                string
	Number, Of              int
	Name                    string
	Woven, Finished, Rhythm string
	Beat                    string // how close the picks lie
	Picks, HemPicks         int
	Order                   string // of picks, where it is the piece's own
	Time                    string // an estimate; "" where the brief has no pace
	Show                    int    // picks beside each hem that stay in sight
	Colours                 template.HTML
	Separator               template.HTML // the colour of that after it; "" for none
	Strand                  string        // of how many strands it is, where others are of more
	Mark                    string        // where the next piece begins without a separator
	Handling                string        // how many shuttles, changes of colour and tails
	Noted                   noted
	Lists                   []listPage
	Pages                   []tapePage
	Proof                   template.HTML
	Joins                   string
}

// tapePage is as many strips as stand side by side on a page.
type tapePage struct {
	Number, Of int
	Strips     []template.HTML
}

type step struct {
	Number          int
	Head            string
	Treadles        string
	Pattern, Ground template.HTML
	Picks, SoFar    string
	Both            string // so far, pattern and ground; "" where there is only ground
	Woven           string
	Shuttles        []string
	Counts          template.HTML // boxes to tick, one for each ten
	Boxes           int           // how many these are
	Name            string        // for those who hear the page
	Unit            string        // what counts count
	Part            bool          // of the piece; separators and fringes are not
	Beside          string        // what stands in place of so far, where it is not
}

func (m *maker) pieces() (all []piece) {
	for i, p := range m.Pieces {
		if m.IsWoven(i) {
			continue
		}
		steps := loomwork.StepsOf(m.Plan, i)
		sheet := piece{ID: fmt.Sprintf("piece-%d", i+1), Number: i + 1, Of: len(m.Pieces),
			Name: seen(p.Name), Woven: m.mm(p.WovenMM), Finished: m.mm(p.FinishedMM),
			Rhythm: seen(p.Rhythm), Picks: p.Picks, HemPicks: p.HemPicks, Show: p.ShowPicks,
			Order: p.PickOrder, Beat: m.pieceBeat(p)}
		if p.Hours > 0 {
			sheet.Time = measure.FormatTime(p.Hours)
		}
		sheet.Mark = m.mark(i)
		rows := m.rows(steps, m.groundBeat(m.UnitMM(&p), p.PickOrder))
		sheet.Keep = keepSteps(sheet.ID, rows)
		sheet.Colours, sheet.Handling = listed(m.used(steps), ""), handling(steps)
		if p.SeparatorPick > 0 {
			sheet.Separator, sheet.Strand = m.chips[p.Separator], m.oneStrand()
		}
		sheet.Noted = m.noted(i, rows)
		sheet.Lists, _ = m.lists(i, sheet.headMM(namesOf(steps)), steps, rows)
		m.tape(&sheet, i)
		all = append(all, sheet)
	}
	return all
}

// mark says how the next piece is told from this one, where there is neither a
// separator nor bare warp between them.
func (m *maker) mark(i int) string {
	if i == len(m.Pieces)-1 || m.Pieces[i].SeparatorPick > 0 || m.Cloth.FringeMM > 0 {
		return ""
	}
	return "No separator follows: after the last pick mark both edges with a thread, to cut " +
		"along, and begin the next piece."
}

// keepSteps names what the ticks of a piece are kept under: all that is to be
// woven, so that its name may change.
func keepSteps(id string, steps []step) string {
	var all []string
	for _, s := range steps {
		all = append(all, s.Head, s.Picks, string(s.Pattern), string(s.Ground))
	}
	return keep(id, all...)
}

// handling says what a piece asks of the hands, before it is begun.
func handling(steps []loomwork.Step) string {
	h := loomwork.HandlingOf(steps)
	words := measure.Count(h.Shuttles, "shuttle")
	if h.Changes > 0 {
		words += ", " + measure.Count(h.Changes, "change") + " of pattern colour"
	}
	words = fmt.Sprintf("%s, %s to turn in", words, measure.Count(h.Tails, "tail"))
	if h.Stitched > 0 {
		words += fmt.Sprintf(", %d to hemstitch with", h.Stitched)
	}
	return words
}

// used lists the weft colours of a piece in the order they come in, without its separator.
func (m *maker) used(steps []loomwork.Step) (chips []template.HTML) {
	seen := map[string]bool{}
	for _, s := range steps {
		if s.Kind == loomwork.Separator {
			continue
		}
		for _, use := range s.Shuttles {
			if !seen[use.Colour] {
				seen[use.Colour] = true
				chips = append(chips, m.chips[use.Colour])
			}
		}
	}
	return chips
}

// listed is some colours with commas between and an end, neither of which ever begins a line.
func listed(chips []template.HTML, end template.HTML) (all template.HTML) {
	for i, chip := range chips {
		after := template.HTML(",</span> ")
		if i == len(chips)-1 {
			after = end + "</span>"
		}
		all += `<span class="listed">` + chip + after
	}
	return all
}

// rows are the rows of a list; plain is how close the picks of its plain stripes lie.
func (m *maker) rows(steps []loomwork.Step, plain string) (rows []step) {
	for n, s := range steps {
		rows = append(rows, m.step(n, s))
		if s.Kind == loomwork.Body && s.Block == "" {
			rows[n].Head += ", " + plain
		}
		if n > 0 {
			rows[n].Shuttles = append(rows[n].Shuttles, goesOn(steps[n-1], s)...)
		}
		if s.Kind == loomwork.Fringe && s.Picks > 0 {
			rows[n].Shuttles = append(rows[n].Shuttles, m.lastStitch(steps[n-1]))
		}
	}
	return rows
}

func (m *maker) step(n int, s loomwork.Step) step {
	out := step{Number: n + 1, Pattern: m.chips[s.Pattern], Ground: m.chips[s.Ground],
		Woven: m.tapeMM(s.Woven), SoFar: fmt.Sprint(s.Picks), Part: true, Both: bothSoFar(s),
		Picks: fmt.Sprint(s.GroundPicks), Treadles: m.tabbies()}
	out.Unit = "picks"
	switch s.Kind {
	case loomwork.Hem:
		out.Head = strings.TrimSuffix(m.endsName(), "s")
	case loomwork.Show:
		out.Head = "plain that stays in sight" + foldLine(s)
	case loomwork.Separator:
		out.Head, out.Part, out.Beside = "separator"+m.oneStrand()+", to cut along", false,
			"between the pieces"
		if s.GroundPicks%2 == 1 {
			out.Head += "; its last shed is also the first of the next piece, which is right: it " +
				"is cut there"
		}
	case loomwork.Fringe:
		return m.fringeStep(out, s)
	default:
		out.Unit, out.Head, out.Treadles = "units", measure.Count(s.Units, "unit")+" plain",
			m.treads(s.Block, s.Order)
		if s.Block != "" {
			out.Head = fmt.Sprintf("block %s, %s", s.Block, measure.Count(s.Units, "unit"))
			out.Picks = fmt.Sprintf("%d + %d", s.PatternPicks, s.GroundPicks)
		}
	}
	out.Name = fmt.Sprintf("step %d woven: %s", n+1, out.Head)
	out.Counts, out.Boxes = counts(n+1, s.Counts, out.Unit), len(s.Counts)
	for _, use := range s.Shuttles {
		if words := m.shuttleWords(use); words != "" {
			// its name stands beside it
			out.Shuttles = append(out.Shuttles, m.letters[use.Colour]+role(s, use)+words)
		}
		if use.FirstTail {
			out.Shuttles = append(out.Shuttles, m.firstStitch(s))
		}
	}
	return out
}

// goesOn says that a block goes on from the step before in another yarn; nothing where it
// does not.
func goesOn(before, s loomwork.Step) []string {
	switch {
	case s.Pattern == "" || before.Pattern == "" || before.Block != s.Block:
		return nil
	case before.Pattern != s.Pattern:
		return []string{"same block, another colour"}
	case before.Ground != s.Ground:
		return []string{"same block, another ground"}
	}
	return nil
}

// role tells two shuttles of one colour apart.
func role(s loomwork.Step, use loomwork.Shuttle) string {
	switch {
	case s.Pattern != s.Ground:
		return ""
	case use.Pattern:
		return " pattern"
	}
	return " ground"
}

// fringeStep leaves warp unwoven, before the first pick or after the last.
func (m *maker) fringeStep(out step, s loomwork.Step) step {
	out.Head = fmt.Sprintf("leave %s unwoven for the fringe", m.mm(s.BareMM))
	if s.Picks > 0 {
		out.Head = "hemstitch with the last tail, then " + out.Head
	}
	out.Part, out.Beside, out.Picks, out.Treadles = false, "bare warp", "0", ""
	out.Name = fmt.Sprintf("step %d done: %s", out.Number, out.Head)
	return out
}

// bothSoFar is what the picks so far are of.
func bothSoFar(s loomwork.Step) string {
	if s.PatternSoFar == 0 {
		return ""
	}
	return fmt.Sprintf("%d + %d", s.PatternSoFar, s.GroundSoFar)
}

// foldLine says on which side of plain that stays in sight the hem is turned
// under; nothing where there is no hem.
func foldLine(s loomwork.Step) string {
	switch {
	case s.FoldBefore:
		return ", from the fold line on"
	case s.FoldAfter:
		return ", up to the fold line"
	}
	return ""
}

// counts are the boxes to tick within a step: numbers and our own words, so
// that the template need not look at each of the hundreds of them.
func counts(step int, of []int, unit string) template.HTML {
	var b strings.Builder
	for _, k := range of {
		fmt.Fprintf(&b,
			`<label><input type="checkbox" aria-label="step %d: %d %s woven">%[2]d</label>`, step,
			k, unit)
	}
	return template.HTML(b.String())
}

// shuttleWords says where a yarn begins and what becomes of it; "" while it
// just weaves on. Steps are counted from 1.
func (m *maker) shuttleWords(s loomwork.Shuttle) string {
	after := map[loomwork.Then]string{loomwork.Cut: "cut after",
		loomwork.Carry: fmt.Sprintf("carry to step %d", s.Back+1)}[s.Then]
	start, tail := ": start", " with a tail of "+m.tail()
	if s.Left {
		start = ": start from the left"
	}
	if s.FirstTail {
		start += tail
	}
	if s.LastTail {
		after += tail
	}
	switch {
	case after == "" && !s.Starts:
		return ""
	case after == "":
		return start
	case s.Starts:
		return start + ", " + after
	}
	return ": " + after
}

// stripsAcross is how many strips stand side by side on A4 and on Letter.
const stripsAcross = 5

// tape lays the strips of a piece out on pages.
func (m *maker) tape(sheet *piece, i int) {
	tape := svg.NewTape(m.Plan, i)
	n := tape.Strips()
	pages := (n + stripsAcross - 1) / stripsAcross
	for from := 0; from < n; from += stripsAcross {
		page := tapePage{Number: from/stripsAcross + 1, Of: pages}
		for k := from; k < min(from+stripsAcross, n); k++ {
			page.Strips = append(page.Strips,
				m.draw(func(w io.Writer) error { return tape.Strip(w, k) }))
		}
		sheet.Pages = append(sheet.Pages, page)
	}
	sheet.Proof = m.proof
	sheet.Joins = joins(n)
}

func joins(strips int) string {
	if strips == 1 {
		return "It is one strip: cut it out."
	}
	return fmt.Sprintf("Cut the %d strips out, along the line at the foot of each; lay strip 2 "+
		"over the grey tab of strip 1, line on line, and so on up to join %d.", strips, strips-1)
}
