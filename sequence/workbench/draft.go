package workbench

import (
	"fmt"
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
	case strip < 0 || strip >= len(d.bench.brief.Pieces):
		return "", refuse("", "there is no piece %d", strip+1)
	}
	at, err := d.own(strip)
	return fmt.Sprintf("piece[%d]", at), err
}

// own makes sure that a piece has a table of its own, and returns its number.
// A piece the program chose is written out as it is and comes before the ones
// still open.
func (d *draft) own(piece int) (int, error) {
	written := d.written()
	if piece < written {
		return piece, d.close(piece)
	}
	if !d.bench.brief.Pieces[piece].Open {
		return 0, refuse("write each piece as a [[piece]] table of its own",
			"the pieces are written in a way that can't be changed here")
	}
	if err := d.fixNumber(); err != nil {
		return 0, err
	}
	if d.bench.brief.Vary != nil {
		d.at = written
		return written, d.writeOut(piece, pieceRuns(d.bench.plan, piece))
	}
	for ; written <= piece; written++ {
		name := d.bench.brief.Pieces[written].Name
		if err := d.setText(fmt.Sprintf("piece[%d].name", written), name); err != nil {
			return 0, err
		}
	}
	return piece, nil
}

// close writes a piece out that a table leaves open to the program.
func (d *draft) close(piece int) error {
	if !d.bench.brief.Pieces[piece].Open {
		return nil
	}
	table := fmt.Sprintf("piece[%d]", piece)
	if err := d.set(table+".open", ""); err != nil || d.bench.brief.Vary == nil {
		return err
	}
	return d.set(table+".runs", runList(pieceRuns(d.bench.plan, piece)))
}

// writeOut gives a piece that the program chose a table after all others.
func (d *draft) writeOut(piece int, runs []run) error {
	key := fmt.Sprintf("piece[%d]", d.written())
	if err := d.setText(key+".name", d.freeName(d.bench.plan.Pieces[piece].Name)); err != nil {
		return err
	}
	return d.set(key+".runs", runList(runs))
}

// holdOut is writeOut for a piece that is to stay whatever else changes: its ground and
// its hem stand in its table too.
func (d *draft) holdOut(piece int, runs []run) error {
	table := fmt.Sprintf("piece[%d]", d.written())
	if err := d.writeOut(piece, runs); err != nil {
		return err
	}
	if err := d.set(table+".hold", "true"); err != nil {
		return err
	}
	p := d.bench.plan.Pieces[piece]
	if err := d.setText(table+".ground", p.Runs[0].Ground); err != nil {
		return err
	}
	return d.setText(table+".hem", p.Hem)
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
		if !p.Open {
			taken[p.Name] = true
		}
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

// weft is the rule of a strip as it stands, everything inherited filled in.
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
	for i, c := range d.bench.brief.Colours {
		if c.Name == name {
			return i, nil
		}
	}
	return 0, refuse("", "there is no colour %q", name)
}
