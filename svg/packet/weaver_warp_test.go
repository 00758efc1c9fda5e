package packet_test

import (
	"fmt"
	"slices"
	"strings"
)

// warp is what was wound, and how it lies in heddles and reed.
type warp struct {
	wound     amount
	stripes   []stripe
	ends      []end    // left to right, once threaded
	selvedges []string // colours, left and right; none without
	dents     []int    // ends in each, left to right
	parts     []part
}

// stripe is neighbouring ends of one colour and block, as wound.
type stripe struct {
	colour, block string
	ends          int
}

// end is one end: its yarn and its shaft.
type end struct {
	colour string
	shaft  int
}

// part is a part of the wound length.
type part struct {
	what  string
	wound amount
}

func (w *weaver) winding() {
	page := w.under("Winding")
	m := w.said(page, `^(\S+ \S+) long, (\d+) ends( and 2 floating selvedges)?\.`)
	w.warp.wound = w.length(m[0])
	guide := w.said(page, `Cut a guide string .*, (\S+ \S+) long between its two loops`)
	w.check(guide[0] == m[0], "the guide string is %s long and the warp %s", guide[0], m[0])
	w.lengthParts(page)
	w.most = w.number(w.said(page, `At most (\d+) ends to a bout`)[0])
	w.bouts(w.tableWith(page, "Bout"))
	sum := 0
	for _, s := range w.warp.stripes {
		sum += s.ends
	}
	w.check(sum == w.number(m[1]), "%d ends wound of %s", sum, m[1])
	if m[2] != "" {
		s := w.said(page, `Wind the two floating selvedges .*: left (.*), right (.*?)\. `)
		w.warp.selvedges = []string{w.chip(s[0]), w.chip(s[1])}
	}
}

// lengthParts reads what the length is made of: the parts are the whole.
func (w *weaver) lengthParts(page []block) {
	sum := amount{}
	for _, row := range w.tableWith(page, "Of the wound warp").rows {
		p := part{row[1], w.length(row[2])}
		w.warp.parts = append(w.warp.parts, p)
		sum.v, sum.half = sum.v+p.wound.v, sum.half+p.wound.half
	}
	rounding := 2 * w.warp.wound.half // it is rounded up
	w.check(sum.within(w.warp.wound.v-rounding/2, rounding/2), "the parts of the warp are %.0f mm, and %.0f mm are wound", sum.v, w.warp.wound.v)
}

// bouts winds stripe by stripe, and counts.
func (w *weaver) bouts(t *table) {
	bouts, totals, soFar := map[string]int{}, map[string]int{}, 0
	for i, row := range t.rows {
		bout := linesOf(row[1], 2)
		ends := w.number(row[4])
		soFar += ends
		w.check(w.number(row[5]) == soFar, "ends so far: %s, and %d are wound", row[5], soFar)
		bouts[bout[0]] += ends
		totals[bout[0]] = w.number(strings.TrimSuffix(bout[1], " ends"))
		w.wind(stripe{w.chip(row[2]), row[3], ends}, row[6], i == len(t.rows)-1)
	}
	for name, n := range totals {
		w.check(n == bouts[name], "bout %s has %d ends and says %d", name, bouts[name], n)
	}
	w.check(w.open == 0, "a stripe goes on in no bout")
}

// wind adds a row of the list of bouts: a stripe, or a part of one.
func (w *weaver) wind(s stripe, note string, last bool) {
	m := groups(`^(the first part of a|a further part of the|the rest of the) stripe of (\d+)$`, note)
	w.check((m == nil) == (note == ""), "what is %q?", note)
	begins := m == nil || strings.HasPrefix(m[0], "the first")
	w.check(begins == (w.open == 0), "a stripe is left unfinished, or goes on though it is whole")
	if begins {
		w.warp.stripes = append(w.warp.stripes, stripe{s.colour, s.block, 0})
	}
	at := &w.warp.stripes[len(w.warp.stripes)-1]
	w.check(at.colour == s.colour && at.block == s.block, "a stripe changes within")
	at.ends += s.ends
	w.open = 0
	if m == nil {
		return
	}
	if whole := w.number(m[1]); strings.HasPrefix(m[0], "the rest") {
		w.check(at.ends == whole, "a stripe of %d ends has %d", whole, at.ends)
	} else {
		w.open = whole
	}
}

// threading threads unit by unit from the edge the page names.
func (w *weaver) threading() {
	page := w.under("Threading")
	edge := w.said(page, `^Thread unit by unit, from the (left|right) edge of the warp: the shafts of a unit stand in the order in which its ends are threaded\.`)[0]
	units := map[string]string{}
	rows := w.tableWith(page, "Block and unit").rows
	w.check(len(rows) == len(w.warp.stripes), "%d stripes wound and %d threaded", len(w.warp.stripes), len(rows))
	for i, row := range rows {
		number := i + 1
		if edge == "right" {
			number = len(rows) - i
		}
		w.check(w.number(row[1]) == number, "stripe %s is threaded where %d is due", row[1], number)
		if number <= len(w.warp.stripes) && number > 0 {
			w.thread(w.warp.stripes[number-1], row, units, edge)
		}
	}
	if edge == "right" {
		slices.Reverse(w.warp.ends)
	}
}

