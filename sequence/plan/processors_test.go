package plan

import (
	"context"
	"encoding/json"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/brief/tomltext"
)

// TestSamePlanOnAnyProcessors: a choice gives the same bytes, however many
// processors work on it, whatever the set is to have in common.
func TestSamePlanOnAnyProcessors(t *testing.T) {
	before := runtime.GOMAXPROCS(0)
	defer runtime.GOMAXPROCS(before)
	for _, kinship := range []string{"none", "colour"} {
		b := parse(t, "family.toml", family(t,
			brief.Change{Key: "vary.kinship", Value: tomltext.Quote(kinship)},
			brief.Change{Key: "vary.candidates", Value: "4500"}))
		var want string
		for _, n := range []int{1, 3} {
			runtime.GOMAXPROCS(n)
			p, err := Make(context.Background(), b)
			require.NoError(t, err)
			got, err := json.Marshal(p)
			require.NoError(t, err)
			if n == 1 {
				want = string(got)
			}
			assert.Equal(t, want, string(got), "%s, %d processors", kinship, n)
		}
	}
}

// TestChoiceStopsAnywhere: whenever a choice is stopped, there is no plan.
func TestChoiceStopsAnywhere(t *testing.T) {
	b := parse(t, "family.toml", family(t, brief.Change{Key: "vary.candidates", Value: "1200"},
		brief.Change{Key: "vary.within", Value: `"on_hand"`}))
	asked := 0
	for ; ; asked += 1 + asked/4 {
		p, err := Make(&stopAt{context.Background(), asked}, b)
		if err == nil {
			break
		}
		require.Nil(t, p)
		require.ErrorIs(t, err, context.Canceled)
	}
	assert.Greater(t, asked, 40)
}
