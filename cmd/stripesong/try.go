package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"stripesong/cmd/stripesong/screen"
	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
	"stripesong/sequence/plan"
	"stripesong/svg"
)

var tryCommand = &command{
	name:    "try",
	operand: "BRIEF",
	line:    "many rhythms on one sheet, to look at before choosing",
	about: `Draws a sheet of rhythms for one piece, or for the warp: each a small picture of
the face as it looks from across the table, numbered row by row, with its rule, its
seed, how well it shows and how much its neighbours differ. The sheet covers what the
rules can do, and so does every beginning of it. A piece's trials are drawn from what
the brief's [vary] allows; without that table, from all rhythms in the piece's own
colours. A warp's are all rhythms in the warp's colours.

With --keep the choice is written into the brief as its rule and seed, or with
--as-runs written out, and nothing else in the file is touched. Pieces that [vary]
leaves to the program may be chosen otherwise beside it; those that are get told, and
--hold writes them out as they were. A number means the same however many are on the
sheet. Without BRIEF the brief that comes with the program is tried.`,
	examples: []example{
		{"stripesong try towels.toml", "24 rhythms for the first piece, in towels-try.svg"},
		{"stripesong try towels.toml --warp --count 12", "a dozen warps"},
		{"stripesong try towels.toml --piece ladder --keep 7", "write number 7 into the brief, as the rhythm of \"ladder\""},
		{"stripesong try towels.toml --piece 2 --keep 7 --hold", "for the second piece, all others staying as they are"},
	},
	exits: [3]string{
		"the sheet was drawn, or the choice was written",
		"",
		"a mistake in the brief or on the command line, or something failed; nothing was written",
	},
	prepare: func(f *flags) work {
		t := newTrying(f)
		return t.run
	},
}

// trying is one run of try.
type trying struct {
	count, piece, keep, out, seed value
	warp, asRuns, hold            yes
}

func newTrying(f *flags) *trying {
	t := &trying{count: value{kind: "N", check: trialCount, text: "24"}, piece: value{kind: "NAME", check: anyText},
		keep: value{kind: "N", check: trialCount}, out: value{kind: "FILE", check: anyText}, seed: value{kind: "N", check: wholeNumber}}
	f.group("Flags", "")
	f.add("piece", "the piece to try rhythms for, by its number or its name (default: the first)", &t.piece)
	f.addYes("warp", "try rhythms for the warp instead; the piece is what is shown on it", &t.warp)
	f.add("count", fmt.Sprintf("how many, up to %d", plan.MostTrials), &t.count)
	f.add("seed", "another number, other trials", &t.seed)
	f.add("out", "the sheet, a new file or in place of a drawing of this program that was not edited (default: BRIEF-try.svg); with --keep, a new file for the changed brief (default: into BRIEF itself)", &t.out)
	f.group("Keeping one", "")
	f.add("keep", "write this number into the brief; no sheet is drawn", &t.keep)
	f.addYes("as-runs", "with --keep: write the finished runs, not the rule", &t.asRuns)
	f.addYes("hold", "with --keep: write out the pieces that would change with it, so that they stay", &t.hold)
	return t
}

func trialCount(text string) error {
	if err := wholeNumber(text); err != nil {
		return err
	}
	if n, err := strconv.Atoi(text); err != nil || n < 1 || n > plan.MostTrials {
		return mistake{what: fmt.Sprintf("%q is not from 1 to %d", text, plan.MostTrials)}
	}
	return nil
}

func (t *trying) run(w *world, operand string) error {
	if bool(t.asRuns) && !t.keep.given {
		return mistake{what: "--as-runs says how to write a choice, and none is kept", hint: "add --keep N, the number on the sheet"}
	}
	if bool(t.hold) && !t.keep.given {
		return mistake{what: "--hold holds what a choice would change, and none is kept", hint: "add --keep N, the number on the sheet"}
	}
	s, err := w.open(operand)
	if err != nil {
		return err
	}
	b, err := s.parse(t.overrides())
	if err != nil {
		return err
	}
	piece, err := pieceNamed(b, t.piece.text)
	if err != nil {
		return err
	}
	ctx, stop := interruptible()
	defer stop()
	shown := newProgress(w.err)
	defer shown.stop()
	shown.stage("drawing up trials")
	count, _ := strconv.Atoi(t.count.text)
	number, _ := strconv.Atoi(t.keep.text)
	sheet, err := plan.Try(ctx, b, plan.Trying{Count: max(count, min(number, plan.MostTrials)), Warp: bool(t.warp), Piece: piece})
	if err != nil {
		return s.named(interrupted(err))
	}
	if t.keep.given {
		return t.write(ctx, w, s, b, sheet, number, piece)
	}
	return t.draw(ctx, w, s, sheet)
}

func (t *trying) overrides() []brief.Override {
	if !t.seed.given {
		return nil
	}
	return []brief.Override{{Key: "seed", Value: t.seed.text, Flag: "--seed"}}
}

