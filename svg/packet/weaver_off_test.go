package packet_test

import (
	"fmt"
	"slices"
	"strings"
)

// cut is a line of where to cut, in mm from the first pick of the first piece.
type cut struct {
	at    amount
	picks int
}

// size is what a piece should be, in mm.
type size struct{ woven, washed, hemmed amount }

// finishing reads where to cut, and holds it against the cloth that was woven.
func (w *weaver) finishing() {
	page := w.under("Off the loom")
	sizes := w.tableWith(page, "On the loom")
	w.check((sizes.column("Hemmed") >= 0) == w.hemmed(), "columns are %q", sizes.head)
	for i, row := range sizes.rows {
		if len(row) == 4 { // nothing is folded: it is finished once it is washed
			row = append(row, row[3])
		}
		for k := 2; k < 5; k++ { // a line to write on stands beside each
			row[k] = strings.TrimSuffix(row[k], " ____")
		}
		w.sizes = append(w.sizes, size{w.length(row[2]), w.length(row[3]), w.length(row[4])})
		if i < len(w.pieces) {
			w.check(row[0] == fmt.Sprint(i+1) && row[1] == w.pieces[i].name,
				"size %d is of %q", i+1, row[1])
			w.check(row[2] == w.lastLength(w.pieces[i]),
				"piece %d is %s long, and came out %s", i+1, row[2], w.lastLength(w.pieces[i]))
		}
	}
	w.partNames()
	w.washing(page)
	if s := w.sample; s != nil && len(w.sizes) > 0 {
		first := w.sizes[0]
		want := s.woven.v * first.washed.v / first.woven.v
		give := s.woven.half + s.woven.v*(first.washed.half+first.woven.half)/first.woven.v
		w.check(w.washed.within(want, give), "the sample washes to %.1f mm, not %.1f", want,
			w.washed.v)
	}
	if len(w.pieces) == 1 {
		return
	}
	cuts := w.tableWith(page, "Was at, on the loom")
	rows := cuts.rows
	w.check(len(rows) == len(w.pieces)-1, "%d cuts for %d pieces", len(rows), len(w.pieces))
	from := amount{}
	for i, row := range rows {
		if i+1 < len(w.pieces) {
			w.check(w.isPiece(row[0], i) && w.isPiece(row[1], i+1),
				"cut %d is between %q and %q", i+1, row[0], row[1])
			from = w.cut(row, w.pieces[i], w.pieces[i+1], from)
			w.cutWashed(cuts, row, w.pieces[i])
		}
	}
}

// washing holds the order in which cloth is washed: what is to be minded comes before the first
// water, cloth is pressed while it is damp, and measured once it is dry.
func (w *weaver) washing(page []block) {
	var order []string
	for _, b := range page {
		for _, what := range [][2]string{{"mind", `^☐ (First wash by itself|Wool felts)`},
			{"sample", `^☐ (The sample first:) .* Wash it before the pieces, press it while still ` +
				`damp, let it dry flat, measure it`},
			{"wash", `^☐ (Wash) (?:as|by hand and lukewarm, as) the pieces will be washed in use`},
			{"press", `^☐ (Press while still damp)`},
			{"measure", `^☐ (Let it dry flat), not hot\. Then measure width and length of every piece`},
			{"apart", `^☐ (Cut the pieces apart along)`}, {"hem", `^☐ (Hems:)`}} {
			if find([]block{b}, what[1]) != nil && !slices.Contains(order, what[0]) {
				order = append(order, what[0])
			}
		}
	}
	due := []string{"wash", "press", "measure"}
	w.check(find(page, `^☐ (The sample first:)`) == nil || slices.Contains(order, "sample"),
		"how is the sample washed?")
	for _, may := range []string{"sample", "mind"} {
		if slices.Contains(order, may) {
			due = slices.Insert(due, 0, may)
		}
	}
	for _, may := range []string{"apart", "hem"} {
		if slices.Contains(order, may) {
			due = append(due, may)
		}
	}
	w.check(slices.Equal(order, due), "%q comes in this order, and %q is due", order, due)
	byHand := find(page, `wash (by hand and lukewarm throughout, the first time and always)`) != nil
	w.check(byHand == (find(page, `^☐ (Wash by hand and lukewarm)`) != nil) &&
		!(byHand && find(page, `(cool)`) != nil), "it is washed by hand: %v", byHand)
}

