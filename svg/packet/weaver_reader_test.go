package packet_test

import (
	"fmt"
	"strings"
)

// weaver has nothing but the pages of a packet, as a person reads them. What she can't
// read, or what contradicts itself, she writes down as a doubt.
type weaver struct {
	blocks []block
	doubts []string
	names  map[string]string // of colours, by letter
	most   int               // ends in a bout
	open   int               // ends of the stripe that goes on in the next bout
	warp   warp
	loom   looms
	cloth  beat
	shelf  map[string][]string // what the table of yarn says of each colour, by letter
	woven  map[string][]string // colours by use, as the first page has them
	runs   map[string]float64  // metres to the kilogram, by colour
	sample *sheet
	washed amount // length of the sample
	pieces []sheet
	done   int // of them from an earlier packet
	onLoom bool
	cuts   []cut
	sizes  []size
}

// weaveFrom reads a packet from its first page to its last and weaves all of it.
func weaveFrom(page string) *weaver {
	w := &weaver{names: map[string]string{}, shelf: map[string][]string{}}
	var err error
	if w.blocks, err = readPage(page); err != nil {
		w.doubt("the page can't be read: %v", err)
		return w
	}
	w.card()
	w.facts()
	w.winding()
	w.threading()
	w.heddles()
	w.raddle()
	w.sleying()
	w.atTheLoom()
	return w
}

// atTheLoom is all that comes once the warp is threaded.
func (w *weaver) atTheLoom() {
	w.tieUp()
	w.treadling()
	w.weaving()
	w.finishing()
	w.measuring()
	w.shopping()
	w.weigh()
	w.usesOfFirstPage()
}

func (w *weaver) doubt(format string, of ...any) {
	w.doubts = append(w.doubts, fmt.Sprintf(format, of...))
}

// check writes a doubt down unless all is well.
func (w *weaver) check(well bool, format string, of ...any) {
	if !well {
		w.doubt(format, of...)
	}
}

// under is what stands under a heading, up to the next one of its level or above.
func (w *weaver) under(heading string) []block {
	for i, b := range w.blocks {
		if b.level == 0 || !isHeading(b.text, heading) {
			continue
		}
		part := w.blocks[i+1:]
		for k, next := range part {
			if next.level > 0 && next.level <= b.level {
				return part[:k]
			}
		}
		return part
	}
	w.doubt("there is no heading %q", heading)
	return nil
}

// isHeading tells whether a heading, or what follows its number, is the one looked for.
func isHeading(text, heading string) bool {
	if text == heading {
		return true
	}
	number, rest, _ := strings.Cut(text, " ")
	return rest == heading && groups(`^(\d+)$`, number) != nil
}

// tableWith is the table among some blocks that has a column of this name.
func (w *weaver) tableWith(part []block, column string) *table {
	for _, b := range part {
		if b.table != nil && b.table.column(column) >= 0 {
			return b.table
		}
	}
	w.doubt("there is no table with a column %q", column)
	return &table{}
}

// find is what a pattern catches in the first text that it fits; nil, and no doubt,
// where it fits none.
func find(part []block, pattern string) []string {
	for _, b := range part {
		if b.table == nil {
			if m := groups(pattern, b.text); m != nil {
				return m
			}
		}
	}
	return nil
}

// said is [find] of what must be said.
func (w *weaver) said(part []block, pattern string) []string {
	m := find(part, pattern)
	if m == nil {
		w.doubt("nothing says %s", pattern)
		return make([]string, strings.Count(pattern, "("))
	}
	return m
}

// length, density and numbers read figures that must be ones.
func (w *weaver) length(text string) amount  { return w.figure(lengthOf(text)) }
func (w *weaver) density(text string) amount { return w.figure(densityOf(text)) }

func (w *weaver) figure(a amount, err error) amount {
	if err != nil {
		w.doubt("%v", err)
	}
	return a
}

func (w *weaver) numbers(text string) []int {
	all, err := wholes(text)
	if err != nil {
		w.doubt("%v", err)
	}
	return all
}

func (w *weaver) number(text string) int {
	if all := w.numbers(text); len(all) == 1 {
		return all[0]
	}
	w.doubt("%q should be one number", text)
	return 0
}

// chip reads "D damson" and gives the letter.
func (w *weaver) chip(text string) string {
	letter, name, _ := strings.Cut(text, " ")
	known, ok := w.names[letter]
	w.check(ok && known == name, "%q is no colour of the card", text)
	return letter
}

// card reads which letter is which colour.
func (w *weaver) card() {
	t := w.tableWith(w.under("The yarn itself"), "Stick a length here")
	for _, row := range t.rows {
		letter, name, _ := strings.Cut(row[0], " ")
		_, twice := w.names[letter]
		w.check(!twice && groups(`^([A-Z]\d*)$`, letter) != nil, "two colours %s", letter)
		w.names[letter] = name
	}
	for _, row := range w.tableWith(w.shopPart(), "In all").rows {
		lines := linesOf(row[1], 2)
		w.shelf[w.chip(lines[0])] = row
	}
}
