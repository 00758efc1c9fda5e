package plan

import (
	"context"
	"fmt"
	"slices"

	"stripesong/sequence/brief"
	"stripesong/sequence/parallel"
)

// kin divides candidates into families, each named in words: by a pattern
// colour they have, by their kind of rhythm, or by their proportions. A
// candidate may be of several.
type kin struct {
	what     string // the key's value
	names    []string
	families [][]int
}

func (m *maker) kinship(ctx context.Context, v *brief.Vary, pool []candidate) (*kin, error) {
	k := &kin{what: v.Kinship}
	names := make([][]string, len(pool))
	err := parallel.Ranges(ctx, len(pool), 512, func(from, to int) {
		for i := from; i < to; i++ {
			names[i] = m.kinNames(v, pool[i])
		}
	})
	number := make(map[string]int)
	for i := range pool {
		for _, name := range names[i] {
			f, ok := number[name]
			if !ok {
				f = len(k.names)
				number[name] = f
				k.names, k.families = append(k.names, name), append(k.families, nil)
			}
			k.families[f] = append(k.families[f], i)
		}
	}
	return k, err
}

// kinNames are the families of a candidate.
func (m *maker) kinNames(v *brief.Vary, c candidate) []string {
	switch v.Kinship {
	case "colour":
		var names []string
		for _, colour := range patternColours(c.runs) {
			names = append(names, m.colour(colour))
		}
		return names
	case "rhythm":
		return []string{c.rule.Rhythm.Spec().Name}
	case "proportions":
		return []string{proportions(c.runs)}
	}
	return []string{""}
}

// proportions names the widths of runs, whatever their colours and blocks.
func proportions(runs []brief.Run) string {
	widths := make([]int, len(runs))
	for i, r := range runs {
		widths[i] = r.Units
	}
	return fmt.Sprint(widths)
}

// ofPiece are the families a piece is of, and whether that can be told.
func (k *kin) ofPiece(m *maker, i int) (families []int, told bool) {
	var names []string
	switch k.what {
	case "colour":
		for _, c := range patternColours(m.runsOf(i)) {
			names = append(names, m.colour(c))
		}
	case "rhythm":
		if !m.pieceByRule(i) {
			return nil, false
		}
		names = []string{m.b.Pieces[i].Weft.Rule.Rhythm.Spec().Name}
	case "proportions":
		names = []string{proportions(m.runsOf(i))}
	default:
		return nil, false
	}
	for f, name := range k.names {
		if slices.Contains(names, name) {
			families = append(families, f)
		}
	}
	return families, true
}

// allowed are the families that all written pieces are of, or all families
// where there are none.
func (k *kin) allowed(m *maker, written []int) []int {
	all := make([]int, len(k.names))
	for f := range all {
		all[f] = f
	}
	left := slices.Clone(all)
	for _, i := range written {
		if of, told := k.ofPiece(m, i); told {
			left = slices.DeleteFunc(left, func(f int) bool { return !slices.Contains(of, f) })
		}
	}
	if len(left) == 0 {
		return all
	}
	return left
}

// strangers are the written pieces that are not of a family.
func (k *kin) strangers(m *maker, written []int, family int) []string {
	var names []string
	for _, i := range written {
		if of, told := k.ofPiece(m, i); told && !slices.Contains(of, family) {
			names = append(names, m.called(i))
		}
	}
	return names
}
