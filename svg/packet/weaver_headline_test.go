package packet_test

import (
	"fmt"
	"strings"
)

// headline holds what stands over a list against what was woven.
func (w *weaver) headline(page []block, s *sheet) {
	m := w.said(page,
		`^(\S+(?: \S+)+?) woven under tension, (\d+) picks(?:: |, of them (\d+) in each hem)?`+
			`(?:(?: and|, of them) (\d+) of plain at each end that stay in sight)?`)
	w.check(w.length(m[0]).within(s.woven.v, s.woven.half),
		"%s woven, and the list ends at %.1f mm", m[0], s.woven.v)
	w.check(m[1] == fmt.Sprint(len(s.picks)), "%s picks, and %d are woven", m[1], len(s.picks))
	for i, kind := range []string{"hem", "plain that stays in sight"} {
		for _, st := range s.steps {
			w.check(st.kind != kind || s.number == 0 || fmt.Sprint(st.picks) == "["+m[2+i]+"]",
				"step %d: %v picks, and over the list stands %q", st.number, st.picks, m[2+i])
		}
	}
}

// handled holds shuttles, changes of colour and tails against the steps.
func (w *weaver) handled(page []block, s *sheet) {
	if s.number == 0 {
		w.listed(w.said(page, `^Shuttles: (.*)$`)[0], s)
		return
	}
	m := w.said(page, `^(\d+) shuttles?(?:, (\d+) changes? of pattern colour)?, `+
		`(\d+) tails? to turn in(?:, (\d+) to hemstitch with)?: (.*)$`)
	m[4] = w.separatorTold(m[4], s)
	w.listed(m[4], s)
	known, tails, stitch, changes, last := map[which]bool{}, 0, 0, 0, ""
	for _, st := range s.steps {
		if st.kind == "separator" { // it is cut away, tails and all
			continue
		}
		for _, k := range shuttlesOf(st) {
			known[k] = true
		}
		for _, u := range st.shuttles {
			tails += one(u.start && u.firstTail.v == 0) + one(u.cut && u.lastTail.v == 0)
			stitch += one(u.firstTail.v > 0) + one(u.lastTail.v > 0)
		}
		if st.pattern != "" {
			if last != "" && last != st.pattern {
				changes++
			}
			last = st.pattern
		}
	}
	w.check(m[0] == fmt.Sprint(len(known)), "%s shuttles, and %d are used", m[0], len(known))
	w.check(m[1] == fmt.Sprint(changes) || changes == 0 && m[1] == "",
		"%q changes, and there are %d", m[1], changes)
	w.check(m[2] == fmt.Sprint(tails), "%s tails, and there are %d", m[2], tails)
	w.check(m[3] == fmt.Sprint(stitch) || stitch == 0 && m[3] == "",
		"%q tails to hemstitch with, and there are %d", m[3], stitch)
}

// separatorTold holds the separator that is said over a list against its step, and gives what
// is said before it.
func (w *weaver) separatorTold(words string, s *sheet) string {
	rest, told, _ := cutLast(words, "; for the separator ")
	told, single := strings.CutSuffix(told, ", one strand")
	colour := ""
	for _, st := range s.steps {
		if st.kind == "separator" {
			colour = st.ground
		}
	}
	w.check((told == "") == (colour == ""), "%q is for the separator of %s", told, colour)
	if told != "" {
		w.check(w.chip(told) == colour, "%s is for the separator of %s", told, colour)
		w.check(single == (s.beat.strands > 1), "the separator's strands: %q", words)
	}
	return rest
}

// listed holds the colours over a list against those in it.
func (w *weaver) listed(words string, s *sheet) {
	used := map[string]bool{}
	for _, st := range s.steps {
		if st.kind == "separator" {
			continue
		}
		for _, k := range shuttlesOf(st) {
			used[k.letter] = true
		}
	}
	said := w.chips(words, ", ")
	for _, letter := range said {
		w.check(used[letter], "%s is over the list and not in it", letter)
	}
	w.check(len(said) == len(used), "%d colours over the list, and %d in it", len(said), len(used))
}

// sampleEnds holds what becomes of the sample against the warp that was wound: only where
// there is some for tying on again is it cut off before the pieces.
func (w *weaver) sampleEnds(page []block) {
	again := false
	for _, p := range w.warp.parts {
		again = again || p.what == "tying on again after the sample"
	}
	off := find(page, `^☐ Let the tension off first, and hold the ratchet:`) != nil
	stays := find(page, `It is measured on the loom and stays on: no warp is allowed`) != nil
	later := find(w.under("Off the loom"),
		`^☐ The sample first: .*zigzag .*cut it off`) != nil
	w.check(off == again && stays == !again && later == !again,
		"warp to tie on again: %v; cut off: %v, stays: %v", again, off, stays)
}

// sampleSizes holds the sizes to measure on the sample against those of the first page and
// what was woven.
func (w *weaver) sampleSizes(page []block, s sheet) {
	for _, row := range w.tableWith(page, "Planned, on the loom").rows {
		switch row[0] {
		case "width":
			w.check(row[1] == w.cloth.width[1] && row[3] == w.cloth.width[2],
				"the sample is %s and %s wide, on the first page %q", row[1], row[3], w.cloth.width)
		case "length":
			w.check(w.length(row[1]).within(s.woven.v, s.woven.half), "the sample is %s long",
				row[1])
			w.washed = w.length(row[3])
		default:
			w.doubt("which size is %q?", row[0])
		}
	}
}
