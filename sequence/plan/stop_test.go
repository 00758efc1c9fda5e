package plan

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// stopAt is a context that ends when it has been asked so often.
type stopAt struct {
	context.Context
	left int
}

func (s *stopAt) Err() error {
	if s.left--; s.left < 0 {
		return context.Canceled
	}
	return nil
}

// Whenever a plan is stopped, there is none; and it asks with every piece that
// is worked out, judged and compared.
func TestMakeStopsAnywhere(t *testing.T) {
	b, err := brief.Parse("b", brief.Default(), brief.Options{})
	require.NoError(t, err)
	asked := 0
	for ; ; asked++ {
		p, err := Make(&stopAt{context.Background(), asked}, b)
		if err == nil {
			break
		}
		require.Nil(t, p)
		require.ErrorIs(t, err, context.Canceled)
	}
	assert.GreaterOrEqual(t, asked, 3*len(b.Pieces))
}
