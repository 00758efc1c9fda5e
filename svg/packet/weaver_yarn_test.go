package packet_test

import (
	"strings"
)

// facts reads what the set is woven of.
func (w *weaver) facts() {
	w.woven, w.runs = map[string][]string{}, map[string]float64{}
	facts := map[string]string{}
	for _, b := range w.under("What it is woven of") {
		if b.table == nil {
			continue
		}
		for _, row := range b.table.rows {
			lines := linesOf(row[1], 2)
			facts[row[0]] = lines[0]
			if lines[1] != "" {
				letters := w.chips(lines[1], " ")
				w.woven[row[0]] = append(w.woven[row[0]], letters...)
				for _, letter := range letters {
					w.runs[letter] = w.runOf(lines[0])
				}
			}
		}
	}
	m := groups(`^(\S+(?: \S+)+?) for each pick: .* more for its curve, its turns and its tails`+
		`(?:; a pattern pick takes (\d+) times that)?$`, facts["Weft"])
	if m == nil {
		w.doubt("how much weft does a pick take?")
		return
	}
	w.cloth.pick, w.cloth.strands = w.length(m[0]), 1
	if m[1] != "" {
		w.cloth.strands = w.number(m[1])
	}
	strands := groups(`(?:single|(\d+) strands wound together)$`, facts["Pattern weft"])
	w.check(len(w.woven["Pattern weft"]) == 0 || strands != nil && (strands[0] == m[1]),
		"strands are %v, and %q", strands, m[1])
	w.beats(facts["Picks"])
	w.loom.told = facts["Loom"]
	wide := groups(`^in the reed (.*), at the fell (.*), finished (.*)$`, facts["Width"])
	w.check(wide != nil, "how wide is it: %q?", facts["Width"])
	w.cloth.width = append(wide, "", "", "")
}

// beats reads "8.0/cm ground and 8.0/cm pattern; plain stripes 8.0/cm, ground alone; hems
// 11.0/cm, ground alone".
func (w *weaver) beats(words string) {
	m := groups(`^(\S+) ground and (\S+) pattern(, but where a piece has an order of its own)?`+
		`(?:; plain stripes (\S+), ground alone)?`+
		`(?:; (?:hems|plain ends|separators|hems and separators|plain ends and separators) `+
		`(\S+), ground alone)?$`, words)
	if m == nil {
		w.doubt("how close do picks lie: %q?", words)
		return
	}
	w.cloth.ground, w.cloth.pattern = w.density(m[0]), w.density(m[1])
	if m[3] != "" {
		w.cloth.plain = w.density(m[3])
		w.check(w.cloth.plain == w.cloth.ground, "how close do plain stripes lie: %q?", words)
	}
	if m[4] != "" {
		w.cloth.hem = w.density(m[4])
	}
}

// chips reads colours that stand one after another, by letter; names may hold what
// stands between.
func (w *weaver) chips(words, between string) []string {
	for letter, name := range w.names {
		chip := letter + " " + name
		if words == chip {
			return []string{letter}
		}
		if rest, ok := strings.CutPrefix(words, chip+between); ok {
			if more := w.tried(rest, between); more != nil {
				return append([]string{letter}, more...)
			}
		}
	}
	w.doubt("%q are no colours of the card", words)
	return nil
}

// tried is [weaver.chips] where it may fail.
func (w *weaver) tried(words, between string) []string {
	n := len(w.doubts)
	all := w.chips(words, between)
	w.doubts = w.doubts[:n]
	return all
}

// usesOfFirstPage holds the colours that the first page has for each use against those
// that were used.
func (w *weaver) usesOfFirstPage() {
	used := map[string]map[string]bool{}
	add := func(use, letter string) {
		if used[use] == nil {
			used[use] = map[string]bool{}
		}
		used[use][letter] = true
	}
	for _, e := range w.warp.ends {
		add("Warp", e.colour)
	}
	for _, s := range w.pieces {
		for _, st := range s.steps {
			if st.kind == "body" {
				add("Ground weft", st.ground)
			}
			if st.pattern != "" {
				add("Pattern weft", st.pattern)
			}
		}
	}
	w.usesOfPlain(used, add)
	for _, use := range []string{"Warp", "Ground weft", "Pattern weft", w.ends(), "Separators"} {
		letters := used[use]
		for _, letter := range w.woven[use] {
			w.check(letters[letter], "%s: %s is not used", use, letter)
		}
		w.check(len(letters) == len(w.woven[use]),
			"%s: %d colours used, %v said", use, len(letters), w.woven[use])
	}
}

