package weave

// Miss is what one shuttle leaves uncaught at one edge where there are no
// floating selvedges.
type Miss struct {
	Ends  int // the outermost ends missed at the worst of the turns
	Turns int // turns at this edge that miss any
	Of    int // turns at this edge
}

// EdgeMisses follows one shuttle through its passes and tells which outermost
// ends it fails to catch. The shuttle starts from the right (common practice,
// no source), so it turns at the left edge after its first pass, at the right
// after its second. A turn catches the edge end when the weft passes over it
// on one side of the turn and under it on the other; where it passes on the
// same side both times, it slips inward to the first end where either pass
// changes sides, and the ends outside that one are missed.
func EdgeMisses(threading []int, passes []Shed) (left, right Miss) {
	mirrored := make([]int, len(threading))
	for i, shaft := range threading {
		mirrored[len(mirrored)-1-i] = shaft
	}
	type turn struct{ in, out Shed }
	known := map[turn]int{} // at the left; the right is kept apart
	knownRight := map[turn]int{}
	for i := 1; i < len(passes); i++ {
		t := turn{passes[i-1], passes[i]}
		edge, miss, memo := threading, &left, known
		if i%2 == 0 {
			edge, miss, memo = mirrored, &right, knownRight
		}
		n, ok := memo[t]
		if !ok {
			n = slipped(edge, t.in, t.out)
			memo[t] = n
		}
		miss.count(n)
	}
	return left, right
}

func (m *Miss) count(ends int) {
	m.Of++
	if ends > 0 {
		m.Turns++
		m.Ends = max(m.Ends, ends)
	}
}

// slipped counts the outermost ends, from the first of edge, that lie on one
// and the same side of two passes.
func slipped(edge []int, in, out Shed) int {
	for i, shaft := range edge {
		side := in.Covers(edge[0])
		if in.Covers(shaft) != side || out.Covers(shaft) != side {
			return i
		}
	}
	return len(edge)
}

// SelvedgeMisses is [EdgeMisses] of the two shuttles of a piece, one for the
// ground and one for the pattern weft.
func SelvedgeMisses(threading []int, picks []Woven, pattern bool) (left, right Miss) {
	var passes []Shed
	for _, p := range picks {
		if p.Pattern == pattern {
			passes = append(passes, p.Shed)
		}
	}
	return EdgeMisses(threading, passes)
}
