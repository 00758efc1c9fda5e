package main

import (
	"fmt"
	"strconv"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/fit"
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
)

var fitCommand = &command{
	name:    "fit",
	operand: "BRIEF",
	line:    "say how many pieces a warp gives, and how long each can be",
	about: `Says how many pieces of the brief's size a warp gives, how long each
can be where --pieces says how many, and what is left over. A table shows what more
pieces or longer ones would be. Waste, sample, fringes, separators and take-up are
those of the brief. If a warp given with --warp is too short for the brief, ways out follow;
--take N writes number N into BRIEF and keeps the brief as it was beside it.`,
	example: example{"stripesong fit towels.toml --warp \"4.5 yd\"",
		"a warp already on the loom"},
	exits: [3]string{"the warp gives a piece, or as many as asked for", "it does not",
		"a mistake, or a warp used up by waste and sample"},
	prepare: func(f *flags) work {
		t := newFitting(f)
		return t.run
	},
}

var fitChoices = []choice{
	{"length", "set.length", "LENGTH", "finished length of a piece, instead of the brief's",
		asText, nil},
	unitsChoice,
}

// fitting is one run of fit.
type fitting struct {
	overrides
	warp, pieces value
	taking
	json yes
}

func newFitting(f *flags) *fitting {
	t := &fitting{warp: value{kind: "LENGTH", check: someLength},
		pieces: value{kind: "N", check: somePieces}}
	f.group("Flags", "")
	f.add("warp", "length of the warp (default: the board's; midway, what is left)", &t.warp)
	f.add("pieces", "how many pieces to make of it", &t.pieces)
	t.taking = newTaking()
	t.taking.declare(f, "with --warp: write way out N into BRIEF")
	f.addYes("json", "print JSON and nothing else", &t.json)
	f.choices(fitChoices, t.replace)
	return t
}

// someLength holds a flag to a length of more than nothing.
func someLength(text string) error {
	l, err := measure.ParseLength(text)
	if err == nil && l.MM.Sign() == 0 {
		return mistake{what: "must be more than nothing"}
	}
	return err
}

// somePieces holds a flag to a number of pieces, from 1 to [fit.Most].
func somePieces(text string) error {
	if err := wholeNumber(text); err != nil {
		return err
	}
	if n, err := strconv.Atoi(text); err != nil || n < 1 || n > fit.Most {
		return mistake{what: fmt.Sprintf("%q is not from 1 to %d", text, fit.Most)}
	}
	return nil
}

func (t *fitting) run(w *world, operand string) error {
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	if err := t.mayTake(s); err != nil {
		return err
	}
	b, err := s.parse(t.all())
	if err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	if t.number.given {
		return t.take(ctx, w, s)
	}
	p, err := plan.Make(ctx, b)
	if err != nil {
		return s.named(interrupted(err))
	}
	q, err := t.question(b)
	if err != nil {
		return err
	}
	a, err := fit.Make(b, p, q)
	if err != nil {
		return mistake{what: err.Error(),
			hint: "give a longer one with --warp, or less waste in the brief", cause: err}
	}
	answer := t.answer(w, s, b, p, a)
	if !bool(t.json) && t.tooFew(b, a) {
		if err := t.waysOut(ctx, w, s); err != nil {
			return err
		}
	}
	return answer
}

func (t *fitting) question(b *brief.Brief) (q fit.Question, err error) {
	q.Pieces, _ = strconv.Atoi(t.pieces.text)
	switch {
	case t.warp.given:
		l, err := measure.ParseLength(t.warp.text)
		q.WarpMM = l.MM
		return q, err
	case b.Midway != nil:
		q.WarpMM = b.Midway.Warp.MM
		return q, nil
	case b.Loom.Board != nil && b.Loom.Board.MM.Sign() > 0:
		q.WarpMM = b.Loom.Board.MM
		return q, nil
	}
	return q, mistake{what: "how long is the warp? the brief does not say what the board holds",
		hint: "give it with --warp, as in --warp \"4.5 yd\""}
}

func (t *fitting) answer(w *world, s *source, b *brief.Brief, p *plan.Plan,
	a *fit.Answer) error {
	if t.json {
		if err := screen.WriteJSON(w.out, a); err != nil {
			return err
		}
	} else {
		if s.builtIn() {
			fmt.Fprintf(w.out, "no brief given: this is about %s\n", s.name)
		}
		t.print(w, b, a)
		newPrinter(w, p).width()
		t.boardTooShort(w, b, a)
	}
	if a.Pieces == 0 || a.WoundMM == 0 {
		return errNo
	}
	return nil
}

// asked is the length of the warp as it was written.
func (t *fitting) asked(b *brief.Brief) string {
	if t.warp.given {
		return strings.TrimSpace(t.warp.text)
	}
	if b.Midway != nil {
		return b.Midway.Warp.String()
	}
	return b.Loom.Board.String()
}

