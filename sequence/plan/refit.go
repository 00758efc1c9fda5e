package plan

import (
	"fmt"
	"math"
	"math/big"

	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
)

// Refitted is a sequence that was written by hand and is scaled to the size the brief
// asks for.
type Refitted struct {
	Piece     int     // from 0; -1 for the warp
	Was, Is   int     // units
	WasMM, MM float64 // finished
}

// Off tells whether it was farther from the size than [Note]s of sizes let pass.
func (r Refitted) Off() bool { return math.Abs(r.WasMM-r.MM) > float64(nearSize*r.MM) }

// Refit are the changes that scale runs written by hand to the size a brief asks for, as
// weights in whole units, and what they scale; none where no size is asked for. Runs that
// are held scale themselves, and those that the rules beside them give are left to these.
// The error, if any, is of type [brief.Problems].
func Refit(b *brief.Brief) (changes []brief.Change, all []Refitted, err error) {
	m := newMaker(b)
	if b.Warp.Runs != nil && (b.Set.Width != nil || b.Set.InReed != nil) && !m.warpByRule() {
		runs, err := m.rescaled(-1, b.Warp.Runs, m.warpUnits(), m.widest())
		if err != nil {
			return nil, nil, err
		}
		if r := m.refitted(-1, b.Warp.Runs, runs); r.Was != r.Is {
			changes, all = append(changes, m.runsChange("warp", runs)), append(all, r)
		}
	}
	if b.Set.Length == nil && b.Set.Woven == nil {
		return changes, all, nil
	}
	inherited := false // those of [weft] were written
	for i, p := range b.Pieces {
		if p.Weft.Runs == nil || p.Hold || m.pieceByRule(i) {
			continue
		}
		n, err := m.checkedBody(i)
		if err != nil {
			return nil, nil, err
		}
		runs, err := m.rescaled(i, p.Weft.Runs, n, 0)
		if err != nil {
			return nil, nil, err
		}
		r := m.refitted(i, p.Weft.Runs, runs)
		if r.Was == r.Is {
			continue
		}
		all = append(all, r)
		table := fmt.Sprintf("piece[%d]", i)
		if len(b.Weft.Runs) > 0 && &b.Weft.Runs[0] == &p.Weft.Runs[0] {
			if table = "weft"; inherited {
				continue
			}
			inherited = true
		}
		changes = append(changes, m.runsChange(table, runs))
	}
	return changes, all, nil
}

func (m *maker) runsChange(table string, runs []brief.Run) brief.Change {
	return brief.Change{Key: table + ".runs", Value: brief.RunList(m.b.RunTexts(runs))}
}

// refitted tells what a sequence was and is, and how wide or long that is finished.
func (m *maker) refitted(piece int, was, is []brief.Run) Refitted {
	ends := new(big.Rat)
	if piece >= 0 {
		show := exact.Times(exact.Whole(2*m.showPicks()), m.hemPickMM)
		ends = exact.Times(show, exact.Remains(m.b.Cloth.ShrinkLength.Part))
	}
	mm := func(n int) float64 {
		return exact.Rounded(exact.Plus(exact.Times(exact.Whole(n), m.unitFinishedMM(piece)), ends))
	}
	return Refitted{piece, units(was), units(is), mm(units(was)), mm(units(is))}
}
