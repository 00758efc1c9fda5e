package workbench

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

var pieceOps = []Operation{
	{"piece.name", "strip, value", (*draft).pieceName, false},
	{"piece.copy", "strip", (*draft).pieceCopy, false},
	{"piece.move", "strip, to (its new place from 0)", (*draft).pieceMove, false},
	{"piece.drop", "strip", (*draft).pieceDrop, false},
	{"piece.open", "strip", (*draft).pieceOpen, false},
	{"pieces.open", "nothing", (*draft).piecesOpen, true},
}

func (d *draft) pieceName(op Op) (string, error) {
	name := strings.TrimSpace(op.Value)
	if name == "" || op.Strip < 0 {
		return "", refuse("", "a piece needs a name")
	}
	table, err := d.table(op.Strip)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%s is called %s", d.called(op.Strip), name), d.setText(table+".name", name)
}

// arrange puts the [[piece]] tables into another order. What a piece's rules
// draw by chance hangs on its place in the set; a piece that gets another is
// kept as it looks.
func (d *draft) arrange(piece int, order func(at int, all []int) []int) error {
	if piece < 0 || piece >= len(d.bench.brief.Pieces) {
		return refuse("", "there is no piece %d", piece+1)
	}
	at, err := d.own(piece)
	if err != nil {
		return err
	}
	places := order(at, upTo(d.written()))
	for place, from := range places {
		if err := d.holdStill(from, place); err != nil {
			return err
		}
	}
	return d.rearrange(places)
}

// holdStill keeps a piece that gets another place where its look hangs on it.
func (d *draft) holdStill(from, place int) error {
	before := d.bench.brief.Pieces
	if from == place || from >= len(before) || before[from].Open {
		return nil
	}
	if weft := before[from].Weft; !hangs(weft.Runs, weft.Rule) {
		return nil
	}
	return d.write(from, pieceRuns(d.bench.plan, from))
}

func (d *draft) pieceCopy(op Op) (string, error) {
	copied := -1
	err := d.arrange(op.Strip, func(at int, all []int) []int {
		copied = at + 1
		return slices.Insert(all, at+1, at)
	})
	if err != nil {
		return "", err
	}
	d.at = copied
	name := d.bench.plan.Pieces[op.Strip].Name
	if err := d.setText(fmt.Sprintf("piece[%d].name", copied), d.freeName(name)); err != nil {
		return "", err
	}
	return fmt.Sprintf("%s copied", name),
		d.set("set.pieces", strconv.Itoa(len(d.bench.brief.Pieces)+1))
}

func (d *draft) pieceMove(op Op) (string, error) {
	what := fmt.Sprintf("%s moved to place %d", d.called(op.Strip), op.To+1)
	if op.To < 0 || op.To >= len(d.bench.brief.Pieces) {
		return "", refuse("", "there is no place %d", op.To+1)
	}
	if d.bench.brief.Vary == nil {
		if _, err := d.own(op.To); err != nil {
			return "", err
		}
	}
	return what, d.arrange(op.Strip, func(at int, all []int) []int {
		all = slices.Delete(all, at, at+1)
		d.at = min(op.To, len(all))
		return slices.Insert(all, d.at, at)
	})
}

func (d *draft) pieceDrop(op Op) (string, error) {
	n := len(d.bench.brief.Pieces)
	if n == 1 {
		return "", refuse("", "one piece has to stay")
	}
	what := fmt.Sprintf("%s taken out of the set", d.called(op.Strip))
	d.at = min(op.Strip, n-2)
	written := d.written()
	if d.bench.brief.Vary != nil && op.Strip >= written && op.Strip < n-1 {
		return what + "; the others are held as they are", d.dropChosen(op.Strip)
	}
	if op.Strip < written {
		if err := d.arrange(op.Strip, without); err != nil {
			return "", err
		}
	}
	return what, d.set("set.pieces", strconv.Itoa(n-1))
}

// dropChosen takes out a piece the program chose. With one piece fewer to choose
// it would leave out the last, so the others are held as they are.
func (d *draft) dropChosen(piece int) error {
	for _, i := range d.bench.version.open(piece) {
		if err := d.holdOut(i, pieceRuns(d.bench.plan, i)); err != nil {
			return err
		}
	}
	return d.set("set.pieces", strconv.Itoa(len(d.bench.brief.Pieces)-1))
}

func without(at int, all []int) []int { return slices.Delete(all, at, at+1) }

// pieceOpen leaves a piece to the program to choose.
func (d *draft) pieceOpen(op Op) (string, error) {
	what := fmt.Sprintf("%s is left to the program", d.called(op.Strip))
	d.at = len(d.bench.brief.Pieces) - 1
	if err := d.fixNumber(); err != nil {
		return "", err
	}
	if op.Strip < d.written() {
		if err := d.arrange(op.Strip, without); err != nil {
			return "", err
		}
	}
	return what, d.allowChoice()
}

// piecesOpen leaves every piece that is not kept to the program.
func (d *draft) piecesOpen(Op) (string, error) {
	if err := d.fixNumber(); err != nil {
		return "", err
	}
	var kept []int
	for i := range d.written() {
		if d.kept(i) {
			kept = append(kept, i)
		}
	}
	if err := d.rearrange(kept); err != nil {
		return "", err
	}
	return fmt.Sprintf("all but %d kept are left to the program", len(kept)), d.allowChoice()
}

// searched is how many candidates a search from the page tries: few enough
// that it answers while one looks.
const searched = 400

// allowChoice writes a [vary] table where there is none.
func (d *draft) allowChoice() error {
	if d.has("vary") {
		return nil
	}
	return d.set("vary.candidates", strconv.Itoa(searched))
}