// usesOfPlain adds hems that are not of their piece's ground, and separators that are of
// neither.
func (w *weaver) usesOfPlain(used map[string]map[string]bool, add func(string, string)) {
	for _, s := range w.pieces {
		grounds := groundsOf(s)
		for _, st := range s.steps {
			if (st.kind == "hem" || st.kind == "plain that stays in sight") && !grounds[st.ground] {
				add(w.ends(), st.ground)
			}
		}
	}
	if w.sample != nil && w.sample.steps[0].kind != "body" {
		if letter := w.sample.steps[0].ground; !used["Ground weft"][letter] {
			add(w.ends(), letter)
		}
	}
	for _, s := range w.pieces {
		for _, p := range s.separator {
			if !used["Ground weft"][p.colour] && !used[w.ends()][p.colour] {
				add("Separators", p.colour)
			}
		}
	}
}

// groundsOf is the colours of the ground of a piece's body.
func groundsOf(s sheet) map[string]bool {
	grounds := map[string]bool{}
	for _, st := range s.steps {
		if st.kind == "body" {
			grounds[st.ground] = true
		}
	}
	return grounds
}

// used is what a colour takes, in metres, and how far off each may be.
type used struct{ warp, ground, pattern, sample, tails amount }

// spent adds up, pick by pick and end by end, what each colour took.
func (w *weaver) spent() map[string]used {
	all := map[string]used{}
	add := func(letter string, to func(*used) *amount, n int, of amount) {
		u := all[letter]
		at := to(&u)
		at.v, at.half = at.v+float64(n)*of.v/1000, at.half+float64(n)*of.half/1000
		all[letter] = u
	}
	wound := w.warp.wound
	wound.v -= wound.half // it is rounded up
	toWarp := func(u *used) *amount { return &u.warp }
	if !w.onLoom {
		for _, e := range w.warp.ends {
			add(e.colour, toWarp, 1, wound)
		}
		for _, letter := range w.warp.selvedges {
			add(letter, toWarp, 1, wound)
		}
	}
	weft := func(p pick, sample bool) {
		n, to := 1, func(u *used) *amount { return &u.ground }
		if p.pattern {
			n, to = w.cloth.strands, func(u *used) *amount { return &u.pattern }
		}
		if sample {
			to = func(u *used) *amount { return &u.sample }
		}
		add(p.colour, to, n, w.cloth.pick)
	}
	for _, s := range w.ahead() {
		for _, p := range s.picks {
			weft(p, false)
		}
	}
	for _, s := range w.pieces[max(0, w.done-1):] { // that of the last woven may still follow
		for _, p := range s.separator {
			weft(p, false)
		}
	}
	if w.sample != nil {
		for _, p := range w.sample.picks {
			weft(p, true)
		}
	}
	for _, s := range w.ahead() {
		for letter := range w.names {
			u, tails := all[letter], s.tailsOf(letter)
			u.tails.v, u.tails.half = u.tails.v+tails.v, u.tails.half+tails.half
			if tails.v > 0 {
				all[letter] = u
			}
		}
	}
	return all
}

// shopping holds the table of yarn against what was spent.
func (w *weaver) shopping() {
	t := w.tableWith(w.shopPart(), "In all")
	spent := w.spent()
	w.hemstitching()
	w.check(len(spent) == len(w.shelf),
		"%d colours were used, and %d are in the table", len(spent), len(w.shelf))
	for letter, row := range w.shelf {
		u, all := spent[letter], amount{}
		for i, took := range []amount{u.warp, u.ground, u.pattern, u.sample} {
			w.shops(letter, t, row, []string{"Warp", "Ground", "Pattern", "Sample"}[i], took)
			all.v, all.half = all.v+took.v, all.half+took.half
		}
		w.shops(letter, t, row, "In all", all)
	}
}

// shops is one cell of the table; there is no column of the sample without one.
func (w *weaver) shops(letter string, t *table, row []string, column string, took amount) {
	at := t.column(column)
	if at < 0 {
		w.check(column == "Sample" && took.v == 0, "no column %s", column)
		return
	}
	w.check(w.yarn(row[at]).within(took.v, took.half),
		"colour %s, %s: %.1f m were used, and it says %s", letter, column, took.v, row[at])
}

// yarn reads a length of yarn, in metres; a dash is none.
func (w *weaver) yarn(text string) amount {
	if text == "–" {
		return amount{}
	}
	a := w.length(strings.ReplaceAll(text, "\u00a0", " "))
	return amount{a.v / 1000, a.half / 1000}
}
