package plan

import (
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// RunsOf are the changes to a brief's text that write every sequence of its plan
// out as runs. The plan stays the same to the byte: rules stay beside the runs
// they gave, and are not told from them until a run is changed by hand; chosen
// pieces are known again among the candidates of [vary].
func RunsOf(b *brief.Brief, p *Plan) []brief.Change {
	warp := make([]string, len(p.Warp.Runs))
	for i, r := range p.Warp.Runs {
		warp[i] = brief.RunText(r.Block, r.Units, r.Colour)
	}
	changes := []brief.Change{{Key: "warp.runs", Value: brief.RunList(warp)}}
	if b.Warp.Runs == nil {
		changes = append(changes, brief.Remark("warp.runs", runsCount))
	}
	for i := range p.Pieces {
		changes = append(changes, pieceRuns(b, p, i)...)
		if b.Pieces[i].Hold { // values from outside may be written into [weft] with it
			changes = append(changes, holdOf(p, i)...)
		}
	}
	return changes
}

// HoldOf are the changes that write pieces of a plan, counted from 0 and at least one,
// out as runs that are held, so that they stay whatever else changes.
func HoldOf(b *brief.Brief, p *Plan, pieces []int) (changes []brief.Change) {
	changes = placeOf(b, slices.Max(pieces))
	for _, i := range pieces {
		changes = append(changes, pieceRuns(b, p, i)...)
		changes = append(changes, holdOf(p, i)...)
	}
	return changes
}

// PlaceOf are the changes after which the table of a piece, counted from 0, can be
// written: those before it that have none get tables that leave them open, since tables
// stand in weaving order, and its own is no longer left open.
func PlaceOf(b *brief.Brief, piece int) (changes []brief.Change) {
	changes = placeOf(b, piece)
	if b.Pieces[piece].Open {
		changes = append(changes, nameOf(b, piece),
			brief.Change{Key: fmt.Sprintf("piece[%d].open", piece)})
	}
	return changes
}

func placeOf(b *brief.Brief, piece int) (changes []brief.Change) {
	for i := range piece {
		if !b.Pieces[i].Told {
			changes = append(changes,
				brief.Change{Key: fmt.Sprintf("piece[%d].open", i), Value: "true"})
		}
	}
	return changes
}

func nameOf(b *brief.Brief, piece int) brief.Change {
	return brief.Text(fmt.Sprintf("piece[%d].name", piece), b.Pieces[piece].Name)
}

// HoldAll are the changes that hold every piece of a plan that is written out, and the
// pieces, counted from 0, that are not: those with a length of their own keep it, and
// held they would be scaled.
func HoldAll(b *brief.Brief, p *Plan) (changes []brief.Change, not []int) {
	m := newMaker(b)
	_, asked := BodyUnits(b)
	for i, piece := range p.Pieces {
		if asked && piece.BodyUnits != m.bodyUnits(i) {
			not = append(not, i)
			continue
		}
		changes = append(changes, holdOf(p, i)...)
	}
	return changes, not
}

// holdOf holds one piece that is written out, with the colours it would otherwise
// have from [weft].
func holdOf(p *Plan, i int) []brief.Change {
	table, piece := fmt.Sprintf("piece[%d].", i), p.Pieces[i]
	changes := []brief.Change{{Key: table + "hold", Value: "true"}}
	if ground := groundOf(piece); ground != "" {
		changes = append(changes,
			brief.Change{Key: table + "ground", Value: tomltext.Quote(ground)})
	}
	return append(changes, brief.Change{Key: table + "hem", Value: tomltext.Quote(piece.Hem)})
}

// groundOf is the ground colour of a piece; "" for a body without weft.
func groundOf(piece Piece) string {
	for _, r := range piece.Runs {
		return r.Ground
	}
	return ""
}

// RunTexts are the runs of a piece, each as a brief has it.
func RunTexts(piece Piece) []string {
	weft := make([]string, len(piece.Runs))
	for j, r := range piece.Runs {
		weft[j] = brief.RunText(r.Block, r.Units, r.Pattern)
	}
	return weft
}

// pieceRuns writes one piece out.
func pieceRuns(b *brief.Brief, p *Plan, i int) (changes []brief.Change) {
	piece := p.Pieces[i]
	table := fmt.Sprintf("piece[%d].", i)
	if b.Pieces[i].Open {
		changes = append(changes, nameOf(b, i), brief.Change{Key: table + "open"})
	}
	changes = append(changes,
		brief.Change{Key: table + "runs", Value: brief.RunList(RunTexts(piece))})
	if b.Pieces[i].Own && b.Pieces[i].Weft.Runs == nil {
		changes = append(changes, brief.Remark(table+"runs", runsCount))
	}
	return changes
}

// runsCount is the comment above runs that are written beside rules.
const runsCount = "The runs count now, not the rules above them: take the runs away to go by the " +
	"rules again."
