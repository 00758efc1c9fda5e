package plan

import (
	"fmt"

	"stripesong/sequence/brief"
)

// RunsOf are the changes to a brief's text that write every sequence of its plan
// out as runs. The plan stays the same to the byte: rules stay beside the runs
// they gave, and are not told from them until a run is changed by hand; chosen
// pieces are known again among the candidates of [vary].
func RunsOf(b *brief.Brief, p *Plan) []brief.Change {
	warp := make([]string, len(p.Warp.Runs))
	for i, r := range p.Warp.Runs {
		warp[i] = fmt.Sprintf("%s %d %s", r.Block, r.Units, r.Colour)
	}
	changes := []brief.Change{{Key: "warp.runs", Value: brief.RunList(warp)}}
	for i, piece := range p.Pieces {
		weft := make([]string, len(piece.Runs))
		for j, r := range piece.Runs {
			weft[j] = fmt.Sprintf("%s %d %s", r.Block, r.Units, r.Pattern)
			if r.Block == "" {
				weft[j] = fmt.Sprintf("plain %d", r.Units)
			}
		}
		if b.Pieces[i].Open {
			changes = append(changes, brief.Change{Key: fmt.Sprintf("piece[%d].name", i), Value: brief.Quote(piece.Name)})
		}
		changes = append(changes, brief.Change{Key: fmt.Sprintf("piece[%d].runs", i), Value: brief.RunList(weft)})
	}
	return changes
}
