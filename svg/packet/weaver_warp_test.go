package packet_test

import (
	"fmt"
	"math"
	"strings"
)

// warp is what was wound, and how it lies in heddles and reed.
type warp struct {
	wound     amount
	stripes   []stripe
	ends      []end    // left to right, once threaded
	takeUp    float64  // share of what is wound to be woven
	selvedges []string // colours, left and right; none without
	repeat    []int    // ends to a dent, over and over
	dents     []int    // ends in each, left to right
	parts     []part
	closing   closing
	closed    bool // it is threaded
}

// closing is the stripe with the closing end, from 1 at the left and 0 for none, and its
// shaft; turned tells whether units to its right are turned round.
type closing struct {
	stripe, shaft int
	turned        bool
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
	m := w.said(page, `^(\S+(?: \S+)+?) long, (\d+) ends( and 2 floating selvedges)?\.`)
	w.warp.wound = w.length(m[0])
	guide := w.said(page, `Cut a guide string .*, (\S+(?: \S+)+?) long between its two loops`)
	w.check(guide[0] == m[0], "the guide string is %s long and the warp %s", guide[0], m[0])
	w.reach(page)
	w.lengthParts(page)
	takeUp := w.said(page, `^Parts are rounded so that they add up to the length\. `+
		`Of what is wound for weaving (\S+) % is lost to take-up`)[0]
	w.warp.takeUp = w.figure(figureOf(takeUp)).v / 100
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

// reach finds warp enough between the starting peg and the cross, without a tight tie, to go
// through reed and heddles where these come first: half a metre or more (common practice,
// no source).
func (w *weaver) reach(page []block) {
	front := find(w.under("Reed and loom"), `^(The loom is dressed from front to back)`) != nil
	cross := find(page, `the cross is made (\S+ \S+) from the starting peg`)
	choke := find(page, `^☐ Tie each bout .*; (none between the cross and the starting peg);`)
	w.check((cross != nil) == front && (choke != nil) == front,
		"front to back: %v; cross: %v, ties: %v", front, cross, choke)
	if cross != nil {
		w.check(w.length(cross[0]).v >= 500, "%s of free warp", cross[0])
	}
}

// lengthParts reads what the length is made of: the parts are the whole.
func (w *weaver) lengthParts(page []block) {
	sum := amount{}
	for i, row := range w.tableWith(page, "Of the wound warp").rows {
		w.check(row[0] == fmt.Sprint(i+1), "part %s of the length is number %d", row[0], i+1)
		p := part{row[1], w.partLength(row[2])}
		w.warp.parts = append(w.warp.parts, p)
		sum.v, sum.half = sum.v+p.wound.v, sum.half+p.wound.half
	}
	w.check(math.Abs(sum.v-w.warp.wound.v) < 1e-6,
		"the parts of the warp are %.0f mm, and %.0f mm are wound", sum.v, w.warp.wound.v)
}

// partLength reads the length of a part, or "under 1 cm" of one that is too short to count.
func (w *weaver) partLength(words string) amount {
	under, short := strings.CutPrefix(words, "under ")
	if !short {
		w.check(!strings.HasPrefix(words, "0 "), "a part of %s", words)
		return w.length(words)
	}
	w.check(under == "1 in" || under == "1 cm" || under == "0.1 cm", "a part of %s", words)
	return amount{0, w.length(under).v}
}

// bouts winds stripe by stripe, and counts.
func (w *weaver) bouts(t *table) {
	bouts, totals, soFar := map[string]int{}, map[string]int{}, 0
	for i, row := range t.rows {
		bout := linesOf(row[1], 2)
		ends := w.number(row[4])
		soFar += ends
		w.check(w.number(row[5]) == soFar, "ends so far: %s, and %d are wound", row[5], soFar)
		w.check(bout[0] == fmt.Sprint(len(bouts)) || bout[0] == fmt.Sprint(len(bouts)+1),
			"bout %s after %d bouts", bout[0], len(bouts))
		bouts[bout[0]] += ends
		totals[bout[0]] = w.number(strings.TrimSuffix(bout[1], " ends"))
		note := w.pegs(t, i, bouts[bout[0]], row[6])
		w.wind(stripe{w.chip(row[2]), row[3], ends}, note, i == len(t.rows)-1)
	}
	for name, n := range totals {
		w.check(n == bouts[name], "bout %s has %d ends and says %d", name, bouts[name], n)
	}
	w.check(w.open == 0, "a stripe goes on in no bout")
}

// pegs goes from peg to peg: after an odd number of ends of a bout she stands at the end
// peg, and the note says so where a colour changes or the bout ends. It gives the rest.
func (w *weaver) pegs(t *table, i, wound int, note string) string {
	const changes, ends = "change the colour at the end peg", "the bout ends at the end peg"
	want := ""
	last := i == len(t.rows)-1 || linesOf(t.rows[i+1][1], 1)[0] != linesOf(t.rows[i][1], 1)[0]
	switch {
	case wound%2 == 1 && last:
		want = ends
	case wound%2 == 1 && t.rows[i][2] != t.rows[i+1][2]:
		want = changes
	}
	rest, said, both := cutLast(note, "; ")
	if !both && (note == changes || note == ends) {
		rest, said = "", note
	}
	w.check(said == want, "after %d ends of a bout the note says %q", wound, note)
	return rest
}

// wind adds a row of the list of bouts: a stripe, or a part of one.
func (w *weaver) wind(s stripe, note string, last bool) {
	m := groups(`^(the first part of a|a further part of the|the rest of the) stripe of (\d+)`+
		`(?: in block `+s.block+`)?(?:, the closing end with it)?$`, note)
	w.check((m == nil) == (note == "" || note == "the closing end with it"), "what is %q?", note)
	begins := m == nil || strings.HasPrefix(m[0], "the first")
	w.check(begins == (w.open == 0), "a stripe is left unfinished, or goes on though it is whole")
	if begins {
		w.warp.stripes = append(w.warp.stripes, stripe{s.colour, s.block, 0})
	}
	at := &w.warp.stripes[len(w.warp.stripes)-1]
	w.check(at.colour == s.colour && at.block == s.block, "a stripe changes within")
	at.ends += s.ends
	open := w.open
	w.open = 0
	if m == nil {
		return
	}
	w.check(begins || w.number(m[1]) == open, "a stripe of %d ends goes on as one of %s",
		open, m[1])
	if whole := w.number(m[1]); strings.HasPrefix(m[0], "the rest") {
		w.check(at.ends == whole, "a stripe of %d ends has %d", whole, at.ends)
	} else {
		w.open = whole
	}
}
