package look

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/weave"
)

// areas adds up what a unit of picks shows over a unit of ends.
func areas(w Widths, unit []weave.Woven, shafts []int, back bool) (s Shares) {
	parts := [3]float64{}
	for _, r := range w.Rows(unit) {
		for _, shaft := range shafts {
			area := (r.To - r.From) / float64(len(shafts))
			end, gap := r.Top(shaft, back)
			parts[end] += area * r.End
			parts[gap] += area * (1 - r.End)
		}
	}
	return Shares{parts[PatternYarn], parts[WarpYarn], parts[GroundYarn]}
}

// ownOrders are orders of picks that no built-in structure has.
var ownOrders = map[string][]weave.Pick{
	"P P a P P b": {{Pattern: true}, {Pattern: true}, {}, {Pattern: true}, {Pattern: true},
		{Index: 1}},
	"P a b": {{Pattern: true}, {}, {Index: 1}},
	"a P b": {{}, {Pattern: true}, {Index: 1}},
	"P a b a P b a b": {{Pattern: true}, {}, {Index: 1}, {}, {Pattern: true}, {Index: 1}, {},
		{Index: 1}},
	"P a b a b P a b a b": {{Pattern: true}, {}, {Index: 1}, {}, {Index: 1}, {Pattern: true}, {},
		{Index: 1}, {}, {Index: 1}},
}

// structures are the built-in ones, halvdräll in other orders, and one of six
// shafts whose pattern passes over 1/2, 2/3 and 5/6 of a block.
func structures(t testing.TB) map[string]*weave.Structure {
	all := make(map[string]*weave.Structure)
	for _, name := range weave.Names() {
		all[name], _ = weave.Lookup(name)
	}
	for name, order := range ownOrders {
		s, _ := weave.Lookup("halvdrall")
		s.Order = order
		all[name] = s
	}
	all["uneven"] = &weave.Structure{
		Name: "uneven", Shafts: 6,
		Blocks: []weave.Block{
			{Letter: "A", Unit: []int{1, 4, 1, 4, 1, 4}, Sheds: []weave.Shed{weave.ShedOf(1)}},
			{Letter: "B", Unit: []int{2, 5, 2, 5, 2, 6}, Sheds: []weave.Shed{weave.ShedOf(2, 6)}},
			{Letter: "C", Unit: []int{3, 6, 3, 6, 3, 5}, Sheds: []weave.Shed{weave.ShedOf(3, 6)}},
		},
		Tabby: [2]weave.Shed{weave.ShedOf(1, 2, 3), weave.ShedOf(4, 5, 6)},
		Order: []weave.Pick{{Pattern: true}, {}, {Pattern: true}, {Index: 1}},
	}
	for name, s := range all {
		require.NoError(t, s.Validate(), name)
	}
	return all
}

// TestRowsCoverTheShares: what is drawn in rows adds up to the shares, in every
// structure, over every block, on both sides, in plain ground too.
func TestRowsCoverTheShares(t *testing.T) {
	chance := rand.New(rand.NewPCG(5, 6))
	widths := []Widths{{1, 1, 1}, {0.8, 0.6, 0.6}, {0.3, 1, 0.9}, {1, 0.4, 0.2}}
	for range 50 {
		widths = append(widths, randomWidths(chance))
	}
	for name, s := range structures(t) {
		t.Run(name, func(t *testing.T) {
			for _, w := range widths {
				for _, lies := range s.Blocks {
					for _, woven := range s.Blocks {
						unit := s.UnitPicks(woven.Letter)
						for _, back := range []bool{false, true} {
							phi := Phi(s, woven.Letter, lies.Letter, back)
							what := fmt.Sprintf("%v, %s over %s, back %v", w, woven.Letter,
								lies.Letter, back)
							alike(t, w.Patch(phi), areas(w, unit, lies.Unit, back), what)
						}
					}
					alike(t, w.Plain(), areas(w, s.UnitPicks(""), lies.Unit, false),
						fmt.Sprint(w, " plain"))
				}
			}
		})
	}
}

func alike(t *testing.T, want, got Shares, what string) {
	t.Helper()
	if !assert.InDeltaSlice(t, []float64{want.Pattern, want.Warp, want.Ground},
		[]float64{got.Pattern, got.Warp, got.Ground}, 1e-9, what) {
		t.FailNow()
	}
}

// TestRowsByHand is half a unit of halvdräll with c 0.5, a 0.8, t 0.4: over
// shaft 1, on which tabby a lies, the pattern covers the middle half, tabby b
// leaves the end below it and tabby a covers it above.
func TestRowsByHand(t *testing.T) {
	s, _ := weave.Lookup("halvdrall")
	rows := Widths{Pattern: 0.5, Warp: 0.8, Ground: 0.4}.Rows(s.UnitPicks("A"))
	type seen struct {
		from, to string
		end, gap Yarn
	}
	var over, under []seen
	for _, r := range rows[:len(rows)/2] {
		from, to := fmt.Sprintf("%.3f", r.From), fmt.Sprintf("%.3f", r.To)
		end, gap := r.Top(1, false)
		over = append(over, seen{from, to, end, gap})
		end, gap = r.Top(4, false)
		under = append(under, seen{from, to, end, gap})
		assert.Equal(t, 0.8, r.End)
	}
	assert.Equal(t, []seen{
		{"0.000", "0.100", WarpYarn, GroundYarn},
		{"0.100", "0.125", WarpYarn, GroundYarn},
		{"0.125", "0.250", PatternYarn, PatternYarn},
		{"0.250", "0.375", PatternYarn, PatternYarn},
		{"0.375", "0.400", GroundYarn, GroundYarn},
		{"0.400", "0.500", GroundYarn, GroundYarn},
	}, over)
	assert.Equal(t, []seen{
		{"0.000", "0.100", GroundYarn, GroundYarn},
		{"0.100", "0.125", WarpYarn, GroundYarn},
		{"0.125", "0.250", WarpYarn, PatternYarn},
		{"0.250", "0.375", WarpYarn, PatternYarn},
		{"0.375", "0.400", WarpYarn, GroundYarn},
		{"0.400", "0.500", WarpYarn, GroundYarn},
	}, under)
}
