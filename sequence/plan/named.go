package plan

import (
	"fmt"
	"strings"
)

// Called is what a piece, counted from 0, is called in messages: its name in
// quotes, and its number where another piece has that name too.
func (p *Plan) Called(piece int) string {
	return fmt.Sprintf("%q", p.Pieces[piece].Name) + p.whichOne(piece)
}

// Label is [Plan.Called] without quotes.
func (p *Plan) Label(piece int) string { return p.Pieces[piece].Name + p.whichOne(piece) }

func (p *Plan) whichOne(piece int) string {
	return whichOne(len(p.Pieces), piece, func(i int) string { return p.Pieces[i].Name })
}

// called is [Plan.Called] for a piece of the brief.
func (m *maker) called(piece int) string {
	all := m.b.Pieces
	return fmt.Sprintf("%q", all[piece].Name) +
		whichOne(len(all), piece, func(i int) string { return all[i].Name })
}

// whichOne is a piece's number in brackets where it shares its name.
func whichOne(pieces, piece int, name func(int) string) string {
	for i := range pieces {
		if i != piece && name(i) == name(piece) {
			return fmt.Sprintf(" (piece %d)", piece+1)
		}
	}
	return ""
}

// List joins words as a sentence does: "a, b and c".
func List(words []string) string {
	last := len(words) - 1
	if last < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// some lists the first few of many.
func some(names []string) string {
	const few = 4
	if len(names) > few {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:few], ", "), len(names)-few)
	}
	return strings.Join(names, ", ")
}
