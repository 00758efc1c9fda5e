package packet_test

import (
	"fmt"
	"slices"
	"strings"
)

// beat is what the first page says of the weft.
type beat struct {
	pick    amount // weft one pick takes, in mm
	strands int
	ground  amount // picks to the mm on the loom
	pattern amount
	hem     amount
	plain   amount   // of stripes without pattern
	carry   amount   // longest way up the edge
	width   []string // in the reed, at the fell and finished
}

// sheet is a piece, or the sample, as it was woven.
type sheet struct {
	number, of int
	name       string
	steps      []step
	picks      []pick
	woven      amount // as the list ends
	reckoned   amount // by its densities
	bare       [2]amount
	separator  []pick
	marked     bool     // where it ends
	tails      []string // the yarns, by letter, with which its ends are hemstitched
	tail       amount   // how long each is left
	beat       beat
	weighed    []string // the yarn that is weighed before it, and how many picks are of it
	measured   string   // of one that was woven before: how long it is
}

// step is a row of a list.
type step struct {
	number          int
	kind, block     string // kind: hem, plain in sight, separator, bare, body
	units           int
	treads          []string
	shuttles        []use
	pattern, ground string // colours, by letter
	picks           []int  // pattern and ground, or ground alone
	bare            amount
	close           amount   // picks to the mm, of a plain stripe
	stitched        bool     // before it is left bare
	over            []string // what [lastStitch] catches
	same            []string // a block goes on in another colour, or on another ground
	soFar, both     string
	woven           string
	thrown          []pick
}

// pick is one pick in the cloth: its yarn and its shed.
type pick struct {
	pattern bool
	colour  string
	shed    string
}

// use is what the list says of a shuttle.
type use struct {
	letter, role string
	start, left  bool
	cut          bool
	carry        int
	// to hemstitch with, where it starts and where it is cut
	firstTail, lastTail amount
	stitch              []string // what [firstStitch] catches
}

// weaving reads the sheets in the order of the page.
func (w *weaver) weaving() {
	page := w.under("Weaving")
	w.cloth.carry = w.length(w.said(page, `over at most (\S+(?: \S+)+?); over more it is cut\.`)[0])
	w.said(page, `read upwards, as the cloth grows: step 1, the first pick, is at the foot\.`)
	plain := find(page, `(\S+) are woven in plain tabby, ground alone: a and b in turn, a first\.`)
	w.said(page, `The ground shuttle starts from the right, .*: when it lies at the right edge, `+
		`tabby a comes next, at the left edge tabby b\.`)
	for i, b := range page {
		switch m := groups(`^Piece (\d+) of (\d+): (.*)$`, b.text); {
		case b.level != 3:
		case b.text == "The sample":
			s := w.sheet(page[i+1:])
			w.sampleSizes(page[i+1:], s)
			w.sampleEnds(page[i+1:])
			w.sample = &s
		case m != nil:
			s := w.sheet(page[i+1:], w.number(m[0]), w.number(m[1]))
			s.name = m[2]
			w.check(s.number == len(w.pieces)+1,
				"piece %d stands where %d is due", s.number, len(w.pieces)+1)
			w.pieces = append(w.pieces, s)
		}
	}
	w.check(len(w.pieces) > 0 && len(w.pieces) == w.pieces[0].of, "%d pieces", len(w.pieces))
	w.check((plain != nil) == w.hasPlain(), "it says of plain tabby %v", plain)
	w.fringes(page)
}