// partNames holds the parts of the warp's length, pieces first, against the pieces.
func (w *weaver) partNames() {
	for i, s := range w.ahead() {
		if i >= len(w.warp.parts) || w.warp.parts[i].what != s.name {
			w.doubt("part %d of the warp is not piece %q", i+1, s.name)
			continue
		}
		took := w.warp.parts[i].wound
		woven := s.woven.v / (1 - w.warp.takeUp)
		w.check(took.within(woven, s.woven.half/(1-w.warp.takeUp)+took.v*0.0001+took.half),
			"piece %d takes %.1f mm of warp, and it says %.1f", i+1, woven, took.v)
	}
}

// isPiece tells whether a name is that of piece i, from 0.
func (w *weaver) isPiece(name string, i int) bool {
	return name == w.pieces[i].name || name == fmt.Sprintf("%s (piece %d)", w.pieces[i].name, i+1)
}

// cut goes on from where a piece begins to where the next one does.
func (w *weaver) cut(row []string, s, next sheet, from amount) amount {
	c := cut{w.length(row[4]), w.number(row[3])}
	w.cuts = append(w.cuts, c)
	w.check(c.picks == len(s.separator),
		"a separator of %d picks after piece %d, and %d to cut", len(s.separator), s.number,
		c.picks)
	if len(s.separator) > 0 {
		w.check(w.chip(row[2]) == s.separator[0].colour, "the separator is not %s", row[2])
	} else {
		w.check(strings.HasPrefix(row[2], "none"), "there is no separator %s", row[2])
	}
	w.check(s.marked == (len(s.separator) == 0 && s.bare[1].v == 0),
		"where does the piece after piece %d begin?", s.number)
	separator, give := 0.0, 0.0
	if d := w.hemDensity(s); d.v > 0 {
		separator = float64(len(s.separator)) / d.v
		give = separator * d.half / (d.v - d.half)
	}
	at := from.v + s.woven.v + s.bare[1].v + separator/2
	off := from.half + s.woven.half + s.bare[1].half + give
	w.check(c.at.within(at, off),
		"after piece %d the cut is at %.1f mm, and the page says %s", s.number, at, row[4])
	return amount{at + separator/2 + next.bare[0].v, off + next.bare[0].half}
}

// cutWashed holds where to cut once the cloth is washed against where it lay on the loom;
// fringed pieces are cut apart before.
func (w *weaver) cutWashed(t *table, row []string, s sheet) {
	at := t.column("At, washed")
	w.check((at < 0) == (s.bare[1].v > 0), "piece %d: cut before the wash, or after?", s.number)
	if at < 0 || len(w.sizes) == 0 {
		return
	}
	first, woven := w.sizes[0], w.length(row[4])
	want := woven.v * first.washed.v / first.woven.v
	give := woven.half + woven.v*(first.washed.half+first.woven.half)/first.woven.v
	w.check(w.length(row[at]).within(want, give), "cut at %s, washed at %s", row[4], row[at])
}

// hemmed tells whether pieces have hems.
func (w *weaver) hemmed() bool { return w.hasStep("hem") }

// hasStep tells whether a piece has a step of a kind.
func (w *weaver) hasStep(kind string) bool {
	return slices.ContainsFunc(w.pieces, func(s sheet) bool {
		return slices.ContainsFunc(s.steps, func(st step) bool { return st.kind == kind })
	})
}

// hasPlain tells whether anything is woven with ground alone outside the bodies.
func (w *weaver) hasPlain() bool {
	return w.hemmed() || w.hasStep("plain that stays in sight") || w.hasStep("separator") ||
		w.sample != nil && w.sample.steps[0].kind != "body"
}

// ends is what plain ends are called on the first page.
func (w *weaver) ends() string {
	if w.hemmed() {
		return "Hems"
	}
	return "Plain ends"
}

// hemDensity is how close picks of ground alone lie where there are hems; that of the
// body elsewhere.
func (w *weaver) hemDensity(s sheet) amount {
	if s.beat.hem.v > 0 {
		return s.beat.hem
	}
	return s.beat.ground
}

// lastLength is the length that the list of a piece ends with.
func (w *weaver) lastLength(s sheet) string {
	if s.measured != "" {
		return s.measured
	}
	for _, st := range slices.Backward(s.steps) {
		if st.kind != "separator" && st.kind != "bare" {
			return st.woven
		}
	}
	return ""
}
