package plan

import (
	"fmt"

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
	for i, piece := range p.Pieces {
		weft := make([]string, len(piece.Runs))
		for j, r := range piece.Runs {
			weft[j] = brief.RunText(r.Block, r.Units, r.Pattern)
		}
		key := fmt.Sprintf("piece[%d]", i)
		if b.Pieces[i].Open {
			name := brief.Change{Key: key + ".name", Value: tomltext.Quote(piece.Name)}
			changes = append(changes, name)
		}
		changes = append(changes, brief.Change{Key: key + ".runs", Value: brief.RunList(weft)})
	}
	return changes
}
