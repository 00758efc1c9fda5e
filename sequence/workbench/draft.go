package workbench

import (
	"fmt"
	"slices"
	"strconv"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// draft is the text one operation is making. The bench behind it still holds
// the brief and plan from before the operation.
type draft struct {
	bench *Bench
	doc   *tomltext.Document
	at    int // where the piece is that the operation is about

	same   bool  // there is nothing to do
	home   bool  // the gesture has come back to where it began
	before []run // what the runs of the strip were, where they are changed
	after  []run
}

// become takes over a changed text, if it could be changed.
func (d *draft) become(doc *tomltext.Document, err error) error {
	if err == nil {
		d.doc = doc
	}
	return err
}

// set gives a key a value as TOML has it; "" takes the key away.
func (d *draft) set(key, value string) error { return d.become(d.doc.Set(key, value)) }

// setText gives a key a text.
func (d *draft) setText(key, text string) error { return d.set(key, tomltext.Quote(text)) }

func (d *draft) has(key string) bool { return d.doc.Root.Find(key) != nil }

// Warp and Weft stand in an [Op] for a piece: the warp, and what every piece
// starts from.
const (
	Warp = -1
	Weft = -2
)

// table is the path of what an operation works on, made if it is not there.
func (d *draft) table(strip int) (string, error) {
	switch {
	case strip == Warp:
		return "warp", nil
	case strip == Weft:
		return "weft", nil
	}
	at, err := d.piece(strip)
	return fmt.Sprintf("piece[%d]", at), err
}

// piece is a piece that an operation names, with a table of its own.
func (d *draft) piece(strip int) (int, error) {
	if strip < 0 || strip >= len(d.bench.brief.Pieces) {
		return 0, refuse("", "there is no piece %d", strip+1)
	}
	return d.own(strip)
}

// own makes sure that a piece has a table of its own, and returns its number. A piece
// the program chose is written out there as it is.
func (d *draft) own(piece int) (int, error) {
	if piece < d.written() {
		if err := d.hers(piece); err != nil {
			return 0, err
		}
		return piece, d.close(piece)
	}
	if !d.bench.brief.Pieces[piece].Open {
		return 0, refuse("write each piece as a [[piece]] table of its own",
			"the pieces are written in a way that can't be changed here")
	}
	if err := d.place(piece); err != nil {
		return 0, err
	}
	return piece, d.writeOut(piece)
}

// place makes sure that the first pieces, so many, have tables, since tables stand in
// weaving order. Those that had none stay open.
func (d *draft) place(pieces int) error {
	if d.written() >= pieces {
		return nil
	}
	if err := d.fixNumber(); err != nil {
		return err
	}
	for i := d.written(); i < pieces; i++ {
		if err := d.set(fmt.Sprintf("piece[%d].open", i), "true"); err != nil {
			return err
		}
	}
	return nil
}

// close writes a piece out that its table leaves open.
func (d *draft) close(piece int) error {
	open := fmt.Sprintf("piece[%d].open", piece)
	if !d.bench.brief.Pieces[piece].Open || !d.has(open) {
		return nil
	}
	if err := d.writeOut(piece); err != nil {
		return err
	}
	return d.set(open, "")
}

// writeOut gives the table of a piece its name and, where the program chose it, its runs.
func (d *draft) writeOut(piece int) error {
	table := fmt.Sprintf("piece[%d]", piece)
	err := d.setText(table+".name", d.bench.brief.Pieces[piece].Name)
	if err != nil || d.bench.brief.Vary == nil {
		return err
	}
	return d.set(table+".runs", runList(pieceRuns(d.bench.plan, piece)))
}

// leave leaves a piece that has a table to the program. The table keeps its place, its
// name and all comments.
func (d *draft) leave(piece int) error {
	table := fmt.Sprintf("piece[%d]", piece)
	for _, key := range slices.Clone(d.doc.Root.Find(table).Keys) {
		if key == "name" || key == "open" {
			continue
		}
		if err := d.empty(table + "." + key); err != nil {
			return err
		}
	}
	return d.set(table+".open", "true")
}

// empty takes a key away, and of a table under a heading of its own all but the comments.
func (d *draft) empty(key string) error {
	if d.doc.Root.Find(key).Kind == tomltext.Table {
		if err := d.set(key, "true"); err != nil {
			return err
		}
	}
	return d.set(key, "")
}

// hers takes away that the program chose the runs of a piece.
func (d *draft) hers(piece int) error {
	chosen := fmt.Sprintf("piece[%d].chosen", piece)
	if !d.has(chosen) {
		return nil
	}
	return d.set(chosen, "")
}

// stayAll writes every piece that the program chose out, but for one, so that it is not
// chosen anew.
func (d *draft) stayAll(but int) error {
	for _, i := range d.bench.open() {
		if i == but {
			continue
		}
		if err := d.stay(i); err != nil {
			return err
		}
	}
	return nil
}

// stay writes a piece out with runs that stay whatever else changes: its ground and its
// hem stand in its table too, and whether the program chose it.
func (d *draft) stay(piece int) error {
	at, err := d.own(piece)
	if err != nil {
		return err
	}
	chosen := ""
	if d.bench.brief.Vary != nil {
		chosen = "true"
	}
	table, p := fmt.Sprintf("piece[%d]", at), d.bench.plan.Pieces[piece]
	for _, c := range []brief.Change{
		{Key: table + ".runs", Value: runList(pieceRuns(d.bench.plan, piece))},
		{Key: table + ".hold", Value: "true"},
		brief.Text(table+".ground", p.Runs[0].Ground),
		brief.Text(table+".hem", p.Hem),
		{Key: table + ".chosen", Value: chosen},
	} {
		if err := d.set(c.Key, c.Value); err != nil {
			return err
		}
	}
	return nil
}

// unhold takes away that a table's runs are held.
func (d *draft) unhold(table string) error {
	if !d.has(table + ".hold") {
		return nil
	}
	return d.set(table+".hold", "")
}

// written counts the [[piece]] tables.
func (d *draft) written() int {
	if pieces := d.doc.Root.Find("piece"); pieces != nil {
		return len(pieces.Items)
	}
	return 0
}

// rearrange puts the [[piece]] tables into an order; those not named are gone.
func (d *draft) rearrange(order []int) error {
	if err := d.become(d.doc.Arrange("piece", order)); err != nil {
		return refuse("write each piece as a [[piece]] table of its own, in one place",
			"the pieces are written in a way that can't be rearranged here")
	}
	return nil
}

// fixNumber writes the number of pieces down where it follows from the tables.
func (d *draft) fixNumber() error {
	if d.has("set.pieces") {
		return nil
	}
	return d.set("set.pieces", strconv.Itoa(len(d.bench.brief.Pieces)))
}

// freeName is a name that no piece has: the one given, or it with a number.
func (d *draft) freeName(name string) string {
	taken := map[string]bool{}
	for _, p := range d.bench.brief.Pieces {
		taken[p.Name] = true
	}
	free := name
	for n := 2; taken[free]; n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// called is what messages call the strip of an operation.
func (d *draft) called(strip int) string {
	switch {
	case strip == Warp:
		return "warp"
	case strip == Weft:
		return "all pieces"
	case strip >= 0 && strip < len(d.bench.brief.Pieces):
		return d.bench.plan.Label(strip)
	}
	return "?"
}

// rule is that of a strip as it stands, everything inherited filled in.
func (d *draft) rule(strip int) (brief.Rule, error) {
	b := d.bench.brief
	switch {
	case strip == Warp:
		return b.Warp.Rule, nil
	case strip == Weft:
		return b.Weft.Rule, nil
	case strip >= 0 && strip < len(b.Pieces):
		return b.Pieces[strip].Weft.Rule, nil
	}
	return brief.Rule{}, refuse("", "there is no piece %d", strip+1)
}

// colour finds a colour by its name.
func (d *draft) colour(name string) (int, error) {
	if i := d.bench.brief.ColourNamed(name); i >= 0 {
		return i, nil
	}
	return 0, refuse("", "there is no colour %q", name)
}
