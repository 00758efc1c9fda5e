package fit

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// replaceSet puts another [set] into a brief.
func replaceSet(text, set string) string {
	from, to := strings.Index(text, "[set]\n")+6, strings.Index(text, "[cloth]")
	return text[:from] + set + "\n" + text[to:]
}

// dropRules takes the rule of the weft away, which runs written after it
// replace.
func dropRules(text string) string {
	at := strings.Index(text, "[weft]")
	weft := strings.ReplaceAll(text[at:],
		"colours = [\"blue\"]\nrhythm = { kind = \"even\", stripes = 5 }\n", "")
	return text[:at] + weft
}

func planOf(t *testing.T, text string) *plan.Plan {
	t.Helper()
	b, err := brief.Parse("test", []byte(text), brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}
