package workbench

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

var pieceOps = []Operation{
	{"piece.name", "strip, value", (*draft).pieceName, true},
	{"piece.copy", "strip", (*draft).pieceCopy, false},
	{"piece.move", "strip, to (its new place from 0)", (*draft).pieceMove, false},
	{"piece.drop", "strip", (*draft).pieceDrop, false},
	{"piece.open", "strip", (*draft).pieceOpen, true},
	{"pieces.open", "nothing", (*draft).piecesOpen, true},
}

func (d *draft) pieceName(op Op) (string, error) {
	name := strings.TrimSpace(op.Value)
	if name == "" || op.Strip < 0 {
		return "", refuse("", "a piece needs a name")
	}
	if op.Strip >= len(d.bench.brief.Pieces) {
		return "", refuse("", "there is no piece %d", op.Strip+1)
	}
	if name == d.bench.brief.Pieces[op.Strip].Name {
		d.same = true
		return fmt.Sprintf("%s is called %s already, so nothing has changed", d.called(op.Strip),
			name), nil
	}
	if err := d.place(op.Strip + 1); err != nil { // it may stay open
		return "", err
	}
	return fmt.Sprintf("%s is called %s", d.called(op.Strip), name),
		d.setText(fmt.Sprintf("piece[%d].name", op.Strip), name)
}

// arrange puts pieces into another order, of which the first so many must have tables.
// What a piece's rules draw by chance hangs on its place in the set; a piece that gets
// another is kept as it looks.
func (d *draft) arrange(tables int, order func(all []int) []int) error {
	n := len(d.bench.brief.Pieces)
	if d.drawn() {
		tables = n
	}
	if err := d.place(tables); err != nil {
		return err
	}
	places := order(upTo(d.written()))
	for place, from := range places {
		if err := d.holdStill(from, place); err != nil {
			return err
		}
	}
	return d.rearrange(places)
}

// drawn tells whether pieces without a table draw by chance.
func (d *draft) drawn() bool {
	b := d.bench.brief
	return b.Vary == nil && hangs(b.Weft.Runs, b.Weft.Rule)
}

// holdStill keeps a piece that gets another place where its look hangs on it.
func (d *draft) holdStill(from, place int) error {
	b := d.bench.brief
	if from == place || b.Vary != nil && b.Pieces[from].Open {
		return nil
	}
	if weft := b.Pieces[from].Weft; !hangs(weft.Runs, weft.Rule) {
		return nil
	}
	return d.write(from, pieceRuns(d.bench.plan, from))
}

func (d *draft) pieceCopy(op Op) (string, error) {
	if _, err := d.piece(op.Strip); err != nil {
		return "", err
	}
	d.at = op.Strip + 1
	err := d.arrange(d.at, func(all []int) []int { return slices.Insert(all, d.at, op.Strip) })
	if err != nil {
		return "", err
	}
	name := d.bench.plan.Pieces[op.Strip].Name
	if err := d.setText(fmt.Sprintf("piece[%d].name", d.at), d.freeName(name)); err != nil {
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
	if _, err := d.piece(op.Strip); err != nil || op.To == op.Strip {
		return what, err
	}
	d.at = op.To
	return what, d.arrange(max(op.Strip, op.To)+1, func(all []int) []int {
		return slices.Insert(slices.Delete(all, op.Strip, op.Strip+1), op.To, op.Strip)
	})
}

func (d *draft) pieceDrop(op Op) (string, error) {
	n := len(d.bench.brief.Pieces)
	switch {
	case n == 1:
		return "", refuse("", "one piece has to stay")
	case op.Strip < 0 || op.Strip >= n:
		return "", refuse("", "there is no piece %d", op.Strip+1)
	}
	what := fmt.Sprintf("%s taken out of the set", d.called(op.Strip))
	if op.Strip < d.written() || d.drawn() {
		err := d.arrange(0, func(all []int) []int {
			return slices.Delete(all, op.Strip, op.Strip+1)
		})
		if err != nil {
			return "", err
		}
	}
	d.at = min(op.Strip, n-2)
	return what, d.set("set.pieces", strconv.Itoa(n-1))
}

// pieceOpen leaves a piece to the program to choose.
func (d *draft) pieceOpen(op Op) (string, error) {
	if op.Strip < 0 || op.Strip >= len(d.bench.brief.Pieces) {
		return "", refuse("", "there is no piece %d", op.Strip+1)
	}
	what := fmt.Sprintf("%s is left to the program", d.called(op.Strip))
	if b := d.bench.brief; b.Vary != nil && b.Pieces[op.Strip].Open {
		return what, nil
	}
	if err := d.fixNumber(); err != nil {
		return "", err
	}
	if err := d.stayAll(op.Strip); err != nil {
		return "", err
	}
	if op.Strip < d.written() {
		if err := d.leave(op.Strip); err != nil {
			return "", err
		}
	}
	return what, d.allowChoice()
}

// piecesOpen leaves every piece that is neither kept nor woven to the program.
func (d *draft) piecesOpen(Op) (string, error) {
	if err := d.fixNumber(); err != nil {
		return "", err
	}
	kept := false
	for i := range d.written() {
		if d.kept(i) && !d.bench.brief.Pieces[i].Chosen || i < d.bench.brief.WovenPieces() {
			kept = true
			continue
		}
		if err := d.leave(i); err != nil {
			return "", err
		}
	}
	said := "all pieces are left to the program"
	if kept {
		said = "all pieces that are not kept are left to the program"
	}
	return said, d.allowChoice()
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
