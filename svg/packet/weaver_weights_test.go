package packet_test

import "strings"

// runOf reads how many metres of a yarn go into a kilogram; three figures of it are told.
func (w *weaver) runOf(words string) float64 {
	m := groups(`, (?:about )?(\d+(?:\.\d+)?) (m/kg|yd/lb)(?:, |$)`, words)
	if m == nil {
		w.doubt("how thick is %q?", words)
		return 1
	}
	run := w.figure(figureOf(m[0])).v
	if m[1] == "yd/lb" {
		run *= 0.9144 / 0.45359237
	}
	return run
}

// weigh holds what the weft of each piece weighs against its picks, and so the warp.
func (w *weaver) weigh() {
	at := w.done
	for _, b := range w.under("Will this tube finish the piece?") {
		if b.table == nil {
			continue
		}
		pieces := len(b.table.head) - 3 // colour, warp and ten metres stand beside them
		for _, row := range b.table.rows {
			letter := w.chip(row[0])
			for i := range pieces {
				if at+i < len(w.pieces) && w.isPiece(b.table.head[1+i], at+i) {
					w.weighs(letter, w.metresOf(letter, w.pieces[at+i]), row[1+i])
				} else {
					w.doubt("which piece is %q?", b.table.head[1+i])
				}
			}
			w.weighs(letter, w.spent()[letter].warp, row[1+pieces])
		}
		at += pieces
	}
	w.check(at == len(w.pieces), "%d pieces are weighed", at)
}

// metresOf is the weft that a piece takes of a colour, with the separator after it.
func (w *weaver) metresOf(letter string, s sheet) (metres amount) {
	metres = s.tailsOf(letter)
	for _, picks := range [][]pick{s.picks, s.separator} {
		for _, p := range picks {
			n := 1.0
			if p.pattern {
				n = float64(w.cloth.strands)
			}
			if p.colour == letter {
				metres.v += n * w.cloth.pick.v / 1000
				metres.half += n * w.cloth.pick.half / 1000
			}
		}
	}
	return metres
}

// weighs holds a weight in grams, beside which one in ounces may stand, against metres.
func (w *weaver) weighs(letter string, metres amount, cell string) {
	if cell == "–" {
		w.check(metres.v == 0, "%s weighs nothing, and takes %.1f m", letter, metres.v)
		return
	}
	lines := strings.Split(cell, "\n")
	figure, ok := strings.CutSuffix(lines[len(lines)-1], " g")
	if !ok || w.runs[letter] == 0 {
		w.doubt("what does %s weigh: %q?", letter, cell)
		return
	}
	const threeFigures = 0.005
	grams := 1000 * metres.v / w.runs[letter]
	give := 1000*metres.half/w.runs[letter] + grams*threeFigures
	w.check(w.figure(figureOf(figure)).within(grams, give),
		"%s: %.1f m weigh %.1f g, and it says %q", letter, metres.v, grams, cell)
}
