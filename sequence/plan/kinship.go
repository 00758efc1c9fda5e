package plan

import (
	"context"
	"fmt"
	"slices"

	"stripesong/sequence"
	"stripesong/sequence/brief"
	"stripesong/sequence/parallel"
)

// families divides candidates into families, each named in words: by a pattern
// colour they have, by their kind of rhythm, or by their proportions. A
// candidate may be of several.
type families struct {
	what    brief.Kinship
	names   []string
	members [][]int
}

// familiesOf divides candidates as the brief asks.
func (m *maker) familiesOf(ctx context.Context, v *brief.Vary, all []candidate) (*families, error) {
	k := &families{what: v.Kinship}
	names := make([][]string, len(all))
	err := parallel.Ranges(ctx, len(all), 512, func(from, to int) {
		for i := from; i < to; i++ {
			names[i] = m.familyNames(v.Kinship, all[i].runs, all[i].rule.Rhythm)
		}
	})
	number := make(map[string]int)
	for i := range all {
		for _, name := range names[i] {
			f, ok := number[name]
			if !ok {
				f = len(k.names)
				number[name] = f
				k.names, k.members = append(k.names, name), append(k.members, nil)
			}
			k.members[f] = append(k.members[f], i)
		}
	}
	return k, err
}

// familyNames are the families of a piece with runs that a rhythm gave.
func (m *maker) familyNames(what brief.Kinship, runs []brief.Run,
	rhythm *sequence.Rhythm) []string {
	switch what {
	case brief.OneColour:
		var names []string
		for _, colour := range patternColours(runs) {
			names = append(names, m.colour(colour))
		}
		return names
	case brief.OneRhythm:
		return []string{rhythm.Spec().Name}
	case brief.OneProportions:
		return []string{proportions(runs)}
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
func (k *families) ofPiece(m *maker, i int) (families []int, told bool) {
	if k.what == brief.NoKinship || k.what == brief.OneRhythm && !m.pieceByRule(i) {
		return nil, false
	}
	names := m.familyNames(k.what, m.runsOf(i), m.b.Pieces[i].Weft.Rule.Rhythm)
	for f, name := range k.names {
		if slices.Contains(names, name) {
			families = append(families, f)
		}
	}
	return families, true
}

// allowed are the families that all written pieces are of, or all families
// where there are none.
func (k *families) allowed(m *maker, written []int) []int {
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

// outside are the written pieces that are not of a family.
func (k *families) outside(m *maker, written []int, family int) []string {
	var names []string
	for _, i := range written {
		if of, told := k.ofPiece(m, i); told && !slices.Contains(of, family) {
			names = append(names, m.called(i))
		}
	}
	return names
}
