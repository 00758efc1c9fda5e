package plan

import "stripesong/sequence/brief"

// none is the colour and the block of a plain run.
const none = -1

// merged is one run for each different block and colour, its units summed, in
// the order of their first runs: all that matters where areas are added up.
func merged(runs []brief.Run) []brief.Run {
	var all []brief.Run
	at := make(map[brief.Run]int)
	for _, r := range runs {
		key := brief.Run{Block: r.Block, Colour: r.Colour}
		i, ok := at[key]
		if !ok {
			i = len(all)
			at[key] = i
			all = append(all, key)
		}
		all[i].Units += r.Units
	}
	return all
}

// colours are the different colours of runs, in the order of their first runs.
func colours(runs []brief.Run) []int {
	var all []int
	seen := make(map[int]bool)
	for _, r := range runs {
		if !seen[r.Colour] {
			seen[r.Colour] = true
			all = append(all, r.Colour)
		}
	}
	return all
}

// narrowest is the fewest units of a run of each colour.
func narrowest(runs []brief.Run) map[int]int {
	least := make(map[int]int)
	for _, r := range runs {
		if n, ok := least[r.Colour]; !ok || r.Units < n {
			least[r.Colour] = r.Units
		}
	}
	return least
}