// print says the answer in words and shows the trade-off.
func (t *fitting) print(w *world, b *brief.Brief, a *fit.Answer) {
	units, warp := b.Units, t.asked(b)
	mm := func(v float64) string { return measure.FormatLength(v, units) }
	switch {
	case a.Pieces == 0 && a.Own != nil:
		fmt.Fprintf(w.out, "a warp of %s is too short: after waste and sample there is not "+
			"enough for a piece whose runs make it %s woven\n", warp, mm(a.Own.NextMM))
	case a.Pieces == 0:
		fmt.Fprintf(w.out, "a warp of %s is too short: after waste and sample there is not "+
			"enough for a piece of %s woven, %s finished\n", warp, mm(a.AskedWovenMM),
			mm(a.AskedFinishedMM))
	case a.WoundMM == 0:
		fmt.Fprintf(w.out, "a warp of %s leaves no cloth between the hems of %s\n", warp,
			measure.Count(a.Pieces, "piece"))
	case t.pieces.given:
		fmt.Fprintf(w.out, "a warp of %s gives %s of at most %s woven, %s finished\n", warp,
			measure.Count(a.Pieces, "piece"), mm(a.PieceWovenMM), mm(a.PieceFinishedMM))
	default:
		fmt.Fprintf(w.out, "a warp of %s gives %s\n", warp, piecesOfSize(a, mm))
		fmt.Fprintf(w.out, "they take %s; left over: %s\n", taken(a, units), mm(a.LeftMM))
		if a.Short != nil {
			fmt.Fprintf(w.out, "what is left over makes a short piece of %s woven, %s finished\n",
				mm(a.Short.WovenMM), mm(a.Short.FinishedMM))
		}
	}
	if a.Capped {
		fmt.Fprintf(w.out, "more would fit: no more than %d pieces are worked on\n", fit.Most)
	}
	tradeOff(w, a, units)
}

// taken is the warp that pieces take, rounded up as a warp is wound; in words where
// that would be more than there is.
func taken(a *fit.Answer, units string) string {
	text := measure.FormatWarp(a.WoundMM, units)
	if l, err := measure.ParseLength(text); err == nil {
		if mm := exact.Float(l.MM); mm > a.WarpMM {
			if a.LeftMM < 0.5 {
				return "all of it"
			}
			return "nearly all of it"
		}
	}
	return text + " of warp"
}

// piecesOfSize says what fits: the pieces that are written out to a length of their
// own, and those of the length asked for.
func piecesOfSize(a *fit.Answer, mm func(float64) string) string {
	size := fmt.Sprintf("of %s woven, %s finished", mm(a.PieceWovenMM), mm(a.PieceFinishedMM))
	if a.Own == nil {
		return measure.Count(a.Pieces, "piece") + " " + size
	}
	own := fmt.Sprintf("%d with a length from runs (%s woven)", a.Own.Pieces, mm(a.Own.WovenMM))
	all, rest := measure.Count(a.Pieces, "piece")+": "+own, a.Pieces-a.Own.Pieces
	switch {
	case a.Own.NextMM > 0:
		return fmt.Sprintf("%s; the brief has %d of these, and the next is %s woven", all,
			a.Own.Written, mm(a.Own.NextMM))
	case rest == 0:
		return fmt.Sprintf("%s; what is left is not enough for one %s", all, size)
	}
	return fmt.Sprintf("%s, and %d %s", all, rest, size)
}

// boardTooShort says that the brief's board can't take a warp of that length at
// once.
func (t *fitting) boardTooShort(w *world, b *brief.Brief, a *fit.Answer) {
	if b.Loom.Board == nil || b.Loom.Board.MM.Sign() == 0 {
		return
	}
	if board := exact.Float(b.Loom.Board.MM); a.WarpMM > board {
		fmt.Fprintf(w.out, "\nthe brief's board holds %s: ", b.Loom.Board)
		fmt.Fprintf(w.out, "a warp of %s is wound in two or more parts\n", t.asked(b))
	}
}

// ownLengths is how many pieces have a length of their own, in words.
func ownLengths(n int) string {
	if n == 1 {
		return "1 piece has a length of its own"
	}
	return fmt.Sprintf("%d pieces have a length of their own", n)
}

// tradeOff is a table of more pieces, or longer ones; in inches all of it is, and not
// the longest of it in yards.
func tradeOff(w *world, a *fit.Answer, units string) {
	if len(a.TradeOff) == 0 {
		return
	}
	mm := func(v float64) string { return measure.FormatLength(v, units) }
	if units == "in" {
		mm = measure.FormatInches
	}
	t := &table{left: map[int]bool{5: true}}
	t.add("pieces", "woven", "finished", "units", "left over", "as long as asked")
	for _, r := range a.TradeOff {
		word, left := fmt.Sprintf("no: %d %%", int(float64(100*min(r.OfAsked, 0.99))+1e-9)), ""
		if r.OfAsked >= 1 {
			word, left = "yes", mm(r.LeftMM)
		}
		t.add(strconv.Itoa(r.Pieces), mm(r.WovenMM), mm(r.FinishedMM), strconv.Itoa(r.Units),
			left, word)
	}
	fmt.Fprintln(w.out, "\nmore pieces, or longer ones; left over if each is as long as asked:")
	for _, line := range t.lines() {
		fmt.Fprintln(w.out, "  "+line)
	}
	if a.OwnLengths > 0 {
		fmt.Fprintf(w.out, "in this table all pieces are of one length; in the brief %s\n",
			ownLengths(a.OwnLengths))
	}
}
