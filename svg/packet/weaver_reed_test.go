package packet_test

import (
	"fmt"
	"math"
	"strings"
)

// sleying fills dent after dent, and finds what the page says of them.
func (w *weaver) sleying() {
	w.selvedgesIn()
	page := w.under("Sleying")
	if find(page, `^Take a reed in which .* come to \S+\. The warp is to lie `+
		`(\S+(?: \S+)+?) wide`) != nil {
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
		w.check(w.number(m[0]) == w.warp.dents[n-1],
			"the last dent holds %d ends", w.warp.dents[n-1])
	}
	m := groups(`^(\d+), which is (.*)$`, facts["Dents filled"])
	if m == nil {
		w.doubt("how many dents are filled?")
		return
	}
	w.check(w.number(m[0]) == n, "%d dents are filled, and the page says %s", n, m[0])
	w.reed(facts, n, m[1])
	w.loomWide(n, w.length(m[1]))
	w.place(facts, n)
}

// selvedgesIn puts the floating selvedges in after the warp is tied on in front: into the
// reed, past the heddles, tied in front and weighted behind.
func (w *weaver) selvedgesIn() {
	heading := "Tying on in front"
	if find(w.blocks, `^(The loom is dressed from front to back)`) != nil {
		heading = "Beam"
	}
	var done []string
	for _, b := range w.under(heading) {
		for _, what := range []string{`tie the ends|Tie the ends to the front apron rod`,
			`^☐ Put the floating selvedges in, one at each side: draw each through`,
			`lead it past the heddles at the side, through none`,
			`Tie its front end to the front apron rod`,
			`^☐ Wind what hangs of each over the back beam on a bobbin, or tie it to a bottle, and weight`} {
			if find([]block{b}, `(`+what+`)`) != nil {
				done = append(done, what)
			}
		}
	}
	if w.warp.selvedges == nil {
		w.check(len(done) == 1, "no floating selvedges, and %q", done)
		return
	}
	w.check(len(done) == 5 && strings.HasPrefix(done[0], "tie the ends"),
		"of putting the floating selvedges in there is %q", done)
}

// loomWide holds the width that the loom has to have against all dents that are filled.
func (w *weaver) loomWide(n int, filled amount) {
	told := groups(`; at least (\S+(?: \S+)+?) wide$`, w.loom.told)
	if told == nil || n == 0 {
		w.doubt("how wide has the loom to be?")
		return
	}
	beside := float64(len(w.warp.selvedges)) / float64(n)
	least, give := filled.v*(1+beside), filled.half*(1+beside)
	wide := w.length(told[0])
	w.check(wide.within(least+wide.half, give) && wide.v >= least-give,
		"the loom is to be %s wide, and %.0f mm are filled", told[0], filled.v*(1+beside))
}

// reed holds the width of the dents, and the sett, against the reed.
func (w *weaver) reed(facts map[string]string, n int, wide string) {
	m := groups(`^(\S+?)/(\d*)(cm|in) dents$`, facts["Reed"])
	gives := groups(`^(\S+) \(planned: (\S+)\)$`, facts["That gives"])
	if m == nil || gives == nil || n == 0 {
		w.doubt("which reed is it: %q, %q?", facts["Reed"], facts["That gives"])
		return
	}
	dents, across := w.figure(figureOf(m[0])).v, 1.0
	if m[1] != "" {
		across = w.figure(figureOf(m[1])).v
	}
	dent := across * lengthUnits[m[2]] / dents
	w.check(w.length(wide).agrees(float64(n)*dent), "%d dents of %.2f mm are not %s", n, dent, wide)
	full := w.density(gives[0])
	sum := 0
	for _, ends := range w.warp.repeat {
		sum += ends
	}
	w.check(full.agrees(float64(sum)/float64(len(w.warp.repeat))/dent), "%s of this reed", gives[0])
}

// raddle spreads the warp in groups, where the page has a raddle.
func (w *weaver) raddle() {
	page := w.under("Reed and loom")
	m := find(page,
		`Lay the ends into it in the order of the cross: (\S+) ends?( over and over)? to each `+
			`(centimetre|inch), `+
			`(\d+) groups? in all(?:, the last of (\d+) ends?)?\. Begin (\S+(?: 1/2)?) (cm|in) to the left of `+
			`its middle`)
	if m == nil {
		w.said(page, `The loom is dressed from front to back: sley, thread, then beam\.`)
		return
	}
	w.said(page, `The loom is dressed from back to front: beam, thread, then sley\.`)
	groups := spread(len(w.warp.ends), w.numbers(strings.ReplaceAll(m[0], "-", " ")))
	n := len(groups)
	w.check(w.number(m[3]) == n, "%s groups in the raddle, and there are %d", m[3], n)
	w.check(m[4] == "" || w.number(m[4]) == groups[n-1],
		"the last group is of %d ends", groups[n-1])
	// on the same middle as the reed: half of what the ends fill, to half a space
	repeat, sum := w.numbers(strings.ReplaceAll(m[0], "-", " ")), 0
	for _, ends := range repeat {
		sum += ends
	}
	across := float64(len(w.warp.ends)*len(repeat)) / float64(sum)
	w.check(math.Abs(w.figure(figureOf(m[5])).v-across/2) <= 0.2501 || across < 1,
		"%.1f spaces are filled, and begin %s to the left", across, m[5])
}

// spread fills places with ends, by a repeat of how many each holds.
func spread(ends int, repeat []int) (places []int) {
	for i := 0; ends > 0 && len(repeat) > 0; i++ {
		n := min(ends, max(repeat[i%len(repeat)], 1))
		places, ends = append(places, n), ends-n
	}
	return places
}

// fill sleys the ends by a repeat such as "2 in every dent" or "1-2-2, over and over".
func (w *weaver) fill(words string) {
	m := groups(`^(?:(\d+) in every dent|([\d-]+), over and over)$`, words)
	if m == nil {
		w.doubt("how is it sleyed: %q?", words)
		return
	}
	w.warp.repeat = w.numbers(strings.ReplaceAll(m[0]+m[1], "-", " "))
	w.warp.dents = spread(len(w.warp.ends), w.warp.repeat)
}

// place finds the warp in the middle of the reed.
func (w *weaver) place(facts map[string]string, n int) {
	m := groups(`^from the middle of the reed count (\d+) dents? to the left`,
		facts["To centre the warp"])
	w.check(m != nil && (2*w.number(m[0])-n)/2 == 0,
		"the warp of %d dents is not in the middle: %v", n, m)
	selvedges := facts["Floating selvedges"]
	w.check((selvedges != "") == (w.warp.selvedges != nil),
		"floating selvedges are wound or sleyed")
	if wide := facts["In a reed as wide as the loom"]; wide != "" {
		at := groups(`^(\d+) dents: the warp begins in dent (\d+) and ends in dent (\d+)$`, wide)
		if at == nil {
			w.doubt("where does the warp begin: %q?", wide)
			return
		}
		all, first, last := w.number(at[0]), w.number(at[1]), w.number(at[2])
		w.check(last-first+1 == n && first-1-(all-last) <= 0 && all-last-(first-1) <= 1,
			"%q for %d dents", wide, n)
		if selvedges != "" {
			want := fmt.Sprintf("one end in dent %d and one in dent %d, through no heddle; "+
				"they come last", first-1, last+1)
			w.check(selvedges == want, "%q should be %q", selvedges, want)
		}
	}
}
