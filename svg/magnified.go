package svg

import (
	"fmt"
	"io"

	"stripesong/palette"
	"stripesong/sequence/look"
	"stripesong/sequence/plan"
	"stripesong/sequence/weave"
)

// MagnifiedPixels is how wide and high the drawing of [Magnified] is meant to be
// shown, in pixels of a screen.
const MagnifiedPixels = 300

// The drawing has a millimetre to each of these pixels. An end is at least so wide
// that 20 are seen, and wider where the thinnest thread would else have less than four
// pixels; five at least are always seen.
const (
	pixel         = mm
	magnifiedSize = MagnifiedPixels * pixel
	closestPitch  = magnifiedSize / 20
	widestPitch   = magnifiedSize / 5
	thinnestShown = 4 * pixel
)

// Magnifier says what of a piece is magnified: the crossing in the middle, by the end's
// place from the left as the side is seen and by the pick, both from 0; which side; and
// through what eyes, nil for those that see all colours.
type Magnifier struct {
	Column, Pick int
	Back         bool
	See          func(palette.Linear) palette.Linear
}

// Magnified draws a little of piece i (from 0) thread by thread, in the proportions of
// the finished cloth and with the same shapes as its sheet, every thread edged; what
// lies beyond the cloth is dark. It fails where there is no such piece, end or pick,
// where the plan contradicts itself, or where w does.
func Magnified(w io.Writer, p *plan.Plan, i int, at Magnifier) error {
	c, err := clothOf(p, i)
	if err != nil {
		return err
	}
	if at.Column < 0 || at.Column >= len(c.ends) || at.Pick < 0 || at.Pick >= len(c.picks) {
		return fmt.Errorf("piece %d has no end %d or no pick %d", i+1, at.Column+1, at.Pick+1)
	}
	if p.Warp.FinishedWidthMM <= 0 {
		return fmt.Errorf("the warp has no width")
	}
	pen := open(w, magnifiedSize, magnifiedSize, p.Pieces[i].Name, "thread by thread")
	m := &magnified{pieceCloth{p, &p.Pieces[i], c}, pen, at}
	m.draw()
	return pen.finish()
}

type magnified struct {
	pieceCloth
	pen *pen
	at  Magnifier
}

func (m *magnified) draw() {
	t := newThreads(m.pen, m.plan, len(m.cloth.ends), um(len(m.cloth.ends))*pixel)
	t.see = m.at.See
	pitch := m.pitch(t)
	t.edge = pitch / 30
	m.pen.fill(rect(0, 0, magnifiedSize, magnifiedSize), black)
	strips, foot := m.strips(pitch)
	from, past := m.columns(pitch)
	left := magnifiedSize/2 - pitch/2 - um(m.at.Column-from)*pitch
	if m.at.Back {
		from, past = len(m.cloth.ends)-past, len(m.cloth.ends)-from
	}
	mark := m.mark(t, pitch)
	t.cut(from, past, pitch)
	t.draw(left, strips.laid(foot), sideName(m.at.Back))
	m.pen.stroke(mark, black, pixel*5/2)
	m.pen.stroke(mark, paper, pixel*3/2)
}

// pitch is from end to end, the same wherever a piece is looked at.
func (m *magnified) pitch(t *threads) um {
	thinnest := float64(1)
	for _, span := range m.cloth.spans {
		strip, _ := m.stripAt(span.from, widestPitch, m.at.Back)
		for _, run := range t.runs {
			drawn, _ := t.drawn(strip.weftKind, run.WarpRun)
			thick := t.shaper(strip, drawn).thick()
			all := []float64{thick[look.GroundYarn], float64(drawn.Widths.Warp * float64(widestPitch))}
			if !strip.plain() {
				all = append(all, thick[look.PatternYarn])
			}
			for _, one := range all {
				thinnest = min(thinnest, one/float64(widestPitch))
			}
		}
	}
	if thinnest <= 0 {
		return widestPitch
	}
	need := umOf(float64(thinnestShown)/thinnest) + 1
	return min(widestPitch, max(closestPitch, need))
}

// strips are those that are seen, and where the lowest stands.
func (m *magnified) strips(pitch um) (*enlarged, um) {
	pick := m.at.Pick
	first := m.stripStart(pick)
	one, picks := m.stripAt(first, pitch, m.at.Back)
	foot := magnifiedSize/2 + picks[pick-first]
	all := &enlarged{strips: []weftStrip{one}, picks: picks, pitch: pitch}
	top := foot - one.h
	for next := first + len(picks); top > 0 && next < len(m.cloth.picks); {
		one, picks := m.stripAt(next, pitch, m.at.Back)
		all.strips = append(all.strips, one)
		top, next = top-one.h, next+len(picks)
	}
	for first > 0 && foot < magnifiedSize {
		first = m.stripStart(first - 1)
		one, _ := m.stripAt(first, pitch, m.at.Back)
		all.strips = append([]weftStrip{one}, all.strips...)
		foot += one.h
	}
	return all, foot
}

// stripStart is the first pick of the strip that a pick is in.
func (c *pieceCloth) stripStart(pick int) int {
	span := c.spanAt(pick)
	if span.run < 0 {
		return pick
	}
	return pick - (pick-span.from)%span.unit
}

// columns are the ends that are seen, as the side is, with what it takes for floats
// that reach beyond them to be whole.
func (m *magnified) columns(pitch um) (from, past int) {
	half := int(magnifiedSize/2/pitch) + 1
	ends := len(m.cloth.ends)
	from, past = max(0, m.at.Column-half), min(ends, m.at.Column+half+1)
	return m.beyondFloats(from, -1), m.beyondFloats(past, 1)
}

// beyondFloats moves a cut before a column on until it lies beyond every pattern float
// that was across it.
func (m *magnified) beyondFloats(cut, step int) int {
	far := cut
	for _, pick := range m.patterns() {
		covers := func(x int) bool {
			return pick.Covers(m.cloth.ends[m.cloth.column(x, m.at.Back)].shaft) != m.at.Back
		}
		at := cut
		for at > 0 && at < len(m.cloth.ends) && covers(at-1) && covers(at) {
			at += step
		}
		if (at-far)*step > 0 {
			far = at
		}
	}
	return far
}

// patterns are the sheds of all pattern picks of the piece.
func (c *pieceCloth) patterns() (all []weave.Shed) {
	blocks := map[string]bool{}
	for _, span := range c.cloth.spans {
		if span.hem || blocks[span.block] {
			continue
		}
		blocks[span.block] = true
		for _, pick := range span.picks(c.plan.In(c.piece.PickOrder)) {
			if pick.Pattern {
				all = append(all, pick.Shed)
			}
		}
	}
	return all
}

// mark is a frame about the crossing in the middle.
func (m *magnified) mark(t *threads, pitch um) outline {
	first := m.stripStart(m.at.Pick)
	strip, _ := m.stripAt(first, pitch, m.at.Back)
	pick := t.unit(strip)
	pattern := len(pick) > 1 && pick[m.at.Pick-first].Pattern
	end := m.cloth.column(m.at.Column, m.at.Back)
	drawn, _ := t.drawn(strip.weftKind, t.runs[t.of[end]].WarpRun)
	thick := t.shaper(strip, drawn).thick()
	high := umOf(thick[look.GroundYarn])
	if pattern {
		high = umOf(thick[look.PatternYarn] * float64(max(1, m.plan.Cloth.Strands)))
	}
	return rect(magnifiedSize/2-pitch/2, magnifiedSize/2-high/2, pitch, high)
}
