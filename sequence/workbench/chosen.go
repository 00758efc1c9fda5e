package workbench

import (
	"slices"

	"stripesong/sequence/brief"
)

// stays writes the pieces out that the program chose, before an operation is carried
// out, so that it changes none of them: they stay until others are asked for. The piece
// that the operation is about is written out by the operation, where it has to be.
func (d *draft) stays(work Operation, op Op) error {
	if work.asks || d.bench.brief.Vary == nil {
		return nil
	}
	return d.stayAll(op.Strip)
}

// open lists the pieces that are left open.
func (v version) open() (all []int) {
	for i, p := range v.brief.Pieces {
		if p.Open {
			all = append(all, i)
		}
	}
	return all
}

// choosable tells whether the program chose any piece, written out since or not.
func (b *Bench) choosable() bool {
	return slices.ContainsFunc(b.brief.Pieces, func(p brief.Piece) bool {
		return p.Open || p.Chosen
	})
}

// leaveChosen leaves the pieces that the program chose to it again.
func (d *draft) leaveChosen() error {
	for i, p := range d.bench.brief.Pieces {
		if !p.Chosen {
			continue
		}
		if err := d.leave(i); err != nil {
			return err
		}
	}
	return nil
}

func unitsOf(all []run) (n int) {
	for _, r := range all {
		n += r.units
	}
	return n
}
