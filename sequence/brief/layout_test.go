package brief

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/measure"
)

// weftWith is the built-in brief with keys in [weft].
func weftWith(t *testing.T, keys string) (*Brief, error) {
	t.Helper()
	text := strings.Replace(string(Default()), "[weft] ", keys0(keys), 1)
	require.NotEqual(t, string(Default()), text)
	return Parse("b.toml", []byte(text), Options{})
}

func keys0(keys string) string { return "[weft]\n" + keys + "\n#" }

func lengthMM(n, of int64) *measure.Length { return &measure.Length{MM: big.NewRat(n, of)} }

func TestMiddleIsRead(t *testing.T) {
	for text, want := range map[string]Middle{
		"60% plain":             {Share: big.NewRat(3, 5), Run: Run{Block: -1, Colour: -1}},
		" 12.5 %  even  7":      {Share: big.NewRat(1, 8), Even: 7},
		"50% A leaf shade":      {Share: big.NewRat(1, 2), Run: Run{Block: 0, Colour: 5}},
		"27 1/2 in B oat":       {Length: lengthMM(55*127, 10), Run: Run{Block: 1, Colour: 0}},
		"40cm   B   oat thread": {Length: lengthMM(400, 1), Run: Run{Block: 1, Colour: 2}},
	} {
		b, err := weftWith(t, `middle = "`+text+`"`)
		require.NoError(t, err, text)
		got := *b.Weft.Rule.Middle
		if want.Length == nil {
			assert.Zero(t, got.Share.Cmp(want.Share), text)
		} else {
			assert.Zero(t, got.Length.MM.Cmp(want.Length.MM), text)
		}
		assert.Equal(t, want.Even, got.Even, text)
		assert.Equal(t, want.Run, got.Run, text)
		// what is written is read as the same
		again, err := weftWith(t, `middle = "`+b.MiddleText(&got)+`"`)
		require.NoError(t, err, b.MiddleText(&got))
		assert.Equal(t, b.MiddleText(&got), again.MiddleText(again.Weft.Rule.Middle))
	}
	b, err := weftWith(t, `middle = "none"`)
	require.NoError(t, err)
	assert.Nil(t, b.Weft.Rule.Middle)
	assert.Equal(t, "none", b.MiddleText(nil))
}

func TestMistakesInTheMiddle(t *testing.T) {
	for text, says := range map[string]string{
		"plain":        `"plain" is not how much and what`,
		"60%":          `"60%" is not how much and what`,
		"60 plain":     `is not how much and what`,
		"120% plain":   `is not how much and what`,
		"0% plain":     "must be more than nothing, and less than all",
		"0 cm plain":   "must be more than nothing",
		"100% plain":   "must be more than nothing, and less than all",
		"60% even":     "does not say how many even stripes",
		"60% even 0":   "does not say how many even stripes",
		"60% even two": "does not say how many even stripes",
		"60% A":        `"60% A" has no colour`,
		"60% C oat":    `there is no block "C"`,
		"60% A oats":   `there is no colour "oats"`,
	} {
		_, err := weftWith(t, `middle = "`+text+`"`)
		assert.ErrorContains(t, err, "weft.middle: ", text)
		assert.ErrorContains(t, err, says, text)
	}
	text := strings.Replace(string(Default()), "[warp] ", "[warp]\nmiddle = \"60% plain\"\n#", 1)
	_, err := Parse("b.toml", []byte(text), Options{})
	assert.ErrorContains(t, err, "warp.middle: a warp has no plain stretch")
}

func TestMiddleWith(t *testing.T) {
	for _, c := range []struct {
		text, old, want string
		has             bool
	}{
		{"60% A oat thread", "oat thread", "60% A hem yarn", true},
		{"27 1/4 in  B oat", "oat", "27 1/4 in B hem yarn", true},
		{"60% A oat thread", "oat", "60% A oat thread", false},
		{"60% plain", "plain", "60% plain", false},
		{"60% even 5", "5", "60% even 5", false},
		{"nonsense", "nonsense", "nonsense", false},
	} {
		got, has := MiddleWith(c.text, c.old, "hem yarn")
		assert.Equal(t, c.want, got)
		assert.Equal(t, c.has, has, c.text)
	}
}

// TestBlocksInShares: A and B in 1 to 2 of ABA in 1 1 1 are 1/6 2/3 1/6, 1 4 1.
func TestBlocksInShares(t *testing.T) {
	for keys, want := range map[string]Blocks{
		`blocks = { letters = "ABA", shares = [1, 2] }`: {Apart: true,
			Letters: []int{0, 1, 0}, Weights: []int64{1, 4, 1}},
		`blocks = { letters = "AB", shares = [1, 2], mirror = true }`: {Apart: true,
			Letters: []int{0, 1}, Weights: []int64{1, 4}, Mirror: true},
		`blocks = { shares = [1, 2] }`: {
			Shares: []int64{1, 2}},
		`blocks = { letters = "ABA", edges = "stripes" }`: {Apart: true,
			Letters: []int{0, 1, 0}, Weights: []int64{1, 1, 1}, OnEdges: true},
		`blocks = { letters = "ABA", edges = "free" }`: {Apart: true,
			Letters: []int{0, 1, 0}, Weights: []int64{1, 1, 1}},
		`blocks = { letters = "ABA", weights = [1, 2, 1], centre = "40%" }`: {Apart: true,
			Letters: []int{0, 1, 0}, Weights: []int64{3, 10, 7}},
	} {
		b, err := weftWith(t, keys)
		require.NoError(t, err, keys)
		got := b.Weft.Rule.Blocks
		got.Laid = nil // what is written
		assert.Equal(t, want, got, keys)
	}
}

func TestMistakesInBlocks(t *testing.T) {
	for keys, says := range map[string]string{
		`blocks = { shares = [1, 2, 3] }`: "weft.blocks.shares: " +
			"has 3 numbers for the blocks A, B",
		`blocks = { shares = [1, 2], edges = "stripes" }`: "weft.blocks.edges: " +
			"goes with letters",
		`blocks = { shares = [1, 2], weights = [1, 2] }`: "weft.blocks.weights: " +
			"goes with letters",
		`blocks = { letters = "AAA", shares = [1, 2] }`: "block B is to have a " +
			"share and is not among the letters",
		`blocks = { letters = "ABA", edges = "edges" }`: `"edges" is none of free, stripes`,
		`blocks = { letters = "AB", centre = "40%" }`: "weft.blocks.centre: " +
			"centre wants a middle block",
		`blocks = { letters = "ABA", centre = "5%" }`: "centre leaves no room " +
			"beside the middle block, which is 33 %",
		`blocks = { letters = "AB", mirror = true, centre = "40%" }`: "stands beside " +
			"mirror = true",
		`blocks = { letters = "ABA", shares = [1, 0] }`: "should hold numbers " +
			"more than 0",
		`blocks = { letters = "ABA", weights = [1, 2], shares = [1, 2]}`: "has 2 numbers for " +
			"3 letters",
		`blocks = { edges = "stripes" }`: "weft.blocks.letters: " +
			"is missing",
		`blocks = { letters = "ABA", sheres = [1, 2] }`: "weft.blocks.sheres: " +
			"there is no such key",
	} {
		_, err := weftWith(t, keys)
		assert.ErrorContains(t, err, says, keys)
	}
}
