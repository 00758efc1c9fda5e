package plan

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

func makePlan(t testing.TB, name string, text []byte) *Plan {
	t.Helper()
	b, err := brief.Parse(name, text, brief.Options{})
	require.NoError(t, err)
	p, err := Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

// TestWorkedBrief holds one whole plan against the numbers of an independent
// program that reckoned worked-brief.toml from the formulas of the format
// alone (testdata/worked-plan.json; not published, computed). Numbers agree to
// four decimals, contrast to 0.01.
func TestWorkedBrief(t *testing.T) {
	text, err := os.ReadFile("testdata/worked-brief.toml")
	require.NoError(t, err)
	var want, got map[string]any
	wanted, err := os.ReadFile("testdata/worked-plan.json")
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(wanted, &want))
	made, err := JSON(makePlan(t, "worked-brief.toml", text))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(made, &got))
	delete(want, "note")
	numbers := compare(t, "plan", want, got, 0.00011)
	assert.Greater(t, numbers, 350, "the comparison looked at too little")
}

// compare holds everything that is wanted against what there is and counts the
// numbers it looked at.
func compare(t *testing.T, at string, want, got any, tolerance float64) int {
	t.Helper()
	n := 0
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		require.True(t, ok, at)
		for key, v := range w {
			inner := tolerance
			if key == "contrast" {
				inner = 0.01
			}
			require.Contains(t, g, key, at)
			n += compare(t, at+"."+key, v, g[key], inner)
		}
	case []any:
		g, ok := got.([]any)
		require.True(t, ok, at)
		require.Len(t, g, len(w), at)
		for i := range w {
			n += compare(t, fmt.Sprintf("%s[%d]", at, i), w[i], g[i], tolerance)
		}
	case float64:
		g, ok := got.(float64)
		require.True(t, ok, at)
		assert.LessOrEqual(t, math.Abs(w-g), tolerance, "%s: want %v, got %v", at, w, g)
		n = 1
	default:
		assert.Equal(t, want, got, at)
	}
	return n
}
