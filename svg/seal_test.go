package svg

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"stripesong/palette"
)

func TestSealed(t *testing.T) {
	drawing := []byte("<svg>\n</svg>\n")
	// sha256sum of these thirteen bytes
	const want = "<svg>\n</svg>\n" +
		"<!-- \"stripesong try\" replaces this drawing while it is unchanged: sha256 " +
		"4619f9a509cd9a6a54e4ea41ba97a399d62c28df5b552722f9210bc12c7bc84c -->\n"
	sealed := Sealed("try", drawing)
	assert.Equal(t, want, string(sealed))
	assert.Equal(t, "<svg>\n</svg>\n", string(drawing))

	t.Run("any change is noticed", func(t *testing.T) {
		require.True(t, IsSealed("try", sealed))
		for i := range sealed {
			for _, other := range []string{"", "~", "\r" + string(sealed[i])} {
				edited := string(sealed[:i]) + other + string(sealed[i+1:])
				assert.False(t, IsSealed("try", []byte(edited)), edited)
			}
		}
		for _, more := range []string{"\n", " ", "<!-- hers -->\n"} {
			assert.False(t, IsSealed("try", []byte(string(sealed)+more)))
			assert.False(t, IsSealed("try", []byte(more+string(sealed))))
		}
	})
	t.Run("what another command made", func(t *testing.T) {
		assert.False(t, IsSealed("contrast", sealed))
		assert.False(t, IsSealed("tr", sealed))
	})
	t.Run("what was never sealed", func(t *testing.T) {
		for _, text := range []string{"", "\n", "<svg/>", string(drawing),
			strings.Repeat("x", 500)} {
			assert.False(t, IsSealed("try", []byte(text)), text)
		}
	})
	t.Run("a sealed drawing is a drawing", func(t *testing.T) {
		var drawn bytes.Buffer
		red := palette.RGB{R: 200, G: 30, B: 30}
		require.NoError(t, Swatches(&drawn, "one", "", []Swatch{{Name: "red", Colour: red}}))
		sealed := Sealed("try", drawn.Bytes())
		assert.Equal(t, "svg", tree(t, sealed).Name)
		assert.True(t, IsSealed("try", sealed))
	})
}
