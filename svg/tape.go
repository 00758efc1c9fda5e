package svg

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"stripesong/sequence/loomwork"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

// A strip of a tape, across: the rule along its left edge, which is laid
// against the cloth; a band in the colours woven; names. Above and below the
// measured stretch there is paper for the joins.
const (
	stripWidth  = 37 * mm // the narrowest, of which five stand side by side on a page
	stripWidest = 60 * mm // the widest, where there are few
	ruleTo      = 9 * mm
	bandTo      = 13 * mm
	namesFrom   = 16500 * um(1)
	joinAbove   = 9 * mm
	joinBelow   = 6 * mm
	namePitch   = 3300 * um(1)
)

var (
	tapeName  = font{size: 2500, colour: black}
	tapeSmall = font{size: 2300, colour: quiet}
)

// Tape is the tape of one piece, from which strips are drawn.
type Tape struct {
	plan    *plan.Plan
	tape    loomwork.Tape
	steps   []loomwork.Step
	letters map[string]string
	shades  *plan.Shades
	name    string
}

// NewTape prepares the tape of piece i (from 0) at true size.
func NewTape(p *plan.Plan, i int) *Tape {
	t := &Tape{plan: p, tape: loomwork.TapeOf(p, i), steps: loomwork.StepsOf(p, i),
		letters: loomwork.LettersOf(p),
		shades:  p.Shades(), name: fmt.Sprintf("%d %s", i+1, p.Pieces[i].Name)}
	return t
}

// Strips is how many strips there are.
func (t *Tape) Strips() int { return len(t.tape.Strips) }

// Strip writes one strip (from 0), one millimetre of cloth to a millimetre of
// paper. The first pick is at the foot of the first.
func (t *Tape) Strip(w io.Writer, n int) error {
	strip := t.tape.Strips[n]
	s := &tapeStrip{Tape: t, strip: strip, foot: joinAbove + micrometres(strip.To-strip.From)}
	s.pen = open(w, s.width(), s.foot+joinBelow, s.title(n), s.describe())
	s.joins(n)
	s.bands()
	s.rule()
	s.names(n == t.Strips()-1)
	return s.pen.finish()
}

// width is how wide each strip is: as wide as there is room for side by side.
func (t *Tape) width() um {
	return min(stripWidest, max(stripWidth, 5*stripWidth/um(t.Strips())))
}

type tapeStrip struct {
	*Tape
	pen   *pen
	strip loomwork.Strip
	foot  um // where the strip's stretch begins, on paper
}

func (s *tapeStrip) title(n int) string {
	return fmt.Sprintf("Tape of %s, strip %d of %d, %s to %s", s.name, n+1, s.Strips(),
		measure.FormatLength(s.strip.From, s.plan.Units),
		measure.FormatLength(s.strip.To, s.plan.Units))
}

func (s *tapeStrip) describe() string {
	var words []string
	for _, m := range s.tape.Marks {
		if s.holds(m.MM, true) {
			words = append(words, measure.FormatLength(m.MM, s.plan.Units)+" "+s.nameOf(m))
		}
	}
	return "Marks: " + strings.Join(words, "; ")
}

// holds tells whether a place lies on this strip; the end only where asked.
func (s *tapeStrip) holds(at float64, end bool) bool {
	return at >= s.strip.From && (at < s.strip.To || end && at == s.strip.To)
}

// y is where a place on the tape lies on paper.
func (s *tapeStrip) y(at float64) um { return s.foot - micrometres(at-s.strip.From) }

// bands fills the tape with what is woven as it looks on the face.
func (s *tapeStrip) bands() {
	for _, b := range s.tape.Bands {
		from, to := max(b.From, s.strip.From), min(b.To, s.strip.To)
		if from >= to {
			continue
		}
		y := s.y(to)
		box := rect(ruleTo, y, bandTo-ruleTo, s.y(from)-y)
		mix := s.mixOf(s.steps[b.Step])
		if mix == nil {
			s.pen.fail(fmt.Errorf("the plan mixes no colour for %s",
				s.nameOf(loomwork.Mark{Step: b.Step})))
			return
		}
		s.pen.outlined(box, ink(mix.RGB), line, 100)
	}
}

// mixOf is the mixed colour of a step over the most of the warp: of pattern, where it
// shows on the face, so over the warp of its own block.
func (t *Tape) mixOf(step loomwork.Step) *plan.Mix {
	ends := map[plan.WarpRun]int{}
	var most plan.WarpRun
	for _, run := range t.plan.Warp.Runs {
		kind := plan.WarpRun{Block: run.Block, Colour: run.Colour}
		if step.Block == "" {
			kind.Block = ""
		}
		if ends[kind] += run.Ends; kind.Block == step.Block && ends[kind] > ends[most] {
			most = kind
		}
	}
	if step.Kind == loomwork.Body {
		weft := plan.WeftRun{Block: step.Block, Ground: step.Ground, Pattern: step.Pattern,
			PickOrder: step.Order}
		if ends[most] == 0 { // no warp of that block: it never shows
			most = t.plan.Warp.Runs[0]
		}
		return t.shades.Body(most, weft, false)
	}
	return t.shades.Hem(most.Colour, step.Ground)
}

