package main

import (
	"fmt"

	"stripesong/cmd/stripesong/screen"
	"stripesong/palette"
	"stripesong/sequence/plan"
)

// printer prints a plan for people.
type printer struct {
	*plan.Plan
	w       *world
	paint   screen.Paint
	columns int // lines are no wider
	rows    int // of the terminal; 0 where it is none
	colour  map[string]palette.RGB
	used    int // lines printed so far
}

// widestText keeps lines readable on wide terminals.
const widestText = 100

func newPrinter(w *world, p *plan.Plan) *printer {
	columns, rows := screen.Size(w.terminal)
	if !screen.IsTerminal(w.terminal) {
		rows = 0
	}
	out := &printer{Plan: p, w: w, paint: screen.Detect(w.terminal, w.env),
		columns: min(max(columns, 40), widestText), rows: rows,
		colour: make(map[string]palette.RGB)}
	for _, c := range p.Colours {
		out.colour[c.Name] = c.RGB
	}
	return out
}

// line prints text that is known to be visible.
func (p *printer) line(text string) {
	p.used++
	fmt.Fprintln(p.w.out, text)
}

// entry prints words after a heading, wrapped under themselves.
func (p *printer) entry(heading, words string) {
	for _, l := range screen.Wrap(screen.Short(words), p.columns-entryIndent) {
		p.line(screen.Pad(heading, entryIndent) + l)
		heading = ""
	}
}

// entryIndent is how far in the words of an entry stand.
const entryIndent = 8

func (p *printer) entryLines(words string) int {
	return len(screen.Wrap(screen.Short(words), p.columns-entryIndent))
}

// notes prints notes in full, each with its code.
func (p *printer) notes(all []plan.Note) {
	for _, n := range all {
		p.entry(string(n.Level), screen.Visible(n.Message)+" ["+n.Code+"]")
	}
}

// share is a stretch of a strip, so many units of one colour.
type share struct {
	units  int
	colour string
}

// strip draws shares as a row of cells, each the colour of what lies at its
// middle.
func (p *printer) strip(shares []share, cells int) string {
	total := 0
	for _, s := range shares {
		total += s.units
	}
	row := make([]palette.RGB, 0, cells)
	at, sum := -1, 0
	for c := range cells {
		for 2*cells*sum <= (2*c+1)*total && at+1 < len(shares) {
			at++
			sum += shares[at].units
		}
		row = append(row, p.colour[shares[at].colour])
	}
	return p.paint.Strip(row)
}
