package plan

import (
	"fmt"
	"strings"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/exact"
	"stripesong/sequence/measure"
)

// BlockShare is how much of a width or length is of one block; its letter is "" for
// plain stretches.
type BlockShare struct {
	Block string  `json:"block"`
	Units int     `json:"units"`
	Share float64 `json:"share"` // of all units, 0..1
}

// divided is how runs divide among the blocks, in the order of their letters, plain
// stretches last; blocks that are not there are left out.
func (m *maker) divided(runs []brief.Run) []BlockShare {
	sums := make([]int, len(m.s.Blocks)+1)
	for _, r := range runs {
		at := r.Block
		if at < 0 {
			at = len(m.s.Blocks)
		}
		sums[at] += r.Units
	}
	all, n := []BlockShare{}, units(runs)
	for at, sum := range sums {
		if sum == 0 {
			continue
		}
		letter := ""
		if at < len(m.s.Blocks) {
			letter = m.letter(at)
		}
		share := exact.Over(exact.Whole(sum), exact.Whole(n))
		all = append(all, BlockShare{letter, sum, exact.Rounded(share)})
	}
	return all
}

// stripes is how many stripes the warp has as its rhythm lays them; as many as runs
// where those are written by hand, or where stripes alike lie side by side.
func (m *maker) stripes() int {
	runs := len(m.warpRuns)
	if !m.warpByRule() {
		return runs
	}
	return min(runs, m.stripesOf(m.b.Warp.Rule))
}

func (m *maker) stripesOf(rule brief.Rule) int {
	weights, mirrored, err := rule.Rhythm.Base(sequence.Chance(m.b.Seed, warpStream))
	n := len(weights)
	switch {
	case err != nil:
		return 0
	case mirrored:
		n = 2*n - 1
	}
	if rule.Middle != nil {
		n = 2*n + max(rule.Middle.Even, 1)
	}
	return n
}

// Divided says how the width divides: "A 34 %, B 66 %; 9 stripes". Where blocks cut
// through stripes it says into how many.
func (w Warp) Divided() string { return SharesInWords(w.Blocks) + "; " + w.StripesInWords() }

// StripesInWords is how many stripes there are, and into how many runs blocks cut them.
func (w Warp) StripesInWords() string {
	stripes := measure.Count(w.Stripes, "stripe")
	if runs := len(w.Runs); runs > w.Stripes {
		stripes += fmt.Sprintf(" (cut into %d by blocks)", runs)
	}
	return stripes
}

// SharesInWords are shares of blocks in whole per cent that sum to 100.
func SharesInWords(all []BlockShare) string {
	weights, n := make([]int64, len(all)), int64(0)
	for i, b := range all {
		weights[i] = int64(b.Units)
		n += weights[i]
	}
	if n == 0 {
		return ""
	}
	percent := wholePercent(weights, n)
	words := make([]string, len(all))
	for i, b := range all {
		name := b.Block
		if name == "" {
			name = "plain"
		}
		words[i] = fmt.Sprintf("%s %d %%", name, percent[i])
	}
	return strings.Join(words, ", ")
}

// wholePercent is parts of a sum in whole per cent, by largest remainders.
func wholePercent(weights []int64, sum int64) []int {
	percent, left := make([]int, len(weights)), 100
	for i, w := range weights {
		percent[i] = int(100 * w / sum)
		left -= percent[i]
	}
	for ; left > 0; left-- {
		best, most := 0, int64(-1<<62)
		for i, w := range weights {
			if rest := 100*w - int64(percent[i])*sum; rest > most {
				best, most = i, rest
			}
		}
		percent[best]++
	}
	return percent
}