// pieceNamed is the place of a piece that is given by number or by name; the first
// where none is. A number is always a place: every piece has one, and no two the
// same.
func pieceNamed(b *brief.Brief, given string) (int, error) {
	if given == "" {
		return 0, nil
	}
	if n, err := strconv.Atoi(given); err == nil && n >= 1 && n <= len(b.Pieces) {
		return n - 1, nil
	}
	names := make([]string, len(b.Pieces))
	var found []int
	for i, p := range b.Pieces {
		if names[i] = p.Name; p.Name == given {
			found = append(found, i)
		}
	}
	switch len(found) {
	case 0:
		return 0, mistake{
			what: fmt.Sprintf("there is no piece %q", given),
			hint: nearestOr(given, names, "the pieces are: "+strings.Join(names, ", ")),
		}
	case 1:
		return found[0], nil
	}
	return 0, mistake{
		what: fmt.Sprintf("%d pieces are called %q", len(found), given),
		hint: "say which by its number: --piece " + numbersFromOne(found, " or --piece "),
	}
}

// numbersFromOne lists places as people count.
func numbersFromOne(places []int, between string) string {
	words := make([]string, len(places))
	for i, n := range places {
		words[i] = strconv.Itoa(n + 1)
	}
	return strings.Join(words, between)
}

func (t *trying) draw(ctx context.Context, w *world, s *source, sheet *plan.Trials) error {
	var drawn bytes.Buffer
	if err := svg.Trials(&drawn, sheet); err != nil {
		return err
	}
	if ctx.Err() != nil {
		return interrupted(ctx.Err())
	}
	path := t.out.text
	if !t.out.given {
		path = s.beside("-try.svg")
	}
	if err := putDrawing(path, "--out FILE", drawn.Bytes()); err != nil {
		return err
	}
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given: this is %s\n", s.name)
	}
	fmt.Fprintf(w.out, "wrote %s: %s; keep one with --keep N\n", screen.Visible(path), count(len(sheet.Cells), "trial"))
	return nil
}

// beside is the name of a file in the folder one is in, after the brief.
func (s *source) beside(ending string) string {
	if !s.fromFile() {
		return "stripesong" + ending
	}
	return strings.TrimSuffix(filepath.Base(s.name), filepath.Ext(s.name)) + ending
}

// write puts a choice into the brief.
func (t *trying) write(ctx context.Context, w *world, s *source, b *brief.Brief, sheet *plan.Trials, number, piece int) error {
	path := t.out.text
	if !t.out.given {
		path = s.name
	}
	if !t.out.given && !s.fromFile() {
		return mistake{what: "there is no file to write the choice into", hint: "name a brief, or the file to write with --out FILE"}
	}
	held := !bool(t.warp) && b.Pieces[piece].Hold
	keys, err := sheet.Keep(b, number, bool(t.asRuns) || held)
	if err != nil {
		return mistake{what: err.Error(), hint: "the number is the one on the sheet; --count N draws more of them"}
	}
	r, place, err := t.kept(ctx, s, keys, piece)
	if err != nil {
		return interrupted(err)
	}
	if ctx.Err() != nil {
		return interrupted(ctx.Err())
	}
	if err := putText(path, "--out FILE", s, r.source.text); err != nil {
		return err
	}
	fmt.Fprintf(w.out, "wrote number %d into %s, as %s\n", number, screen.Visible(path), screen.Visible(place))
	if held {
		fmt.Fprintln(w.out, "that piece is held, and stays so: its runs were written")
	}
	r.tell(w)
	return nil
}

// kept is the brief with a choice written into it, and what the choice was written
// as. With --hold the pieces that would change are written out as they were.
func (t *trying) kept(ctx context.Context, s *source, keys []plan.Setting, piece int) (*rewriting, string, error) {
	r, err := s.rewrite(ctx)
	if err != nil {
		return nil, "", err
	}
	table, place := "warp", "the warp"
	if !t.warp {
		if t.hold {
			if err := r.hold(ctx, openOf(r.brief, piece)); err != nil {
				return nil, "", err
			}
		}
		r.about = tableFor(r.brief, piece)
		table, place = fmt.Sprintf("piece[%d]", r.about), r.after.Called(r.about)
	}
	if err := r.change(ctx, t.changes(r, table, keys)); err != nil {
		return nil, "", err
	}
	if t.hold {
		err = r.holdOthers(ctx)
	}
	return r, place, err
}

// openOf lists the open pieces among the first n: written out, they keep the place
// of the one that follows.
func openOf(b *brief.Brief, n int) (open []int) {
	for i := range b.Pieces[:n] {
		if b.Pieces[i].Open {
			open = append(open, i)
		}
	}
	return open
}

// tableFor is the number of the table that a choice for a piece is written into: a
// piece that has none yet gets the next.
func tableFor(b *brief.Brief, piece int) int {
	if open := openOf(b, piece); len(open) > 0 {
		return open[0]
	}
	return piece
}

// changes are those that write a choice into a table.
func (t *trying) changes(r *rewriting, table string, keys []plan.Setting) (all []brief.Change) {
	if r.about >= 0 && r.brief.Pieces[r.about].Open {
		name := tomltext.Quote(r.brief.Pieces[r.about].Name)
		all = append(all, brief.Change{Key: table + ".name", Value: name})
	}
	for _, k := range keys {
		all = append(all, brief.Change{Key: table + "." + k.Key, Value: k.Value})
	}
	return all
}
