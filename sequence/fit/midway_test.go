package fit

import (
	"context"
	"fmt"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

// TestRestAgrees: of a warp that is on the loom, what the rest of a plan takes gives just
// the pieces that are yet to come, and a millimetre less does not.
func TestRestAgrees(t *testing.T) {
	chance := rand.New(rand.NewPCG(8, 15))
	compared := 0
	for range 150 {
		text := madeUp(chance)
		b, err := brief.Parse("made-up", []byte(text), brief.Options{})
		require.NoError(t, err)
		p, err := plan.Make(context.Background(), b)
		if err != nil || len(p.Pieces) < 2 {
			continue
		}
		woven := 1 + chance.IntN(len(p.Pieces)-1)
		lengths := strings.TrimSuffix(strings.Repeat(`"40 cm", `, woven), ", ")
		all := make([]int, woven)
		for i := range all {
			all[i] = i
		}
		changes := append(plan.RunsOf(b, p)[:1], plan.HoldOf(b, p, all)...)
		for _, i := range all {
			changes = append(changes, brief.Change{Key: fmt.Sprintf("piece[%d].hold", i)})
		}
		changes = append(changes, brief.Change{Key: "midway.woven", Value: "[" + lengths + "]"},
			brief.Text("midway.warp", "9 m"))
		rest, err := brief.Edit("rest", []byte(text), changes)
		require.NoError(t, err)
		b, err = brief.Parse("rest", rest, brief.Options{})
		require.NoError(t, err, string(rest))
		p, err = plan.Make(context.Background(), b)
		require.NoError(t, err)
		takes, _ := new(big.Rat).SetString(fmt.Sprint(p.Warp.WoundMM))
		a, err := Make(b, p, Question{WarpMM: takes})
		require.NoError(t, err)
		coming := len(p.Pieces) - woven
		assert.Equal(t, coming, a.Fits, string(rest))
		if less, err := Make(b, p,
			Question{WarpMM: new(big.Rat).Sub(takes, big.NewRat(1, 1))}); err == nil {
			assert.Less(t, less.Fits, coming, string(rest))
		}
		compared++
	}
	assert.Greater(t, compared, 50)
}
