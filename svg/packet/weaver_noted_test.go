package packet_test

import "fmt"

// noted holds what is measured of a piece while it is under tension against its list.
func (w *weaver) noted(page []block, s *sheet) {
	if s.number == 0 {
		return
	}
	m := w.said(page, `^☐ When step (\d+) is woven measure, with the tension on: the width at the `+
		`fell, and the length as the tape reads at the last pick\.(?: Weigh (.+) again\.)?`+
		`\s*width ____ length ____(?: (weight after ____))?$`)
	last := 0
	for _, st := range s.steps {
		if st.kind != "separator" && st.kind != "bare" {
			last = st.number
		}
	}
	w.check(m[0] == fmt.Sprint(last), "the last pick is that of step %d, and it says %s", last,
		m[0])
	more := find(page, `^☐ (More is written down of this piece) .* At the middle of the tape measure `+
		`the width at the fell, with the tension on\.\s*(?:weight before ____ )?width in the middle ____$`)
	w.check((more != nil) == (s.number == w.done+1), "more of piece %d: %v", s.number, more)
	s.weighed = find(page, `Before step 1 weigh (.+) with all its tubes and bobbins: (\d+) picks of it `+
		`will tell what a pick takes\.[\s\S]*weight before ____`)
	w.check((s.weighed != nil) == (m[1] != "") && (m[1] != "") == (m[2] != ""),
		"what is weighed: %q and then %q", s.weighed, m)
	w.check(s.weighed == nil || s.weighed[0] == m[1], "%q is weighed, and then %q", s.weighed, m)
}

// measuring holds what is written down last against the piece it is of: its length, and the
// picks and the weight of the yarn that is weighed before and after.
func (w *weaver) measuring() {
	if len(w.pieces) <= w.done {
		return
	}
	s, under := w.pieces[w.done], ""
	planned := map[string]string{}
	for _, row := range w.tableWith(w.under("Measure and write down"), "Planned").rows {
		if m := groups(`^(\[+\w+\]+) (.*)$`, row[0]); m != nil {
			under = m[0]
			planned[under] = m[1]
			continue
		}
		planned[under+" "+row[0]] = row[2]
	}
	w.check(w.length(planned["[length] woven"]).agrees(s.woven.v) ||
		planned["[length] woven"] == w.lastLength(s), "piece %d is %s long, and it says %s",
		s.number, w.lastLength(s), planned["[length] woven"])
	w.said(w.under("Off the loom"), `Width and length under tension stand on the sheet of each piece`)
	for _, later := range w.pieces[w.done+1:] {
		w.check(later.weighed == nil, "a yarn is weighed for piece %d", later.number)
	}
	if s.weighed == nil {
		w.check(planned["[[weft]] picks"] == "", "no yarn is weighed")
		return
	}
	letter, picks := w.chip(s.weighed[0]), 0
	for _, p := range s.picks {
		if p.colour == letter {
			w.check(p.pattern, "%s is weighed, and thrown as ground too", s.weighed[0])
			picks++
		}
	}
	w.check(s.weighed[1] == fmt.Sprint(picks) && s.weighed[1] == planned["[[weft]] picks"],
		"%d picks are weighed, and it says %s and %s", picks, s.weighed[1],
		planned["[[weft]] picks"])
	w.check(planned["[[weft]] colour"] == w.names[letter], "%s is weighed", s.weighed[0])
}
