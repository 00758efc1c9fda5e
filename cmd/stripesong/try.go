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
	"stripesong/sequence/measure"
	"stripesong/sequence/plan"
	"stripesong/svg"
)

var tryCommand = &command{
	name:    "try",
	operand: "BRIEF",
	line:    "draw many rhythms on one sheet, to choose from",
	about: `Draws a sheet of rhythms for one piece, or for the warp: small numbered
pictures, each with its rule and how plainly its pattern shows. They use the colours
that the piece or the warp has, or those of [vary]. --keep N writes number N into
BRIEF and keeps the brief as it was beside it. If that would change other pieces, it
asks for --hold or --anew.`,
	example: example{"stripesong try towels.toml --piece ladder --keep 7",
		"write number 7 into the brief"},
	exits: [3]string{"sheet drawn or choice written", "",
		failure},
	prepare: func(f *flags) work {
		t := newTrying(f)
		return t.run
	},
}

// trying is one run of try.
type trying struct {
	count, piece, keep, out, seed value
	warp, asRuns                  yes
	steers                        steers
	others                        others
}

func newTrying(f *flags) *trying {
	t := &trying{count: value{kind: "N", check: trialCount, text: "24"},
		piece: value{kind: "NAME", check: anyText},
		keep:  value{kind: "N", check: trialCount}, out: value{kind: "FILE", check: anyText},
		seed: value{kind: "N", check: wholeNumber}}
	f.group("Flags", "")
	f.add("piece", "the piece, by number or name (default: the first)", &t.piece)
	f.addYes("warp", "try rhythms for the warp instead", &t.warp)
	f.add("count", fmt.Sprintf("how many, up to %d", plan.MostTrials), &t.count)
	f.add("seed", "another seed, for other trials", &t.seed)
	f.add("out", "the sheet (default: BRIEF-try.svg), or a new brief", &t.out)
	f.add("keep", "write number N into BRIEF, and draw no sheet", &t.keep)
	f.addYes("as-runs", "with --keep: write runs instead of the rule", &t.asRuns)
	t.others.declare(f, "with --keep")
	t.steers.declare(f)
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
		return mistake{what: "--as-runs says how to write a choice, and none is kept",
			hint: "add --keep N, the number on the sheet"}
	}
	if err := t.others.check(t.keep.given, "add --keep N, the number on the sheet"); err != nil {
		return err
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
	if err := t.woven(b, piece); err != nil {
		return err
	}
	ctx, shown, stop := w.working()
	defer stop()
	shown.stage("drawing up trials")
	count, _ := strconv.Atoi(t.count.text)
	number, _ := strconv.Atoi(t.keep.text)
	sheet, err := plan.Try(ctx, b,
		plan.Trying{Count: max(count, min(number, plan.MostTrials)), Warp: bool(t.warp),
			Piece: piece, Steering: t.steers.steering()})
	if err != nil {
		return s.named(interrupted(err))
	}
	if t.keep.given {
		return t.write(ctx, w, s, b, sheet, number, piece, shown)
	}
	return t.draw(ctx, w, s, sheet)
}

// woven refuses to try what is on the loom already.
func (t *trying) woven(b *brief.Brief, piece int) error {
	switch {
	case b.Midway == nil:
		return nil
	case bool(t.warp):
		return mistake{what: "the warp is on the loom",
			hint: "take [midway] out of the brief for another warp"}
	case piece < b.WovenPieces():
		return mistake{what: fmt.Sprintf("piece %d is woven already", piece+1),
			hint: fmt.Sprintf("name one that is not: --piece %d", b.WovenPieces()+1)}
	}
	return nil
}

func (t *trying) overrides() []brief.Override {
	if !t.seed.given {
		return nil
	}
	return []brief.Override{{Key: "seed", Value: t.seed.text, Flag: "--seed"}}
}

// pieceNamed is the place of a piece that is given by number or by name; the first that
// is not yet woven where none is. A number is always a place: every piece has one, and no two the
// same.
func pieceNamed(b *brief.Brief, given string) (int, error) {
	if given == "" {
		return b.WovenPieces(), nil
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
	if err := putDrawing(path, "--out FILE", "try", drawn.Bytes()); err != nil {
		return err
	}
	if s.builtIn() {
		fmt.Fprintf(w.out, "no brief given: this is %s\n", s.name)
	}
	same := ""
	if t.steers.given() {
		same = " and the same flags"
	}
	fmt.Fprintf(w.out, "wrote %s: %s; keep one with --keep N%s\n", screen.Visible(path),
		measure.Count(len(sheet.Cells), "trial"), same)
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
func (t *trying) write(ctx context.Context, w *world, s *source, b *brief.Brief, sheet *plan.Trials,
	number, piece int, shown *progress) error {
	path := t.out.text
	if !t.out.given {
		path = s.name
	}
	if !t.out.given && !s.fromFile() {
		return mistake{what: "there is no file to write the choice into",
			hint: "name a brief, or the file to write with --out FILE"}
	}
	held := !bool(t.warp) && b.Pieces[piece].Hold
	keys, err := sheet.Keep(b, number, bool(t.asRuns) || held)
	if err != nil {
		return mistake{what: err.Error(),
			hint: "the number is the one on the sheet; --count N draws more of them"}
	}
	r, err := t.kept(ctx, s, keys, piece, s.isFile(path), shown.stage)
	if err == nil {
		err = ctx.Err()
	}
	if err != nil {
		return interrupted(err)
	}
	shown.stop()
	if err := r.put(path, "--out FILE", s); err != nil {
		return err
	}
	place := "the warp"
	if !t.warp {
		place = r.after.Called(piece)
	}
	fmt.Fprintf(w.out, "wrote number %d into %s, as %s\n", number, screen.Visible(path),
		screen.Visible(place))
	switch {
	case held:
		fmt.Fprintln(w.out, "that piece is held, and stays so: these runs replace those it had")
	case bool(t.warp) && b.Warp.Runs != nil, !bool(t.warp) && b.Pieces[piece].Weft.Runs != nil:
		fmt.Fprintln(w.out, "it replaces runs written by hand")
	}
	r.tell(w)
	return nil
}

// kept is the brief with a choice written into it. With --hold the pieces that would
// change are written out as they were.
func (t *trying) kept(ctx context.Context, s *source, keys []plan.Setting, piece int,
	intoBrief bool, say func(string)) (*rewriting, error) {
	r, err := s.rewrite(ctx, say)
	if err != nil {
		return nil, err
	}
	if !t.warp {
		r.about = piece
	}
	if err := r.change(ctx, t.changes(r.brief, keys, piece)); err != nil {
		return nil, err
	}
	return r, r.settle(ctx, t.others, intoBrief)
}

// changes are those that write a choice into the table of a piece or of the warp.
func (t *trying) changes(b *brief.Brief, keys []plan.Setting, piece int) (all []brief.Change) {
	table := "warp"
	if !t.warp {
		table, all = fmt.Sprintf("piece[%d]", piece), plan.PlaceOf(b, piece)
	}
	for _, k := range keys {
		all = append(all, brief.Change{Key: table + "." + k.Key, Value: k.Value})
	}
	return all
}
