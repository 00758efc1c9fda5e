package svg

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"stripesong/sequence/plan"
)

// Trials draws a sheet of rhythms to choose from: each the face of the piece as
// it looks from across the table, all at one true scale, with its number, its
// rule, how well it shows, and how it differs from its neighbours.
func Trials(w io.Writer, t *plan.Trials) error {
	if len(t.Cells) == 0 {
		return fmt.Errorf("nothing to draw: there are no trials")
	}
	s := &trialSheet{pen: open(w, setWidth, setHeight, t.Title, describeTrials(t)), trials: t}
	s.heading()
	s.measure()
	for i := range t.Cells {
		s.cell(i)
	}
	return s.pen.finish()
}

type trialSheet struct {
	pen           *pen
	trials        *plan.Trials
	cellW, cellH  um
	width, height um // of a picture
}

// The rows of words under a picture: number and contrast, neighbours and seed,
// and some for the rule, of which the colours have at least one.
const (
	trialTop   = 17 * mm
	ruleLines  = 4
	trialWords = ruleLines + 2
	trialGap   = 2 * mm
)

func whatIsTried(t *plan.Trials) string {
	if t.Warp {
		return fmt.Sprintf("%d warps, with %s on them", len(t.Cells), t.Piece)
	}
	return fmt.Sprintf("%d rhythms for %s", len(t.Cells), t.Piece)
}

func describeTrials(t *plan.Trials) string {
	var all []string
	for _, c := range t.Cells {
		all = append(all, fmt.Sprintf("%d: %s, in %s, %s", c.Number, c.Rhythm,
			coloursOf(&c, t.Warp), gradesOf(c)))
	}
	return whatIsTried(t) + ", row by row. " + strings.Join(all, ". ") + "."
}

func (s *trialSheet) heading() {
	t := s.trials
	s.pen.text(margin, 9*mm, head, head.fit(titleOf(&plan.Plan{Title: t.Title}), 150*mm))
	s.pen.text(setWidth-margin, 9*mm, body.at(end),
		body.fit(fmt.Sprintf("%s, seed %d", whatIsTried(t), t.Seed), 105*mm))
	s.pen.stroke(outline(nil).line(margin, 11500, setWidth-margin, 11500), hair, 200)
	s.pen.text(margin, 15*mm, small, small.fit(s.explained(), setWidth-2*margin))
	s.pen.text(setWidth-margin, setHeight-2*mm, small.at(end),
		"colours here are not yarn: weave and wash a sample")
}

// explained says what a picture is, and what is written beside it.
func (s *trialSheet) explained() string {
	return fmt.Sprintf("faces from across the table, without hems; how plainly the faintest "+
		"pattern shows from %s; "+
		"arrows: how much the next one and the one below differ (mean dE00; 1 is just seen)",
		s.trials.Cells[0].Plan.FromTable())
}

// measure finds the one scale at which all pictures have room.
func (s *trialSheet) measure() {
	t := s.trials
	s.cellW = (setWidth - 2*margin) / um(t.Columns())
	s.cellH = (setHeight - trialTop - margin) / um(t.Rows)
	w, h := s.cellW-trialGap, s.cellH-um(trialWords)*small.line()-trialGap
	var widest, longest um
	for i := range t.Cells {
		size := sizesOf(t.Cells[i].Plan, &t.Cells[i].Plan.Pieces[0])
		widest, longest = max(widest, size.width), max(longest, size.body)
	}
	scaled := scale{w, max(widest, 1)}
	if scaled.of(longest) > h {
		scaled = scale{h, max(longest, 1)}
	}
	s.width, s.height = scaled.of(widest), scaled.of(longest)
}

func (s *trialSheet) cell(i int) {
	t := &s.trials.Cells[i]
	x := margin + um(i%s.trials.Columns())*s.cellW
	y := trialTop + um(i/s.trials.Columns())*s.cellH
	s.pen.group()
	s.pen.title(fmt.Sprintf("%d: %s; %s", t.Number, t.Rhythm, coloursOf(t, s.trials.Warp)))
	s.face(t, x, y+s.height)
	s.pen.end()
	s.words(t, x, y+s.height)
}

// face draws the body standing on y.
func (s *trialSheet) face(t *plan.Trial, x, y um) {
	m, piece := newMixed(s.pen, t.Plan), &t.Plan.Pieces[0]
	s.pen.canvas.Def()
	for _, run := range piece.Runs {
		m.need(kindOf(run, false))
	}
	s.pen.canvas.DefEnd()
	m.side(piece, x, y, s.width, sizes{body: s.height}, false)
}

func (s *trialSheet) words(t *plan.Trial, x, y um) {
	room := s.cellW - trialGap
	number := body.heavy()
	y += number.line()
	s.pen.text(x, y, number, strconv.Itoa(t.Number))
	s.pen.text(x+room, y, small.in(black).at(end),
		small.fit(gradesOf(*t), room-number.width("00 ")))
	y += small.line()
	s.pen.text(x, y, small, neighboursOf(t))
	seeds, words := seedsOf(t), t.Rhythm
	if beside := room - small.width(neighboursOf(t)+" "); small.width(seeds) <= beside {
		s.pen.text(x+room, y, small.at(end), seeds)
	} else {
		words = seeds + ": " + words
	}
	rule := small.lines(words, room, ruleLines-1)
	for _, words := range append(rule,
		small.lines(coloursOf(t, s.trials.Warp), room, ruleLines-len(rule))...) {
		y += small.line()
		s.pen.text(x, y, small, words)
	}
}

// coloursOf are the colours that are tried, each once, in the order they come.
func coloursOf(t *plan.Trial, warp bool) string {
	var names []string
	note := func(name string) {
		if name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	if warp {
		for _, r := range t.Plan.Warp.Runs {
			note(r.Colour)
		}
	} else {
		for _, r := range t.Plan.Pieces[0].Runs {
			note(r.Pattern)
		}
	}
	return strings.Join(names, ", ")
}

// seedsOf is the seeds of a trial's rule.
func seedsOf(t *plan.Trial) string {
	words := make([]string, len(t.Seeds))
	for i, seed := range t.Seeds {
		words[i] = strconv.FormatInt(seed, 10)
	}
	switch len(words) {
	case 0:
		return ""
	case 1:
		return "seed " + words[0]
	}
	return "seeds " + strings.Join(words, ", ")
}

// gradesOf is how the contrast of a trial shows that shows least, with its range.
func gradesOf(t plan.Trial) string { return t.Worst.Words() }

// neighboursOf is how far the next in the row and the one below differ.
func neighboursOf(t *plan.Trial) string {
	var words []string
	if t.Right >= 0 {
		words = append(words, "→ "+tenth(t.Right))
	}
	if t.Below >= 0 {
		words = append(words, "↓ "+tenth(t.Below))
	}
	return strings.Join(words, "  ")
}
