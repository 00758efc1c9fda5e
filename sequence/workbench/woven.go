package workbench

import "slices"

// woven refuses an operation on what is on the loom already: the warp, and the pieces
// that are woven.
func (b *Bench) woven(op Op) error {
	n := b.brief.WovenPieces()
	of := func(one Operation) bool { return one.Name == op.Do }
	ofStrip := slices.ContainsFunc(slices.Concat(ruleOps, runOps, pieceOps), of)
	if b.brief.Midway == nil || !ofStrip || op.Do == "pieces.open" {
		return nil
	}
	const hint = "take [midway] out of the brief for another warp"
	switch {
	case op.Strip == Warp:
		return refuse(hint, "the warp is on the loom")
	case op.Strip >= 0 && op.Strip < n:
		return refuse(hint, "%s is woven already", b.plan.Label(op.Strip))
	case op.Do == "piece.move" && op.To < n:
		return refuse(hint, "the first %d pieces are woven already", n)
	}
	return nil
}
