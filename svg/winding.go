package svg

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/plan"
)

// windingWidth is how wide the bars of the winding sheet are: what both A4 and
// Letter have room for.
const windingWidth = 180 * mm

// MakeUp draws what the wound warp is made of, as a bar of numbered parts; the
// numbers are those of the plan's Warp.MakeUp, from 1.
func MakeUp(w io.Writer, p *plan.Plan) error {
	long, words := loomwork.MakeUpWords(p), []string(nil)
	for i, part := range p.Warp.MakeUp {
		words = append(words, fmt.Sprintf("%d %s %s %s", i+1, part.What, part.Piece, long[i]))
	}
	pen := open(w, windingWidth, 17*mm, "What the length of the warp is made of",
		strings.Join(words, "; "))
	at := um(0)
	sum := 0.0
	for i, share := range p.Warp.MakeUp {
		sum += share.WoundMM
		to := part(windingWidth-mm, int(micrometres(sum)/100),
			max(int(micrometres(p.Warp.WoundMM)/100), 1))
		fill := paper
		if share.What != "piece" {
			fill = shaded
		}
		pen.outlined(rect(at+500, 1*mm, to-at, 9*mm), fill, black, 250)
		number := strconv.Itoa(i + 1)
		if draftNumber.width(number) < to-at {
			pen.text((at+to)/2+500, 6700, draftNumber.at(middle), number)
		} else {
			pen.text((at+to)/2+500, 14*mm, tapeSmall.in(black).at(middle), number)
		}
		at = to
	}
	return pen.finish()
}

// Stripes draws the warp across, as the weaver faces the loom, with the
// letters of its colours above and the bouts below.
func Stripes(w io.Writer, p *plan.Plan) error {
	letters := loomwork.LettersOf(p)
	pen := open(w, windingWidth, 28*mm, "The stripes of the warp, left to right", stripesInWords(p))
	place := func(ends int) um { return 500 + part(windingWidth-mm, ends, max(p.Warp.Ends, 1)) }
	ends := 0
	for _, run := range p.Warp.Runs {
		from, to := place(ends), place(ends+run.Ends)
		pen.outlined(rect(from, 5*mm, to-from, 13*mm), inkOf(pen, p, run.Colour), line, 100)
		if letter := letters[run.Colour]; draftNumber.width(letter) < to-from {
			pen.text((from+to)/2, 4*mm, draftNumber.at(middle), letter)
		}
		ends += run.Ends
	}
	bouts := outline(nil)
	for i, b := range loomwork.Bouts(p) {
		from, to := place(b.From-1), place(b.To)
		bouts = bouts.line(from, 19*mm, from, 22*mm, to, 22*mm, to, 19*mm)
		if name := strconv.Itoa(i + 1); draftNumber.width(name) < to-from {
			pen.text((from+to)/2, 26*mm, draftNumber.at(middle), name)
		}
	}
	pen.stroke(bouts, black, 250)
	return pen.finish()
}

func stripesInWords(p *plan.Plan) string {
	var words []string
	for _, run := range p.Warp.Runs {
		words = append(words, fmt.Sprintf("%d ends %s", run.Ends, run.Colour))
	}
	return strings.Join(words, "; ")
}