// rule draws centimetres or inches along the left edge.
func (s *tapeStrip) rule() {
	step, every := 5.0, 2 // half centimetres
	if s.plan.Units == "in" {
		step, every = 6.35, 4 // quarters of an inch
	}
	ticks := outline(nil).line(0, s.y(s.strip.To), 0, s.foot)
	for k := int(s.strip.From/step + 0.5); float64(k)*step <= s.strip.To+0.01; k++ {
		y := s.y(max(float64(k)*step, s.strip.From))
		length := um(2200)
		if k%every == 0 {
			length = 4200
			s.pen.text(4700, max(joinAbove+2200, min(y+900, s.foot-500)), tapeName,
				strconv.Itoa(k/every))
		}
		ticks = ticks.line(0, y, length, y)
	}
	s.pen.stroke(ticks, black, 220)
}

// names ties the marks to what begins there.
func (s *tapeStrip) names(last bool) {
	marks, ties := outline(nil), outline(nil)
	var held []loomwork.Mark // from the top down
	for k := range s.tape.Marks {
		if m := s.tape.Marks[len(s.tape.Marks)-1-k]; s.holds(m.MM, last) {
			held = append(held, m)
			y := s.y(m.MM)
			marks = marks.line(0, y, 4400, y).line(ruleTo-300, y, bandTo+1500, y)
		}
	}
	s.pen.stroke(marks, black, 350)
	shown := named(held, int((s.foot-joinAbove-3400)/namePitch))
	var want []um
	for _, m := range shown {
		want = append(want, s.y(m.MM))
	}
	places := spread(want, namePitch, joinAbove+1800, s.foot-1600)
	top := joinAbove + 1800 - namePitch // where the name above ends
	for i, y := range places {
		next := s.foot - 1600 + namePitch
		if i+1 < len(places) {
			next = places[i+1]
		}
		ties = ties.line(bandTo+1500, want[i], namesFrom-400, y)
		top = s.nameBeside(shown[i], y, int((y-top)/namePitch)-1, int((next-y)/namePitch))
	}
	s.pen.stroke(ties, line, 150)
}

// nameBeside writes what begins at a mark, beside it and, where the name is long,
// into the paper that is free below, then above, in lines. It gives the place
// of its last line.
func (s *tapeStrip) nameBeside(m loomwork.Mark, y um, above, below int) um {
	f := tapeName
	if m.What != loomwork.Change {
		f = f.heavy()
	}
	above, below = max(above, 0), max(below, 1)
	lines := f.lines(s.nameOf(m), s.width()-namesFrom-300, min(above+below, 3))
	y -= um(max(len(lines)-below, 0)) * 2900
	for i, l := range lines {
		s.pen.text(namesFrom, y+900+um(i)*2900, f, l)
	}
	return y + um(len(lines)-1)*2900
}

// named leaves changes unnamed where there are more marks than names fit;
// hems, the middle and the ends keep theirs.
func named(marks []loomwork.Mark, most int) (shown []loomwork.Mark) {
	changes := 0
	for _, m := range marks {
		if m.What == loomwork.Change {
			changes++
		}
	}
	every := 1
	if over := len(marks) - max(most, 1); over > 0 {
		every = changes/max(changes-over, 1) + 1
	}
	n := 0
	for _, m := range marks {
		if m.What == loomwork.Change {
			if n++; n%every != 0 {
				continue
			}
		}
		shown = append(shown, m)
	}
	return shown
}

// nameOf says what begins at a mark.
func (t *Tape) nameOf(m loomwork.Mark) string {
	if m.Step < 0 {
		return string(m.What)
	}
	step := t.steps[m.Step]
	fold := ""
	if m.What == loomwork.Fold {
		fold = "fold · "
	}
	switch {
	case step.Kind == loomwork.Hem:
		return fold + "hem · " + t.letters[step.Ground] + " " + step.Ground
	case step.Kind == loomwork.Show:
		return fold + "in sight · " + t.letters[step.Ground] + " " + step.Ground
	case step.Pattern == "":
		return "plain · " + t.letters[step.Ground]
	}
	return step.Block + " · " + t.letters[step.Pattern] + " " + step.Pattern
}

// joins draws the tab to be glued under the next strip, and where this one is
// cut to be laid over the last.
func (s *tapeStrip) joins(n int) {
	above, below := "end of the tape", "strip 1: first pick here"
	if n+1 < s.Strips() {
		above = fmt.Sprintf("join %d: glue under strip %d", n+1, n+2)
		s.pen.fill(rect(0, 0, s.width()-mm, joinAbove), shaded)
	}
	if n > 0 {
		below = fmt.Sprintf("strip %d: cut here, join %d", n+1, n)
	}
	top := s.y(s.strip.To)
	s.pen.text(1500, top-2500, tapeSmall.in(black), above)
	s.pen.text(1500, s.foot+3600, tapeSmall.in(black), below)
	s.pen.stroke(outline(nil).line(0, top, s.width()-mm, top).line(0, s.foot, s.width()-mm,
		s.foot), black, 250)
}
