package remedy

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"stripesong/sequence/brief"
	"stripesong/sequence/measure"
	"stripesong/sequence/weave"
)

// blockWeight is to give up a block of the weaver's own structure, furtherWeight each
// further one; what is woven in them counts besides. These are judgements.
const blockWeight, furtherWeight = 4, 0.5

// mostKept is how many ways to give up equally many blocks are tried.
const mostKept = 2

// fewerBlocks weave the weaver's own structure with as many of its blocks as the loom has
// shafts for; those go first in which least is woven, of equals the last.
func (f *finder) fewerBlocks() (all []way) {
	for n := len(f.b.Structure.Blocks) - 1; n >= 2; n-- {
		for _, kept := range f.choices(n) {
			if w, shafts := f.onlyBlocks(kept); shafts <= f.b.Loom.Shafts {
				all = append(all, w)
			}
			if len(all) == mostKept {
				return all
			}
		}
		if all != nil {
			return all
		}
	}
	return nil
}

// choices are all choices of n blocks, in order of what is woven in the others.
func (f *finder) choices(n int) [][]int {
	var all [][]int
	var choose func(kept []int, next int)
	choose = func(kept []int, next int) {
		if len(kept) == n {
			all = append(all, slices.Clone(kept))
			return
		}
		for i := next; i < len(f.b.Structure.Blocks); i++ {
			choose(append(kept, i), i+1)
		}
	}
	choose(nil, 0)
	woven := f.wovenIn()
	left := func(kept []int) (sum float64) {
		for i, share := range woven {
			if !slices.Contains(kept, i) {
				sum += share
			}
		}
		return sum
	}
	slices.SortStableFunc(all, func(a, b []int) int { return cmp.Compare(left(a), left(b)) })
	return all
}

// wovenIn is what each block has of the warp's units and of those of the pieces, half and
// half.
func (f *finder) wovenIn() []float64 {
	letters := f.b.Structure.Letters()
	var units [2][]float64
	var sums [2]float64
	for k := range units {
		units[k] = make([]float64, len(letters))
	}
	add := func(k int, letter string, n int) {
		if i := slices.Index(letters, letter); i >= 0 {
			units[k][i] += float64(n)
			sums[k] += float64(n)
		}
	}
	for _, r := range f.p.Warp.Runs {
		add(0, r.Block, r.Units)
	}
	for _, piece := range f.p.Pieces {
		for _, r := range piece.Runs {
			add(1, r.Block, r.Units)
		}
	}
	shares := make([]float64, len(letters))
	for k, all := range units {
		for i, n := range all {
			shares[i] += float64(n / max(1, sums[k]) / 2)
		}
	}
	return shares
}

// standIns are, for each block of the brief's structure, which of those that are kept
// stands in for it: itself, or the one that it least often lies beside, so that as many
// edges as may be stay where they are; of equals as if the kept ones went on in turn.
func (f *finder) standIns(kept []int) []int {
	letters := f.b.Structure.Letters()
	beside := f.neighbours()
	all := make([]int, len(letters))
	for i, letter := range letters {
		all[i] = kept[i%len(kept)]
		for _, k := range kept {
			if beside[[2]string{letter, letters[k]}] < beside[[2]string{letter, letters[all[i]]}] {
				all[i] = k
			}
		}
		if slices.Contains(kept, i) {
			all[i] = i
		}
	}
	return all
}

// neighbours counts how often a block lies beside another, in warp and pieces.
func (f *finder) neighbours() map[[2]string]int {
	count := map[[2]string]int{}
	meet := func(a, b string) {
		count[[2]string{a, b}]++
		count[[2]string{b, a}]++
	}
	for i, r := range f.p.Warp.Runs[1:] {
		meet(f.p.Warp.Runs[i].Block, r.Block)
	}
	for _, piece := range f.p.Pieces {
		for i := 1; i < len(piece.Runs); i++ {
			meet(piece.Runs[i-1].Block, piece.Runs[i].Block)
		}
	}
	return count
}

// onlyBlocks is the weaver's own structure with some of its blocks alone, and how many
// shafts that takes.
func (f *finder) onlyBlocks(kept []int) (way, int) {
	own := f.b.Structure
	number, shafts := f.shaftsOf(kept)
	left := func(shafts []int) string { return shaftList(shafts, number) }
	letters := own.Letters()
	what, changes := f.exchanged(kept, letters[:len(kept)])
	var gone []string
	weight := float64(blockWeight - furtherWeight)
	for i, share := range f.wovenIn() {
		if !slices.Contains(kept, i) {
			gone = append(gone, letters[i])
			weight += furtherWeight + share
		}
	}
	for i, letter := range letters {
		units, sheds := "structure.units."+letter, "structure.sheds."+letter
		if i >= len(kept) {
			changes = append(changes, brief.Change{Key: units}, brief.Change{Key: sheds})
			continue
		}
		b := own.Blocks[kept[i]]
		changes = append(changes, brief.Change{Key: units, Value: left(b.Unit)},
			brief.Change{Key: sheds, Value: shedList(b.Sheds, left)})
	}
	changes = append(changes,
		brief.Change{Key: "structure.tabby.a", Value: left(own.Tabby[0].Shafts())},
		brief.Change{Key: "structure.tabby.b", Value: left(own.Tabby[1].Shafts())},
		brief.Change{Key: "structure.shafts", Value: fmt.Sprint(shafts)})
	plural := ""
	if len(gone) > 1 {
		plural = "s"
	}
	said := fmt.Sprintf("%s on %s, without block%s %s", own.Name, measure.Count(shafts, "shaft"),
		plural, strings.Join(gone, ", "))
	if what != "" {
		said += " (" + what + ")"
	}
	return way{said, changes, weight}, shafts
}

// shaftsOf are new numbers, from 1 on, for the shafts that some blocks are threaded on,
// and how many these are.
func (f *finder) shaftsOf(kept []int) (number map[int]int, n int) {
	number = map[int]int{}
	for shaft := 1; shaft <= f.b.Structure.Shafts; shaft++ {
		used := slices.ContainsFunc(kept, func(k int) bool {
			return slices.Contains(f.b.Structure.Blocks[k].Unit, shaft)
		})
		if used {
			n++
			number[shaft] = n
		}
	}
	return number, n
}

// shaftList is a list of shafts as a brief has it, by their new numbers; those that have
// none are left out.
func shaftList(shafts []int, number map[int]int) string {
	var words []string
	for _, shaft := range shafts {
		if n, kept := number[shaft]; kept {
			words = append(words, fmt.Sprint(n))
		}
	}
	return "[" + strings.Join(words, ", ") + "]"
}

// shedList is the pattern sheds of a block as a brief has them.
func shedList(sheds []weave.Shed, list func([]int) string) string {
	words := make([]string, len(sheds))
	for i, shed := range sheds {
		words[i] = list(shed.Shafts())
	}
	if len(words) == 1 {
		return words[0]
	}
	return "[" + strings.Join(words, ", ") + "]"
}
