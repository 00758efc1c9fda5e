package plan_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/plan"
)

func codes(p *plan.Plan) (all []string) {
	for _, n := range p.Notes {
		all = append(all, n.Code)
	}
	return all
}

// TestJustOnTheEdge: what lies exactly on a bound is still allowed, and the
// next thing beyond it is not.
func TestJustOnTheEdge(t *testing.T) {
	bare := func(pairs ...string) string {
		text := strings.NewReplacer(`draw_in       = "5%"`, `draw_in = "0%"`,
			`shrink_width  = "10%"`, `shrink_width = "0%"`, "reed     =", "# reed =").
			Replace(mended(t))
		for i := 0; i < len(pairs); i += 2 {
			require.Equal(t, 1, strings.Count(text, pairs[i]), pairs[i])
			text = strings.Replace(text, pairs[i], pairs[i+1], 1)
		}
		return text
	}
	const sett = `sett          = "10/cm"`
	p, err := planned(bare(sett, `sett = "2.5/cm"`)) // three ends of 4 mm
	require.NoError(t, err)
	assert.Equal(t, 12.0, p.Cloth.FloatWeftMM)
	_, err = planned(bare(sett, `sett = "2.49/cm"`))
	assert.ErrorContains(t, err, "the longest weft float, over 3 ends")

	p, err = planned(bare("treadles = 6", "treadles = 4")) // two for tabby, one for each block
	require.NoError(t, err)
	assert.NotContains(t, codes(p), "treadles")
	p, err = planned(bare("treadles = 6", "treadles = 3"))
	require.NoError(t, err)
	assert.Contains(t, strings.Join(codes(p), " "), "treadles")

	one := strings.NewReplacer(`width = "10 cm"`, `in_reed = "3 cm"`, `length = "12 cm"`,
		`length = "2 mm"`, `hem = "1 cm"`, `hem = "0 cm"`,
		`stripes = 3 }`+"\n[[piece]]", `stripes = 1 }`+"\n[[piece]]").Replace(smallBrief)
	p, err = planned(one)
	require.NoError(t, err)
	assert.Equal(t, 1, p.Pieces[0].BodyUnits)
}
