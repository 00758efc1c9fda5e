package packet

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// said is the text of the page of the built-in brief after some changes, as a
// person reads it.
func said(t testing.TB, changes ...string) string {
	t.Helper()
	text := string(brief.Default())
	for i := 0; i < len(changes); i += 2 {
		require.Equal(t, 1, strings.Count(text, changes[i]), changes[i])
		text = strings.Replace(text, changes[i], changes[i+1], 1)
	}
	page := pageOf(t, planOf(t, []byte(text)))
	page = regexp.MustCompile(`(?s)<(style|script|svg).*?</(style|script|svg)>`).ReplaceAllString(page, " ")
	page = regexp.MustCompile(`<[^>]*>`).ReplaceAllString(page, " ")
	return strings.Join(strings.Fields(html.UnescapeString(page)), " ")
}

// TestInSight: 1 cm at 9/cm, shrunk by 10 %, is 10 picks.
func TestInSight(t *testing.T) {
	text := said(t, "# hem_show", "hem_show")
	assert.Contains(t, text, "of them 40 in each hem and 10 of plain at each end that stay in sight")
	assert.Contains(t, text, "plain that stays in sight, from the fold line on · 5 6 O oat 10 50 5.6 cm")
	assert.Contains(t, text, "plain that stays in sight, up to the fold line · 5 6 O oat 10 1196 77.7 cm")
	assert.Contains(t, text, "The last fold lies 10 picks of plain outside the pattern, so that 1.0 cm of plain stays in sight.")
	bare := said(t, "# hem_show", "hem_show", `hem       = "4 cm"`, `hem       = "0 cm"`)
	assert.Contains(t, bare, "picks , of them 10 of plain at each end that stay in sight")
	assert.NotContains(t, bare, "fold line")
	assert.NotContains(t, said(t), "in sight,")
}
