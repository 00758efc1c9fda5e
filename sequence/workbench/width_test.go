package workbench

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/sequence/brief"
)

// TestWidthIsTold: a stripe that is wider makes every piece wider, and a warp that is written
// out follows no width that is asked for.
func TestWidthIsTold(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	before := b.wide()
	said, err := b.Do(t.Context(), Op{Do: "setting", Key: "set.width", Value: before})
	require.NoError(t, err)
	assert.NotContains(t, said, "written out")
	said, err = b.Do(t.Context(), Op{Do: "units", Strip: Warp, Run: 1, To: 30})
	require.NoError(t, err)
	assert.NotEqual(t, before, b.wide())
	assert.Contains(t, said, "; the cloth is "+b.wide()+" wide now, not "+before)
	said, err = b.Do(t.Context(), Op{Do: "setting", Key: "set.width", Value: "60 cm"})
	require.NoError(t, err)
	assert.Contains(t, said, "; the warp is written out and stays "+b.wide()+" wide")
}

// TestKeepingIsTold: an edit that writes a piece out says so, and once.
func TestKeepingIsTold(t *testing.T) {
	b, err := Open(t.Context(), "b.toml", brief.Default(), brief.Options{})
	require.NoError(t, err)
	said, err := b.Do(t.Context(), Op{Do: "units", Strip: 0, Run: 0, To: 5})
	require.NoError(t, err)
	assert.Contains(t, said, "; kept as it is from now on: first light")
	said, err = b.Do(t.Context(), Op{Do: "units", Strip: 0, Run: 0, To: 6})
	require.NoError(t, err)
	assert.NotContains(t, said, "kept")
}
