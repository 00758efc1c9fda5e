package packet

import (
	"bytes"
	"context"
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
	"stripesong/sequence/plan"
)

func planOf(t testing.TB, text []byte) *plan.Plan {
	t.Helper()
	b, err := brief.Parse("test", text, brief.Options{})
	require.NoError(t, err)
	p, err := plan.Make(context.Background(), b)
	require.NoError(t, err)
	return p
}

func pageOf(t testing.TB, p *plan.Plan) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, Write(&b, p))
	return b.Bytes()
}

func TestX(t *testing.T) {
	p := planOf(t, brief.Default())
	require.NoError(t, os.WriteFile("/tmp/pk/packet.html", pageOf(t, p), 0o644))
}
