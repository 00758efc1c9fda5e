package plan

// ChangedPieces lists the pieces, counted from 0, that one of two plans of a brief
// weaves otherwise than the other: in other blocks, colours or widths. Where a piece
// is of another length, other widths are those that neither whole units nor its rule,
// if that is the same, account for.
// Pieces that only one plan has are left out.
func ChangedPieces(before, after *Plan) (changed []int) {
	for i := range min(len(before.Pieces), len(after.Pieces)) {
		if !alike(before.Pieces[i], after.Pieces[i]) {
			changed = append(changed, i)
		}
	}
	return changed
}

func alike(a, b Piece) bool {
	if len(a.Runs) != len(b.Runs) || a.Hem != b.Hem {
		return false
	}
	unitsA, unitsB := 0, 0
	for i, r := range a.Runs {
		s := b.Runs[i]
		if r.Block != s.Block || r.Pattern != s.Pattern || r.Ground != s.Ground {
			return false
		}
		unitsA += r.Units
		unitsB += s.Units
	}
	ruled := a.Origin == "rules" && b.Origin == "rules" && a.Rhythm == b.Rhythm
	if ruled && unitsA != unitsB {
		return true
	}
	for i, r := range a.Runs {
		if !sameWidth(r.Units, unitsA, b.Runs[i].Units, unitsB) {
			return false
		}
	}
	return true
}

// sameWidth tells whether n of a units and m of b are one width in whole units:
// each is less than a unit from its exact share.
func sameWidth(n, a, m, b int) bool {
	if a == b {
		return n == m
	}
	apart := n*b - m*a
	return max(apart, -apart) < a+b
}