// sheet reads one sheet and weaves it; without numbers it is the sample's.
func (w *weaver) sheet(page []block, numbers ...int) sheet {
	ends := func(b block) bool { return b.level > 0 && b.level <= 3 }
	if i := slices.IndexFunc(page, ends); i >= 0 {
		page = page[:i]
	}
	var s sheet
	s.beat, s.marked = w.sheetBeat(page)
	if numbers != nil {
		s.number, s.of = numbers[0], numbers[1]
	}
	for _, b := range page {
		if b.table == nil || b.table.column("Picks so far") < 0 {
			continue
		}
		w.check(b.table.caption == "Read upwards", "which way is a list read?")
		rows := slices.Clone(b.table.rows)
		slices.Reverse(rows)
		for _, row := range rows {
			s.steps = append(s.steps, w.step(row))
			w.goesOn(s.steps)
		}
	}
	for _, st := range s.steps {
		w.check(st.close == s.beat.plain || st.block != "plain",
			"step %d lies %v, and over the list stands %v", st.number, st.close, s.beat.plain)
	}
	w.check(s.beat.plain.v > 0 == slices.ContainsFunc(s.steps, func(st step) bool {
		return st.block == "plain"
	}), "plain stripes are over the list and not in it, or in it alone")
	w.noted(page, &s)
	w.handled(page, &s)
	w.weaveSheet(&s)
	w.headline(page, &s)
	return s
}

// sheetBeat is how close the picks of a sheet lie, and whether the next piece begins
// at a mark.
func (w *weaver) sheetBeat(page []block) (b beat, marked bool) {
	m := w.said(page,
		`^(\S+) ground and (\S+) pattern picks, (single|(\d+) strands wound together)`+
			`(?:; plain stripes (\S+/[a-z]+))?`+
			`(?:; (?:hems|plain ends|separators|hems and separators|plain ends and separators) (\S+))?\.`+
			`( No separator follows: after the last pick mark both edges with a thread)?`)
	b = beat{strands: 1, ground: w.density(m[0]), pattern: w.density(m[1])}
	if m[3] != "" {
		b.strands = w.number(m[3])
	}
	if m[4] != "" {
		b.plain = w.density(m[4])
		w.check(b.plain == b.ground && w.cloth.plain.v > 0,
			"plain stripes lie %v, and units with pattern %v", b.plain, b.ground)
	}
	if m[5] != "" {
		b.hem = w.density(m[5])
	}
	if find(page, `Its picks have an order of their own`) == nil {
		w.check(b.ground == w.cloth.ground && b.pattern == w.cloth.pattern,
			"picks lie otherwise than the first page says")
	}
	w.check(b.hem.v == 0 || b.hem == w.cloth.hem, "hems lie otherwise than the first page says")
	w.check(b.strands == w.cloth.strands,
		"%d strands, and %d on the first page", b.strands, w.cloth.strands)
	return b, m[6] != ""
}

// goesOn holds what the last of some steps says of its block against the one before.
func (w *weaver) goesOn(steps []step) {
	n := len(steps) - 1
	st, want := steps[n], ""
	if n > 0 && st.pattern != "" && steps[n-1].block == st.block && steps[n-1].pattern != "" {
		switch before := steps[n-1]; {
		case before.pattern != st.pattern:
			want = "colour"
		case before.ground != st.ground:
			want = "ground"
		}
	}
	said := strings.Join(st.same, "")
	w.check(said == want, "step %d: the same block, another %q; said: %q", st.number, want, said)
}

// step reads a row.
func (w *weaver) step(row []string) step {
	if len(row) != 7 {
		w.doubt("a row of %d cells", len(row))
		return step{}
	}
	s := step{number: w.number(row[1]), woven: row[6]}
	lines := strings.Split(row[2], "\n")
	head, treads, trodden := cutLast(lines[0], " · ")
	if trodden {
		s.treads = w.treads(treads)
	}
	w.head(&s, head)
	boxes := ""
	for _, line := range lines[1:] {
		if strings.HasPrefix(line, "☐") {
			boxes = line
		} else if over := groups(lastStitch, line); over != nil && s.kind == "bare" {
			s.over = over
		} else {
			s.shuttles, s.same = w.uses(line), groups(`same block, another (colour|ground)$`, line)
		}
	}
	w.yarns(&s, row[3])
	s.picks = w.numbers(strings.Replace(row[4], " + ", " ", 1))
	w.check(len(s.picks) == 1 || s.pattern != "" && len(s.picks) == 2,
		"step %d: picks %q", s.number, row[4])
	so := linesOf(row[5], 2)
	s.soFar, s.both = so[0], so[1]
	w.boxes(s, boxes)
	return s
}

