package plan

import (
	"context"
	"fmt"
	"math/big"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// held is a brief with every piece written out and held, but for those that have a
// length of their own; its plan is the same to the byte.
func held(t *testing.T, path string, text []byte) ([]byte, *Plan) {
	t.Helper()
	b := parse(t, path, text)
	p, err := Make(context.Background(), b)
	require.NoError(t, err, path)
	hold, _ := HoldAll(b, p)
	written, err := brief.Edit(path, text, append(RunsOf(b, p), hold...))
	require.NoError(t, err, path)
	again, err := Make(context.Background(), parse(t, path, written))
	require.NoError(t, err)
	sameBytes(t, p, again)
	return written, p
}

func sameBytes(t *testing.T, one, other *Plan) {
	t.Helper()
	want, err := JSON(one)
	require.NoError(t, err)
	got, err := JSON(other)
	require.NoError(t, err)
	require.True(t, string(want) == string(got), "the plans differ")
}

func pieceLook(p Piece) (all []string) {
	for _, r := range p.Runs {
		all = append(all, fmt.Sprint(r.Block, r.Pattern))
	}
	return all
}

// TestHeldAtOtherSizes: at every other length held pieces are as long as that asks
// for, in the same blocks and colours, and each run has the units that largest
// remainders give it; written out there they give the same plan, to the byte.
func TestHeldAtOtherSizes(t *testing.T) {
	tried := 0
	for path, text := range briefs(t) {
		text, first := held(t, path, text)
		key := "length"
		if parse(t, path, text).Set.Woven != nil {
			key = "woven"
		}
		for _, length := range []string{"31 cm", "44.4 cm", "50 cm", "23 in", "71 cm", "1 m"} {
			t.Run(path+" "+length, func(t *testing.T) {
				changed := brief.Change{Key: "set." + key, Value: tomltext.Quote(length)}
				scaled, err := brief.Edit(path, text, []brief.Change{changed})
				require.NoError(t, err)
				b := parse(t, path, scaled)
				p, err := Make(context.Background(), b)
				require.NoError(t, err)
				units, asked := BodyUnits(b)
				require.True(t, asked)
				for i, piece := range p.Pieces {
					if !b.Pieces[i].Hold {
						assert.Equal(t, first.Pieces[i].Runs, piece.Runs, "its own length")
						continue
					}
					require.Equal(t, units, piece.BodyUnits)
					assert.Equal(t, pieceLook(first.Pieces[i]), pieceLook(piece))
					largestRemainders(t, first.Pieces[i].Runs, piece.Runs)
				}
				tried++
				written, err := brief.Edit(path, scaled, RunsOf(b, p))
				require.NoError(t, err)
				again, err := Make(context.Background(), parse(t, path, written))
				require.NoError(t, err)
				sameBytes(t, p, again)
			})
		}
	}
	assert.Greater(t, tried, 30)
}

// largestRemainders holds runs against Hamilton's method, where no run is so narrow
// that its one unit has to be borrowed and where it need not stay a mirror image.
func largestRemainders(t *testing.T, from, to []WeftRun) {
	t.Helper()
	sum, n := int64(0), int64(0)
	for i := range from {
		sum += int64(from[i].Units)
		n += int64(to[i].Units)
		require.Positive(t, to[i].Units)
	}
	shares := make([]*big.Rat, len(from))
	least := big.NewRat(1, 1)
	order := make([]int, len(from))
	want := make([]int, len(from))
	given, mirror := int64(0), true
	for i, r := range from {
		shares[i] = big.NewRat(int64(r.Units)*n, sum)
		if shares[i].Cmp(least) < 0 {
			return
		}
		want[i] = int(int64(r.Units) * n / sum)
		given += int64(want[i])
		order[i] = i
		mirror = mirror && r == from[len(from)-1-i]
	}
	if mirror {
		for i := range to {
			assert.Equal(t, to[i], to[len(to)-1-i], "a mirror image stays one")
		}
		return
	}
	rest := func(i int) *big.Rat {
		return new(big.Rat).Sub(shares[i], new(big.Rat).SetInt64(int64(want[i])))
	}
	remainders := make([]*big.Rat, len(from))
	for i := range from {
		remainders[i] = rest(i)
	}
	sort.SliceStable(order, func(a, b int) bool {
		return remainders[order[a]].Cmp(remainders[order[b]]) > 0
	})
	for _, i := range order[:n-given] {
		want[i]++
	}
	for i := range to {
		assert.Equal(t, want[i], to[i].Units, "run %d of %v", i+1, from)
	}
}

// TestHeldThroughOtherChanges: another seed, more yarns on the shelf and another
// choice leave every held piece as it is.
func TestHeldThroughOtherChanges(t *testing.T) {
	text, first := held(t, "testdata/family.toml", family(t))
	require.Contains(t, string(text), "[vary]")
	for name, changes := range map[string][]brief.Change{
		"seed":       {{Key: "seed", Value: "4711"}},
		"candidates": {{Key: "vary.candidates", Value: "77"}},
		"rhythms": {{Key: "vary.rhythms", Value: `["even"]`},
			{Key: "vary.kinship", Value: `"none"`}},
		"more": {{Key: "set.pieces", Value: fmt.Sprint(len(first.Pieces) + 1)}},
		"weft": {{Key: "weft.rhythm", Value: `{ kind = "even", stripes = 9 }`}},
	} {
		t.Run(name, func(t *testing.T) {
			changed, err := brief.Edit("family.toml", text, changes)
			require.NoError(t, err)
			sameRuns(t, first, makePlan(t, "changed", changed))
		})
	}
	t.Run("palette", func(t *testing.T) {
		more := strings.Replace(string(text), "\n[warp]",
			"\n[[colour]]\nname = \"new here\"\nhex = \"#c08030\"\nyarn = \"cotton\"\n\n[warp]", 1)
		require.NotEqual(t, string(text), more)
		sameRuns(t, first, makePlan(t, "palette", []byte(more)))
	})
}

func sameRuns(t *testing.T, first, again *Plan) {
	t.Helper()
	for i := range first.Pieces {
		assert.Equal(t, first.Pieces[i].Runs, again.Pieces[i].Runs, "piece %d", i+1)
	}
}
