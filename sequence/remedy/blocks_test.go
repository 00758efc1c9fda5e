package remedy

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestTheLeastWovenBlockGoes by hand: of the warp's 12 parts B has 1 and C 5, and no piece
// has B. B goes then, C is called B, and stands for C wherever the brief says so. In the
// warp B lies between A and C once each, so that the first kept in turn, C, stands in for it.
func TestTheLeastWovenBlockGoes(t *testing.T) {
	text := changed(t, threeBlocks(t), `[loom]`, "[loom]\nshafts = 4\ntreadles = 10",
		"[warp]\ncolours = [\"oat\"]\nrhythm = { kind = \"repeat\", weights = [3, 1], times = 4 }",
		"[warp]\ncolours = [\"oat\"]\nrhythm = { kind = \"even\", stripes = 1 }\n"+
			"blocks = { letters = \"ABC\", weights = [6, 1, 5] } # in her order",
		"rhythm = { kind = \"even\", stripes = 9 }",
		"rhythm = { kind = \"even\", stripes = 9 }\nblocks = { letters = \"ACA\" }\n"+
			"middle = \"40% C plum\" # wide",
		`"A 40 moss", "C 40 rust", "B 40 moss"`, `"A 40 moss", "C 40 rust", "A 40 moss"`)
	a := find(t, text, ".")
	first := offered(a, "shafts")[0]
	assert.Equal(t, "three on 4 shafts, without block B (block B as C, C then called B)", first)
	for _, r := range a.Remedies {
		if r.What != first {
			continue
		}
		after := take(t, text, r)
		for _, says := range []string{`blocks = { letters = "ABB", weights = [6, 1, 5] } # in`,
			`blocks = { letters = "ABA" }`, `middle = "40% B plum" # wide`,
			`runs = ["A 40 moss", "B 40 rust", "A 40 moss"]`,
			"units = { A = [1, 3, 2, 3], B = [1, 4, 2, 4] } # C is the border",
			"b = [3, 4]"} {
			assert.Contains(t, after, says)
		}
		_, p := planOf(t, reader("."), after)
		assert.Equal(t, 4, p.Weave.Shafts)
		_, before := planOf(t, reader("."), text)
		assert.Equal(t, before.Pieces[4].BodyUnits, p.Pieces[4].BodyUnits)
	}
}

// TestSharesOfAGoneBlock: what it had goes to the block that stands in for it.
func TestSharesOfAGoneBlock(t *testing.T) {
	text := changed(t, threeBlocks(t), `[loom]`, "[loom]\nshafts = 4\ntreadles = 10",
		"weights = [3, 1], times = 4 }",
		"weights = [3, 1], times = 6 }\nblocks = { shares = [3, 2.5, 1] }\nfirst = \"C\"")
	for _, r := range find(t, text, ".").Remedies {
		if !strings.HasPrefix(r.What, "three on 4 shafts, without block C") {
			continue
		}
		after := take(t, text, r)
		require.Contains(t, r.What, "block C as A")
		assert.Contains(t, after, "blocks = { shares = [4, 2.5] }")
		assert.Contains(t, after, `first = "A"`)
		return
	}
	require.Fail(t, "the block with the least share was not offered to go")
}
