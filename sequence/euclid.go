package sequence

// Euclid spreads accents over places as evenly as can be and gives the
// distances from accent to accent, which sum to places.
//
// These are the patterns of G. T. Toussaint, "The Euclidean Algorithm Generates
// Traditional Musical Rhythms", Bridges 2005, as printed there: silent places
// are dealt out among the accents, then what is left over again among the rows,
// until at most one row is left over. The first dealing is always made.
// It needs 1 <= accents <= places.
func Euclid(accents, places int) []int64 {
	many, few := rows(true, accents), rows(false, places-accents)
	for first := true; len(few) > 1 || (first && len(few) > 0); first = false {
		many, few = deal(many, few)
	}
	return distances(append(many, few...), places)
}

// rows makes n rows of one place each.
func rows(accent bool, n int) [][]bool {
	made := make([][]bool, n)
	for i := range made {
		made[i] = []bool{accent}
	}
	return made
}

// deal joins one of few to each of many; what is left of either is the new few.
func deal(many, few [][]bool) (joined, rest [][]bool) {
	n := min(len(many), len(few))
	for i := range n {
		joined = append(joined, append(append([]bool{}, many[i]...), few[i]...))
	}
	if len(many) > n {
		return joined, many[n:]
	}
	return joined, few[n:]
}

func distances(rows [][]bool, places int) []int64 {
	var found []int64
	last, at := 0, 0
	for _, row := range rows {
		for _, accent := range row {
			if accent && at > 0 {
				found = append(found, int64(at-last))
				last = at
			}
			at++
		}
	}
	return append(found, int64(places-last))
}
