package packet_test

import (
	"fmt"
	"slices"
	"strings"
)

// threading threads unit by unit from the edge the page names.
func (w *weaver) threading() {
	page := w.under("Threading")
	edge := w.said(page, `^Thread unit by unit, from the (left|right) edge of the warp: `+
		`the shafts of a unit stand in the order in which its ends are threaded\.`)[0]
	w.closingEnd(page)
	units := map[string]string{}
	rows := w.tableWith(page, "Block and unit").rows
	w.check(len(rows) == len(w.warp.stripes),
		"%d stripes wound and %d threaded", len(w.warp.stripes), len(rows))
	for i, row := range rows {
		number := i + 1
		if edge == "right" {
			number = len(rows) - i
		}
		w.check(w.number(row[1]) == number, "stripe %s is threaded where %d is due", row[1], number)
		if number <= len(w.warp.stripes) && number > 0 {
			w.thread(w.warp.stripes[number-1], number, row, units, edge)
		}
	}
	w.check(w.warp.closed == (w.warp.closing.stripe > 0),
		"a closing end is threaded and not told, or told and not threaded")
	if edge == "right" {
		slices.Reverse(w.warp.ends)
	}
}

// closingEnd reads where the closing end is, and what lies beyond it.
func (w *weaver) closingEnd(page []block) {
	m := find(page, `^The closing end\. Stripe (\d+) has one end more, on shaft (\d+), `+
		`to the right of its last unit: (it is the middle of the warp\. From the next stripe `+
		`to the right edge every unit is turned round|its block ends as it begins)`)
	if m == nil {
		return
	}
	turns := strings.HasPrefix(m[2], "it is the middle")
	w.warp.closing = closing{w.number(m[0]), w.number(m[1]), turns}
	turned := find(page, `^Every unit of a block is threaded alike, `+
		`to the right of stripe (\d+) turned round`)
	w.check((turned != nil) == turns && (turned == nil || turned[0] == m[0]),
		"which units are turned?")
}

// thread threads one stripe, counting after each unit.
func (w *weaver) thread(s stripe, number int, row []string, known map[string]string, edge string) {
	from, took := len(w.warp.ends)+1, map[int]int{}
	unit, count := linesOf(row[3], 3), linesOf(row[4], 2)
	if first := groups(`^first the closing end: (\d+)$`, unit[0]); first != nil {
		w.closes(s, number, first[0], count[0], took)
		unit, count = unit[1:], count[1:]
	}
	m := groups(`^([A-Z]) × (\d+)$`, unit[0])
	if m == nil {
		w.doubt("what is threaded as %q?", unit[0])
		return
	}
	w.check(w.chip(row[2]) == s.colour && m[0] == s.block,
		"stripe %v is threaded as %s of %s", s, m[0], row[2])
	forward := unit[1]
	if w.warp.closing.turned && number > w.warp.closing.stripe {
		forward = fromBehind(forward)
	}
	if before, ok := known[m[0]]; ok {
		w.check(before == forward, "a unit of %s is %s and %s", m[0], before, forward)
	}
	known[m[0]] = forward
	shafts, after := w.numbers(unit[1]), w.numbers(count[0])
	w.check(len(after) == w.number(m[1]), "%s units and %d counts", m[1], len(after))
	for _, n := range after {
		for _, shaft := range shafts {
			w.warp.ends = append(w.warp.ends, end{s.colour, shaft})
			took[shaft]++
		}
		w.check(len(w.warp.ends) == n,
			"%d ends are threaded, and the count says %d", len(w.warp.ends), n)
	}
	if last := groups(`^then the closing end: (\d+)$`, unit[2]); last != nil {
		w.closes(s, number, last[0], count[1], took)
		unit, count = unit[1:], count[1:]
	}
	span := fmt.Sprintf("ends %d to %d", from, len(w.warp.ends))
	if edge == "right" {
		span += " from the right"
	}
	w.check(unit[2] == span, "%q should be %q", unit[2], span)
	w.check(len(w.warp.ends)-from+1 == s.ends,
		"%d ends wound, %d threaded", s.ends, len(w.warp.ends)-from+1)
	w.check(count[1] == "heddles by shaft: "+byShaft(took),
		"%q: it took %s", count[1], byShaft(took))
}

// closes threads the closing end, which is the last of its stripe or the first, as the
// row says it: by its shaft and by how many ends are threaded then.
func (w *weaver) closes(s stripe, number int, shaft, count string, took map[int]int) {
	w.warp.ends = append(w.warp.ends, end{s.colour, w.number(shaft)})
	took[w.number(shaft)]++
	w.check(number == w.warp.closing.stripe && w.number(shaft) == w.warp.closing.shaft,
		"the closing end of stripe %d on shaft %s, and %v", number, shaft, w.warp.closing)
	w.warp.closed = true
	w.check(count == fmt.Sprintf("the closing end: %d", len(w.warp.ends)),
		"%q, and %d ends are threaded", count, len(w.warp.ends))
}

// fromBehind is a list of shafts from its end to its beginning.
func fromBehind(shafts string) string {
	all := strings.Fields(shafts)
	slices.Reverse(all)
	return strings.Join(all, " ")
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

// heddlesFirst: heddles can be moved across only while no warp hangs between them.
func (w *weaver) heddlesFirst() {
	var order []string
	for _, b := range w.under("Reed and loom") {
		if b.level == 3 {
			order = append(order, b.text)
		}
	}
	w.check(len(order) > 0 && order[0] == "Heddles", "heddles are counted after %q", order)
	free := find(w.under("Beam"), `(push the heddles to both sides)`) != nil
	back := find(w.under("Beam"), `^☐ Draw the bouts back to behind the shafts, .*, and (bring `+
		`the heddles to the middle)`) != nil
	w.check(free == back, "the heddles are pushed to both sides: %v; and back: %v", free, back)
}

// heddles holds the heddles the page asks for against those that were used.
func (w *weaver) heddles() {
	page := w.under("Heddles")
	w.heddlesFirst()
	used := map[int]int{}
	for _, e := range w.warp.ends {
		used[e.shaft]++
	}
	for i, row := range w.tableWith(page, "Needed").rows {
		w.check(row[0] == fmt.Sprintf("shaft %d", i+1), "%q is not shaft %d", row[0], i+1)
		w.check(w.number(row[1]) == used[i+1],
			"shaft %d: %s heddles, and %d are used", i+1, row[1], used[i+1])
		w.loom.shafts = i + 1
	}
	w.check(w.number(w.said(page, `^(\d+) in all[.,]`)[0]) == len(w.warp.ends), "heddles in all")
}