// thread threads one stripe, counting after each unit.
func (w *weaver) thread(s stripe, row []string, known map[string]string, edge string) {
	unit, count := linesOf(row[3], 3), linesOf(row[4], 2)
	m := groups(`^([A-Z]) × (\d+)$`, unit[0])
	if m == nil {
		w.doubt("what is threaded as %q?", unit[0])
		return
	}
	w.check(w.chip(row[2]) == s.colour && m[0] == s.block, "stripe %v is threaded as %s of %s", s, m[0], row[2])
	if before, ok := known[m[0]]; ok {
		w.check(before == unit[1], "a unit of %s is %s and %s", m[0], before, unit[1])
	}
	known[m[0]] = unit[1]
	from, took := len(w.warp.ends)+1, map[int]int{}
	shafts, after := w.numbers(unit[1]), w.numbers(count[0])
	w.check(len(after) == w.number(m[1]), "%s units and %d counts", m[1], len(after))
	for _, n := range after {
		for _, shaft := range shafts {
			w.warp.ends = append(w.warp.ends, end{s.colour, shaft})
			took[shaft]++
		}
		w.check(len(w.warp.ends) == n, "%d ends are threaded, and the count says %d", len(w.warp.ends), n)
	}
	span := fmt.Sprintf("ends %d to %d", from, len(w.warp.ends))
	if edge == "right" {
		span += " from the right"
	}
	w.check(unit[2] == span, "%q should be %q", unit[2], span)
	w.check(len(w.warp.ends)-from+1 == s.ends, "%d ends wound, %d threaded", s.ends, len(w.warp.ends)-from+1)
	w.check(count[1] == "heddles by shaft: "+byShaft(took), "%q: it took %s", count[1], byShaft(took))
}

func byShaft(took map[int]int) string {
	var words []string
	for shaft := range 100 {
		if n := took[shaft]; n > 0 {
			words = append(words, fmt.Sprintf("%d: %d", shaft, n))
		}
	}
	return strings.Join(words, ", ")
}

// heddles holds the heddles the page asks for against those that were used.
func (w *weaver) heddles() {
	page := w.under("Heddles")
	used := map[int]int{}
	for _, e := range w.warp.ends {
		used[e.shaft]++
	}
	for i, row := range w.tableWith(page, "Needed").rows {
		w.check(row[0] == fmt.Sprintf("shaft %d", i+1), "%q is not shaft %d", row[0], i+1)
		w.check(w.number(row[1]) == used[i+1], "shaft %d: %s heddles, and %d are used", i+1, row[1], used[i+1])
		w.loom.shafts = i + 1
	}
	w.check(w.number(w.said(page, `^(\d+) in all[.,]`)[0]) == len(w.warp.ends), "heddles in all")
}

// sleying fills dent after dent, and finds what the page says of them.
func (w *weaver) sleying() {
	page := w.under("Sleying")
	if find(page, `The brief names no reed\. The warp is to lie (\S+ \S+) wide`) != nil {
		return
	}
	facts := map[string]string{}
	for _, b := range page {
		if b.table != nil {
			for _, row := range b.table.rows {
				facts[row[0]] = row[1]
			}
		}
	}
	w.fill(facts["Ends in each dent"])
	n := len(w.warp.dents)
	if m := find(page, `^The last dent holds (\d+) ends?:`); m != nil && n > 0 {
		w.check(w.number(m[0]) == w.warp.dents[n-1], "the last dent holds %d ends", w.warp.dents[n-1])
	}
	m := groups(`^(\d+), which is (.*)$`, facts["Dents filled"])
	if m == nil {
		w.doubt("how many dents are filled?")
		return
	}
	w.check(w.number(m[0]) == n, "%d dents are filled, and the page says %s", n, m[0])
	w.place(facts, n)
}

// fill sleys the ends by a repeat such as "2 in every dent" or "1-2-2, over and over".
func (w *weaver) fill(words string) {
	m := groups(`^(?:(\d+) in every dent|([\d-]+), over and over)$`, words)
	if m == nil {
		w.doubt("how is it sleyed: %q?", words)
		return
	}
	repeat := w.numbers(strings.ReplaceAll(m[0]+m[1], "-", " "))
	for left, i := len(w.warp.ends), 0; left > 0; i++ {
		n := min(left, repeat[i%len(repeat)])
		w.warp.dents, left = append(w.warp.dents, n), left-n
	}
}

// place finds the warp in the middle of the reed.
func (w *weaver) place(facts map[string]string, n int) {
	m := groups(`^from the middle of the reed count (\d+) dents? to the left`, facts["To centre the warp"])
	w.check(m != nil && (2*w.number(m[0])-n)/2 == 0, "the warp of %d dents is not in the middle: %v", n, m)
	selvedges := facts["Floating selvedges"]
	w.check((selvedges != "") == (w.warp.selvedges != nil), "floating selvedges are wound or sleyed")
	if wide := facts["In a reed as wide as the loom"]; wide != "" {
		at := groups(`^(\d+) dents: the warp begins in dent (\d+) and ends in dent (\d+)$`, wide)
		if at == nil {
			w.doubt("where does the warp begin: %q?", wide)
			return
		}
		all, first, last := w.number(at[0]), w.number(at[1]), w.number(at[2])
		w.check(last-first+1 == n && first-1-(all-last) <= 0 && all-last-(first-1) <= 1, "%q for %d dents", wide, n)
		if selvedges != "" {
			want := fmt.Sprintf("one end in dent %d and one in dent %d, through no heddle", first-1, last+1)
			w.check(selvedges == want, "%q should be %q", selvedges, want)
		}
	}
}
