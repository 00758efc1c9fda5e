package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestRefit by hand, on plainCloth, which asks for 40 threading and 60 weft units. The
// warp's 10 20 10 becomes 10 20 10; its 8 4 8 of 20 becomes 16 8 16. Pieces of 24 units in
// 3 6 3 6 3 2 1 are to be 60, two and a half times as much: 7.5 15 7.5 15 7.5 5 2.5, of
// which whole parts sum to 58, and the first two halves go up.
func TestRefit(t *testing.T) {
	refit := func(oldNew ...string) (string, []Refitted) {
		t.Helper()
		text := with(t, plainCloth, oldNew...)
		b, err := brief.Parse("b.toml", text, brief.Options{})
		require.NoError(t, err)
		changes, all, err := Refit(b)
		require.NoError(t, err)
		after, err := brief.Edit("b.toml", text, changes)
		require.NoError(t, err)
		return string(after), all
	}
	_, none := refit(warpEven, `runs = ["A 10 oat", "B 20 rye", "A 10 oat"]`)
	assert.Empty(t, none)
	text, all := refit(warpEven, `runs = ["A 8 oat", "B 4 rye", "A 8 oat"]`)
	assert.Equal(t, []Refitted{{Piece: -1, Was: 20, Is: 40, WasMM: 100, MM: 200}}, all)
	assert.Contains(t, text, `runs = ["A 16 oat", "B 8 rye", "A 16 oat"]`)

	const odd = `["A 3 oat", "B 6 rye", "A 3 oat", "B 6 rye", "A 3 oat", "plain 2", "A 1 oat"]`
	text, all = refit(weftEven, weftEven+"\n[[piece]]\nname = \"x\"\nruns = "+odd+
		"\n[[piece]]\nname = \"y\"\n[[piece]]\nhold = true\nruns = "+odd)
	assert.Equal(t, []Refitted{{Piece: 0, Was: 24, Is: 60, WasMM: 60, MM: 150}}, all,
		"held ones scale themselves")
	assert.Contains(t, text, `["A 8 oat", "B 15 rye", "A 8 oat", "B 15 rye", "A 7 oat",`)
	assert.Contains(t, text, `"plain 5", "A 2 oat"]`)
	assert.Contains(t, text, odd, "as it was")

	// what all pieces inherit is written once, where it stands
	text, all = refit(weftEven, "runs = "+odd, "[set]", "[set]\npieces = 2")
	assert.Len(t, all, 2)
	assert.Contains(t, text,
		"[weft]\nground = \"oat\"\ncolours = [\"plum dye\"]\nruns = [\"A 8 oat\"")
	assert.NotContains(t, text, "[[piece]]")

	// without a size there is nothing to scale to
	text, all = refit(`length = "15 cm"`, "", weftEven, "runs = "+odd)
	assert.Empty(t, all)
	assert.Contains(t, text, odd)
}

// TestRefitRefusesWhatDoesNotFit: 5 mm are two weft units.
func TestRefitRefusesWhatDoesNotFit(t *testing.T) {
	text := with(t, plainCloth, weftEven, `runs = ["A 1 oat", "B 1 rye", "A 1 oat", "B 1 rye"]`,
		`length = "15 cm"`, `length = "5 mm"`)
	b, err := brief.Parse("b.toml", text, brief.Options{})
	require.NoError(t, err)
	_, _, err = Refit(b)
	assert.ErrorContains(t, err, "4 runs do not fit into 2 units")
}

// TestOff: off is more than two hundredths (a judgement): of 100 mm more
// than 2.
func TestOff(t *testing.T) {
	assert.False(t, Refitted{WasMM: 102, MM: 100}.Off())
	assert.True(t, Refitted{WasMM: 97.9, MM: 100}.Off())
}
