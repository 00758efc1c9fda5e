package sequence

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestOnEdges: worked by hand. Nine stripes of 5 end at 5, 10 ... 45; ABA in 1 2 1 would
// have its edges at 11.25 and 33.75, nearest to 10 and 35. In thirds of 40, four stripes
// of 10, they would be at 13.33 and 26.67, nearest to 10 and 30.
func TestOnEdges(t *testing.T) {
	for _, c := range []struct {
		stripes []int
		weights []int64
		want    []int
	}{
		{[]int{5, 5, 5, 5, 5, 5, 5, 5, 5}, []int64{1, 2, 1}, []int{10, 25, 10}},
		{[]int{10, 10, 10, 10}, []int64{1, 1, 1}, []int{10, 20, 10}},
		{[]int{3, 7, 2, 8}, []int64{1, 1}, []int{10, 10}},
		// 4 is as near to the cloth's edge as to 8
		{[]int{8, 4}, []int64{1, 2}, []int{8, 4}},
		// 4 is as near to 2 as to 6: the left one
		{[]int{2, 4, 4}, []int64{2, 3}, []int{2, 8}},
		// 4 and 10 lie between 2 and 6, 8 and 12: a mirror image
		{[]int{2, 4, 2, 4, 2}, []int64{2, 3, 2}, []int{2, 10, 2}},
		{[]int{7}, []int64{3}, []int{7}},
	} {
		got, err := OnEdges(c.stripes, c.weights)
		require.NoError(t, err)
		assert.Equal(t, c.want, got, "%v in %v", c.weights, c.stripes)
	}
}

// TestABlockWouldVanish: of four blocks two edges fall on one stripe edge.
func TestABlockWouldVanish(t *testing.T) {
	_, err := OnEdges([]int{10, 10}, []int64{4, 1, 1, 4})
	var gone *VanishError
	require.ErrorAs(t, err, &gone)
	assert.Equal(t, 1, gone.Block)
	_, err = OnEdges([]int{9, 4}, []int64{4, 9}) // 4 is nearer to the cloth's edge than to 9
	require.ErrorAs(t, err, &gone)
	assert.Equal(t, 0, gone.Block)
	_, err = OnEdges([]int{10, 10}, []int64{0, 1})
	assert.Error(t, err)
}

// TestInShares: widths 3 1 1 1 3 with A at both ends and in the middle are 7 of A and 2
// of B; a third of A and two of B make 3/21 1/3 1/21 1/3 3/21, in 21 parts 3 7 1 7 3.
func TestInShares(t *testing.T) {
	got, err := InShares([]int64{3, 1, 1, 1, 3}, []int{0, 1, 0, 1, 0}, []int64{1, 2}, false)
	require.NoError(t, err)
	assert.Equal(t, []int64{3, 7, 1, 7, 3}, got)
	half, err := InShares([]int64{3, 1, 1}, []int{0, 1, 0}, []int64{1, 2}, true)
	require.NoError(t, err)
	assert.Equal(t, []int64{3, 7, 1}, half)
	_, err = InShares([]int64{3, 1}, []int{0, 0}, []int64{1, 2}, false)
	var absent *AbsentError
	require.ErrorAs(t, err, &absent)
	assert.Equal(t, 1, absent.Group)
}

// TestInSharesOfFineWeights: proportional steps come in parts of 2^-28, whose exact
// scaling would take numbers too large to share out; the share is met all the same.
func TestInSharesOfFineWeights(t *testing.T) {
	fine, err := (&Graded{Stripes: 8, Ratio: big.NewRat(7, 1), Steps: proportional}).Weights(nil)
	require.NoError(t, err)
	got, err := InShares(fine, []int{0, 1, 0, 1, 0, 1, 0, 1}, []int64{2, 1}, false)
	require.NoError(t, err)
	units, err := Share(got, 900, Limits{})
	require.NoError(t, err)
	a := units[0] + units[2] + units[4] + units[6]
	assert.InDelta(t, 600, a, 2)
	assert.InDelta(t, float64(fine[2])/float64(fine[0]), float64(got[2])/float64(got[0]), 1e-6)
}

// TestCentred: of 1 2 1 the middle is half the width; at two fifths it begins at 0.15 and
// ends at 0.65, so that 0.15, 0.5 and 0.35 are 3 10 7 in twentieths.
func TestCentred(t *testing.T) {
	got, err := Centred([]int64{1, 2, 1}, big.NewRat(2, 5))
	require.NoError(t, err)
	assert.Equal(t, []int64{3, 10, 7}, got)
	same, err := Centred([]int64{1, 2, 1}, big.NewRat(1, 2))
	require.NoError(t, err)
	assert.Equal(t, []int64{1, 2, 1}, same)
	_, err = Centred([]int64{1, 2, 1}, big.NewRat(1, 4))
	assert.ErrorContains(t, err, "no room beside the middle block, which is 50 % of the width")
	_, err = Centred([]int64{1, 2}, big.NewRat(1, 2))
	assert.ErrorContains(t, err, "odd number")
	_, err = Centred([]int64{1}, big.NewRat(1, 2))
	assert.Error(t, err)
}

func FuzzOnEdges(f *testing.F) {
	f.Add([]byte{5, 5, 5}, []byte{1, 2, 1})
	f.Fuzz(func(t *testing.T, s, w []byte) {
		if len(s) == 0 || len(w) == 0 || len(s) > 60 || len(w) > 60 {
			return
		}
		var stripes []int
		n := 0
		for _, v := range s {
			stripes = append(stripes, int(v)+1)
			n += int(v) + 1
		}
		var weights []int64
		for _, v := range w {
			weights = append(weights, int64(v)+1)
		}
		blocks, err := OnEdges(stripes, weights)
		if err != nil {
			return
		}
		edges, at := map[int]bool{}, 0
		for _, u := range stripes {
			at += u
			edges[at] = true
		}
		at = 0
		for _, u := range blocks {
			require.Positive(t, u)
			at += u
			require.True(t, edges[at], "on a stripe edge")
		}
		require.Equal(t, n, at)
	})
}
