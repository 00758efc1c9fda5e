package remedy

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// refusing is a brief whose shelf does not reach for the set that is to be chosen
// within it: plum and moss are 50 yd each.
func refusing(t *testing.T) string {
	return changed(t, troubled(t)["set-alike"], `at_least = 30`, "within = \"on_hand\"",
		"name = \"plum\"\nhex = \"#4b1f3f\"\non_hand = \"8 oz\"",
		"name = \"plum\"\nhex = \"#4b1f3f\"\non_hand = \"300 yd\"",
		"name = \"moss\"\nhex = \"#24492f\"\non_hand = \"8 oz\"",
		"name = \"moss\"\nhex = \"#24492f\"\non_hand = \"300 yd\"",
		`colours = ["rust"]`, `colours = ["moss", "plum"]`)
}

// TestARefusedBriefHasWaysOut: each was planned, within the shelf but for the last, which
// buys what is short.
func TestARefusedBriefHasWaysOut(t *testing.T) {
	text, read := refusing(t), reader(".")
	b, err := read([]byte(text))
	require.NoError(t, err)
	_, err = plan.Make(context.Background(), b)
	require.True(t, Refused(err), "%v", err)
	a, err := FindRefused(context.Background(), Source{"b.toml", []byte(text), read}, b)
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(a.Remedies), 2)
	for i, r := range a.Remedies {
		assert.Equal(t, i+1, r.Number)
		_, p := planOf(t, read, take(t, text, r))
		short := codes(p)["yarn-short"]
		if i == len(a.Remedies)-1 {
			assert.Equal(t, []brief.Change{{Key: "vary.within"}}, r.Changes)
			continue
		}
		assert.Zero(t, short, r.What)
	}
}

func TestOtherMistakesAreNotRefusals(t *testing.T) {
	_, err := reader(".")([]byte(changed(t, five, `sett = "20/in"`, `sett = "twenty"`)))
	require.Error(t, err)
	assert.False(t, Refused(err))
	assert.False(t, Refused(nil))
}

func TestFindRefusedStops(t *testing.T) {
	text, read := refusing(t), reader(".")
	b, err := read([]byte(text))
	require.NoError(t, err)
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err = FindRefused(ctx, Source{"b.toml", []byte(text), read}, b)
	assert.ErrorIs(t, err, context.Canceled)
}
