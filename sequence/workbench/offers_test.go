package workbench

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// Others are plans of their texts, each another to look at; of a piece and of the warp
// they change nothing else, and those that are like it are nearer than those that are not.
func TestOthers(t *testing.T) {
	b := open(t, string(brief.Default()))
	strips := []int{Weft, 1}
	if os.Getenv("STRIPESONG_CI") != "" {
		strips = append(strips, Warp, 5)
	}
	for _, strip := range strips {
		t.Run(fmt.Sprint(strip), func(t *testing.T) {
			far := map[bool]float64{}
			for _, unlike := range []bool{false, true} {
				offers, err := b.Others(context.Background(),
					Asking{Strip: strip, Unlike: unlike, Count: 5})
				require.NoError(t, err)
				require.Len(t, offers, 5)
				for i, o := range offers {
					far[unlike] += apart(o.version, b.version, strip)
					assert.NotEmpty(t, o.What)
					for _, other := range offers[:i] {
						assert.GreaterOrEqual(t, apart(o.version, other.version, strip), justSeen)
					}
					c := b.Copy()
					_, err := c.Take(context.Background(), o)
					require.NoError(t, err)
					agrees(t, c)
					assert.Equal(t, o.Sketch(b), c.sketch(b.version), "it is what was shown")
					if strip != Weft {
						assert.Equal(t, pieceLooks(b, strip), pieceLooks(c, strip))
					}
					if strip >= 0 {
						assert.Equal(t, warpRuns(b.plan), warpRuns(c.plan))
					}
				}
			}
			assert.Greater(t, far[true], 1.5*far[false])
		})
	}
	_, err := b.Others(context.Background(), Asking{Strip: 6})
	assert.Error(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = b.Others(ctx, Asking{Strip: Weft, Unlike: true, Count: 5})
	assert.ErrorIs(t, err, context.Canceled)
}

// Others like a whole set leave the pieces and the warp that are kept as they are.
func TestOthersOfASetLeaveWhatIsKept(t *testing.T) {
	b := open(t, string(brief.Default()))
	do(t, b, Op{Do: "keep", Strip: 1})
	do(t, b, Op{Do: "keep", Strip: Warp})
	offers, err := b.Others(context.Background(), Asking{Strip: Weft, Count: 12})
	require.NoError(t, err)
	require.NotEmpty(t, offers)
	for _, o := range offers {
		assert.Contains(t, o.What, "every piece that is not kept: ")
		assert.Equal(t, pieceRuns(b.plan, 1), pieceRuns(o.version.plan, 1), o.What)
		assert.Equal(t, warpRuns(b.plan), warpRuns(o.version.plan), o.What)
		assert.NotEqual(t, pieceRuns(b.plan, 2), pieceRuns(o.version.plan, 2), o.What)
	}
	for i := range b.brief.Pieces {
		do(t, b, Op{Do: "keep", Strip: i})
	}
	offers, err = b.Others(context.Background(), Asking{Strip: Weft, Count: 12})
	require.NoError(t, err)
	assert.Empty(t, offers, "nothing is free")
}

// What is said of others holds for each of them.
func TestOthersAsSaid(t *testing.T) {
	b := open(t, string(brief.Default()))
	said := plan.Steering{Kinds: []string{"graded"}, Fewest: 9, Most: 9}
	for _, unlike := range []bool{false, true} {
		offers, err := b.Others(context.Background(),
			Asking{Strip: 3, Unlike: unlike, Count: 4, Steering: said})
		require.NoError(t, err)
		require.NotEmpty(t, offers)
		for _, o := range offers {
			assert.Equal(t, "graded", o.brief.Pieces[3].Weft.Rule.Rhythm.Spec().Name)
			assert.Len(t, o.plan.Pieces[3].Runs, 9)
		}
	}
}

// Of whole sets that are chosen anew what she kept stays, and so do the number of
// candidates and the seed.
func TestOtherSetsKeepTheKept(t *testing.T) {
	b := chosenSet(t)
	do(t, b, Op{Do: "keep", Strip: 3})
	kept := pieceLooks(b, -1)[3]
	offers, err := b.Others(context.Background(), Asking{Strip: Weft, Unlike: true, Count: 3})
	require.NoError(t, err)
	for _, o := range offers {
		c := b.Copy()
		do := func(_ string, err error) { require.NoError(t, err) }
		do(c.Take(context.Background(), o))
		assert.Equal(t, kept, pieceLooks(c, -1)[3])
		assert.Equal(t, 60, c.Chooses())
		assert.Equal(t, b.brief.Seed, c.brief.Seed)
		assert.Empty(t, c.open())
	}
}

// Of sets in a few colours only these are in the patterns, what is kept being left as it is.
func TestOtherSetsInAFewColours(t *testing.T) {
	b := open(t, string(brief.Default()))
	for _, only := range [][]string{{"rosehip", "damson"}, {"sloe"}} {
		for _, unlike := range []bool{true, false} {
			offers, err := b.Others(context.Background(),
				Asking{Strip: Weft, Unlike: unlike, Count: 3, Colours: only})
			require.NoError(t, err)
			require.NotEmpty(t, offers)
			for _, o := range offers {
				assert.Equal(t, b.brief.Weft.Rule.Colours, o.brief.Vary.Colours, "it is asked once")
				for _, p := range o.plan.Pieces[:5] {
					for _, r := range p.Runs {
						assert.Contains(t, append(only, ""), r.Pattern, p.Name)
					}
				}
				assert.Equal(t, b.plan.Pieces[5].Runs, o.plan.Pieces[5].Runs, "the kept one")
			}
		}
	}
	_, err := b.Others(context.Background(), Asking{Strip: Weft, Count: 3,
		Colours: []string{"none of hers"}})
	assert.Error(t, err)
}

// Ways out of what is short are those that the command lists, and each is what it says.
func TestWays(t *testing.T) {
	folder := filepath.Join("..", "..", "examples", "short-shelf")
	text, err := os.ReadFile(filepath.Join(folder, "brief.toml"))
	require.NoError(t, err)
	shelf := func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) }
	b, err := Open(context.Background(), "b.toml", text, brief.Options{Shelf: shelf})
	require.NoError(t, err)
	all, _, err := b.Ways(context.Background(), "", "")
	require.NoError(t, err)
	require.NotEmpty(t, all)
	about, _, err := b.Ways(context.Background(), "yarn-short", "chalk line")
	require.NoError(t, err)
	assert.Less(t, len(about), len(all))
	short := func(b *Bench) bool {
		return slices.ContainsFunc(b.plan.Notes, func(n plan.Note) bool {
			return n.Code == "yarn-short" && strings.Contains(n.Message, "chalk line")
		})
	}
	require.True(t, short(b))
	for _, o := range about {
		c := b.Copy()
		_, err := c.Take(context.Background(), o)
		require.NoError(t, err)
		before, after := b.plan.Yarn, c.plan.Yarn
		assert.True(t, !short(c) || after[0].ShortM < before[0].ShortM, o.What)
	}
}
