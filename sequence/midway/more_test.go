package midway

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// moreOf is the way with one piece more; "" for none.
func moreOf(a *Answer) *Way {
	for i := range a.Ways {
		if strings.Contains(a.Ways[i].What, "one more") {
			return &a.Ways[i]
		}
	}
	return nil
}

// TestOneMore by hand: of the four, two take 2 x 60 / 0.9 = 133.3 cm and 60 of waste. Where
// 270 cm are left a third of 66.7 goes in. Of 230 cm 36.7 are over, 33 cm of cloth, 165
// units, 29.7 finished. Of 210 cm 16.7 are over, 15 of cloth, 75 units, which is less than a
// third of 300. What was wound is 2 x 60 / 0.9 = 133.3 cm more than is left.
func TestOneMore(t *testing.T) {
	for _, c := range []struct{ left, wound, length string }{
		{"270 cm", "404 cm", "5 after %s 600.0 540.0"},
		{"230 cm", "364 cm", "5 after %s 330.0 297.0"},
		{"210 cm", "344 cm", ""},
	} {
		a := answer(t, four, "woven = 2\n[warp]\nleft = \""+c.left+"\"\nwound = \""+c.wound+"\"\n")
		w := moreOf(a)
		if c.length == "" {
			assert.Nil(t, w, c.left)
			continue
		}
		require.NotNil(t, w, c.left)
		require.Len(t, w.Pieces, 3)
		like := strings.TrimPrefix(w.Pieces[2].Name, "after ")
		assert.Equal(t, []string{"3 three 600.0 540.0", "4 four 600.0 540.0",
			strings.Replace(c.length, "%s", like, 1)}, lengths(*w))
		_, p := planned(t, string(w.Text()))
		require.Len(t, p.Pieces, 5)
		assert.GreaterOrEqual(t, differsFrom(p, 5), 1.0, "it passes for no other")
		assert.GreaterOrEqual(t, p.Midway.LeftMM, 0.0)
	}
}

// TestOneMoreWhereAllAreWoven: 60 cm of waste and 66.7 of a piece go into 130 cm, and of 90
// cm 27 cm of cloth, 135 units; of 80 cm 18, 90 units, are too little.
func TestOneMoreWhereAllAreWoven(t *testing.T) {
	ask := func(left, wound string) *Answer {
		return answer(t, four, "woven = 4\n[warp]\nleft = \""+left+"\"\nwound = \""+wound+"\"\n")
	}
	a := ask("130 cm", "397 cm")
	require.NotEmpty(t, a.Ways)
	assert.Equal(t, 540.0, a.Ways[0].Pieces[0].FinishedMM)
	assert.Regexp(t, `^one more, "after \w+", like "\w+" with its (blocks|colours)`, a.Ways[0].What)
	b, p := planned(t, string(a.Ways[0].Text()))
	assert.Equal(t, 4, p.Midway.Woven)
	assert.Len(t, b.Pieces, 5)
	a = ask("90 cm", "357 cm")
	require.Len(t, a.Ways, 1)
	assert.Equal(t, 270.0, a.Ways[0].Pieces[0].WovenMM)
	a = ask("80 cm", "347 cm")
	assert.Empty(t, a.Ways)
	assert.Contains(t, a.Nearest, "all 4 pieces of the set are woven; one piece more")
}

// TestTurnedColours: of three pattern colours each is followed by the next; plain and the
// blocks stay.
func TestTurnedColours(t *testing.T) {
	b, _ := planned(t, strings.Replace(four, "name = \"one\"\n",
		"name = \"one\"\nruns = [\"A 9 night\", \"plain 2\", \"B 3 moss\", \"A 4 plum\"]\n", 1))
	turned, ok := turnedColours(b.Pieces[0].Weft.Runs)
	assert.True(t, ok)
	assert.Equal(t, []string{"A 9 moss", "plain 2", "B 3 plum", "A 4 night"},
		b.RunTexts(turned))
	assert.Equal(t, []string{"B 9 moss", "plain 2", "A 3 plum", "B 4 night"},
		b.RunTexts(exchangedBlocks(turned, 2)))
	_, ok = turnedColours(turned[:1])
	assert.False(t, ok)
}