// head reads what a step is.
func (w *weaver) head(s *step, words string) {
	if m := groups(`^(block [A-Z]), (\d+) units?$`, words); m != nil {
		s.kind, s.block, s.units = "body", m[0], w.number(m[1])
		return
	}
	if m := groups(`^(\d+) units? plain, (\S+)$`, words); m != nil {
		s.kind, s.block, s.units, s.close = "body", "plain", w.number(m[0]), w.density(m[1])
		return
	}
	if m := groups(`^(hemstitch with the last tail, then )?leave (\S+(?: \S+)+?) unwoven for the `+
		`fringe$`, words); m != nil {
		s.kind, s.stitched, s.bare = "bare", m[0] != "", w.length(m[1])
		return
	}
	for _, kind := range []string{"hem", "plain end", "plain that stays in sight", "separator"} {
		if words == kind || strings.HasPrefix(words, kind+",") {
			s.kind = kind
			w.check(strings.Contains(words, ", one strand") ==
				(kind == "separator" && w.cloth.strands > 1),
				"step %d: %q, and pattern weft is of %d strands", s.number, words, w.cloth.strands)
			return
		}
	}
	w.doubt("step %d: what is %q?", s.number, words)
}

// yarns reads the colours of a step: "D damson" on one line and "on O oat" below it, or
// the ground alone.
func (w *weaver) yarns(s *step, cell string) {
	lines := linesOf(cell, 2)
	if ground, two := strings.CutPrefix(lines[1], "on "); two {
		s.pattern, s.ground = w.chip(lines[0]), w.chip(ground)
	} else if lines[0] != "" {
		s.ground = w.chip(lines[0])
	}
	w.check((s.kind == "bare") == (s.ground == ""), "step %d: which yarn is it?", s.number)
}

// boxes are ticked at every ten within a step.
func (w *weaver) boxes(s step, words string) {
	if words == "" {
		return
	}
	of, name := s.units, "units"
	if s.kind != "body" {
		of, name = s.picks[0], "picks"
	}
	want := ""
	for n := 10; n < of; n += 10 {
		want += fmt.Sprintf("☐%d", n)
	}
	w.check(words == want+name, "step %d: boxes %s", s.number, words)
}

// printedLength is a length as pages have it.
const printedLength = `(\d[\d ./]*(?:cm|m|in|yd)(?: \d+ in)?)`

// How deep ends are hemstitched: when so many picks are woven, over how many and which.
const (
	firstStitch = `^hemstitch with the first tail when (\w+) picks(, pattern and ground together,)? ` +
		`are woven, over the lowest (\w+)(?: \((.*)\))?$`
	lastStitch = `^hemstitch over the topmost (\w+)(?: \((.*)\))?$`
)

// uses reads "D: start from the left, cut after · O: carry to step 7".
func (w *weaver) uses(line string) (all []use) {
	for _, words := range strings.Split(line, " · ") {
		m := groups(`^([A-Z]\d*)( pattern| ground)?: (start)?( from the left)?`+
			`(?: with a tail of `+printedLength+`)?(?:, )?(cut after)?`+
			`(?: with a tail of `+printedLength+`)?(?:carry to step (\d+))?$`, words)
		if stitch := groups(firstStitch, words); stitch != nil && len(all) > 0 {
			all[len(all)-1].stitch = stitch
			continue
		}
		if strings.HasPrefix(words, "same block, another ") {
			continue // [weaver.goesOn]
		}
		if m == nil {
			w.doubt("what is %q?", words)
			continue
		}
		u := use{letter: m[0], role: strings.TrimSpace(m[1])}
		u.start, u.left, u.cut = m[2] != "", m[3] != "", m[5] != ""
		u.firstTail, u.lastTail = w.tail(m[4], u.start), w.tail(m[6], u.cut)
		if m[7] != "" {
			u.carry = w.number(m[7])
		}
		all = append(all, u)
	}
	return all
}
